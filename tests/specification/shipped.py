"""What tests of sections share: the shipped vocabulary, and the Word documents that the demo's maker writes."""

from __future__ import annotations

import importlib.util
from functools import cache
from pathlib import Path

from speccheck.language import load_vocabulary
from speccheck.language.vocabulary.terms import Vocabulary

DEMO = Path(__file__).parents[2] / "examples" / "dairy"


@cache
def vocabulary() -> Vocabulary:
    """The shipped vocabulary, read once."""
    found = load_vocabulary("mechanical insulation").vocabulary
    assert found is not None
    return found


def section_document(text: str) -> bytes:
    """The Word document of a section that is written as text, by the demo's own maker."""
    spec = importlib.util.spec_from_file_location("make_section", DEMO / "make_section.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    document: bytes = module.section_document(text)
    return document
