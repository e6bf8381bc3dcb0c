"""The table of diagnostics: every code that is used is explained, and every explained code is used."""

from __future__ import annotations

import re
from pathlib import Path

import speccheck
from speccheck.schedule import codes

SOURCES = Path(speccheck.__file__).parent


def test_every_code_has_a_title_and_an_explanation() -> None:
    """Titles are short and in lower case, explanations are whole sentences, and codes are S and three digits."""
    for code, (title, explanation) in codes.DIAGNOSTICS.items():
        assert re.fullmatch(r"S\d{3}", code)
        assert 0 < len(title) <= 60
        assert not title.endswith(".")
        assert explanation[0].isupper()
        assert explanation.endswith(".")


def test_every_code_is_used_and_explained() -> None:
    """The constants of the table are all explained, and each is used by some module."""
    constants = {name: value for name, value in vars(codes).items() if re.fullmatch(r"S\d{3}", str(value))}
    assert set(constants.values()) == set(codes.DIAGNOSTICS)
    text = "".join(path.read_text(encoding="utf-8") for path in SOURCES.rglob("*.py") if path.name != "codes.py")
    assert [name for name in constants if f"codes.{name}" not in text and f" {name}" not in text] == []
