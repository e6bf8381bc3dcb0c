"""Every mistake that a writer of clauses can make: whole diagnostics, one file for each.

Each `mistakes/*.clauses` says in its first line what it shows; the diagnostics of its loading, and of its examples
where it can be used, stand beside it in `*.expected`. Files without expectations are what others stand on.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from speccheck.judge import rehearse
from speccheck.language import load_ruleset, load_vocabulary
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.format.house_style import format_text
from speccheck.language.syntax.source_text import read_source
from speccheck.report.all_codes import chapters

MISTAKES = Path(__file__).parent / "mistakes"
NAMES = sorted(path.stem for path in MISTAKES.glob("*.expected"))


def diagnostics_of(path: Path) -> tuple[Diagnostic, ...]:
    """Return everything there is to say about a file and, where it can be used, its examples."""
    text = re.sub(r"^\s*(--.*)?\n", "", path.read_text(encoding="utf-8", errors="replace"), flags=re.MULTILINE)
    if text.startswith("vocabulary"):
        return load_vocabulary(path).diagnostics
    loaded = load_ruleset(path)
    if not loaded.usable:
        return loaded.diagnostics
    assert loaded.ruleset is not None
    return (*loaded.diagnostics, *rehearse(loaded.ruleset).diagnostics)


@pytest.mark.parametrize("name", NAMES)
def test_mistake_is_told_in_full(name: str) -> None:
    """A mistake is told with its code, its place, the offending text underlined, and what to write instead."""
    told = "\n\n".join(str(found) for found in diagnostics_of(MISTAKES / f"{name}.clauses"))
    assert told + "\n" == (MISTAKES / f"{name}.expected").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", [name for name in NAMES if re.match(r"L\d", name)])
def test_file_shows_its_code(name: str) -> None:
    """A file that is named by a code shows this code."""
    assert name[:4] in {found.code for found in diagnostics_of(MISTAKES / f"{name}.clauses")}


def test_every_code_is_shown() -> None:
    """No code of the language is without a file that shows it."""
    assert {name[:4] for name in NAMES if re.match(r"L\d", name)} == set(chapters()["Rulesets and vocabularies"])


@pytest.mark.parametrize("name", NAMES)
def test_what_cannot_be_read_is_not_formatted(name: str) -> None:
    """The formatter gives text or the parser's own diagnostics, never both and never a part of the file."""
    source = read_source(MISTAKES / f"{name}.clauses")
    if isinstance(source, Diagnostic):
        return
    laid_out = format_text(source)
    told = {str(found) for found in diagnostics_of(MISTAKES / f"{name}.clauses")}
    assert isinstance(laid_out, str) or {str(found) for found in laid_out} <= told
