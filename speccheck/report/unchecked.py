"""The paragraphs of the specification that no clause checks: the sentence that ends every report, and the list of them.

In: a ruleset, which says `not checked` of paragraphs and why. A ruleset that says so of none tells nothing here: nobody
knows then which paragraphs of the section it leaves out.
"""

from __future__ import annotations

from speccheck.english import agree, count
from speccheck.language.core import Ruleset, UncheckedParagraph
from speccheck.report.sections import ReportTable

_HEADINGS = ("Paragraph", "Title", "Why it is not checked", "Words of the section")


def unchecked_sentence(ruleset: Ruleset) -> str:
    """Return how many paragraphs of the section nothing checks, in one sentence; "" where the ruleset tells of none."""
    number = len(ruleset.unchecked)
    if not number:
        return ""
    verb = agree(number, "is", "are")
    return f"{count(number, 'paragraph')} of the section {verb} not checked by this program."


def unchecked_sections(ruleset: Ruleset) -> tuple[ReportTable, ...]:
    """Return the list of these paragraphs as the one section of a report, or no section where there are none."""
    if not ruleset.unchecked:
        return ()
    rows = tuple(_row(one, ruleset) for one in ruleset.unchecked)
    sentence = f"{unchecked_sentence(ruleset)} Somebody has to read them."
    return (ReportTable("not-checked-paragraphs", "Paragraphs not checked", sentence, _HEADINGS, rows),)


def why(one: UncheckedParagraph) -> str:
    """Return why a paragraph is not checked: the reason, and the words behind it where there are any."""
    return f"{one.reason.value}: {one.because}" if one.because else one.reason.value


def _row(one: UncheckedParagraph, ruleset: Ruleset) -> tuple[str, ...]:
    origin = "" if one.ruleset == ruleset.name else f" of {one.ruleset}"
    return (f"{one.name}{origin}", one.title, why(one), one.wording)
