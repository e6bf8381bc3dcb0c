"""Reports of proofreading: the terminal, the page and Markdown tell the same, whole, and keep text of others text."""

from __future__ import annotations

import io
from collections.abc import Sequence
from pathlib import Path

import pytest
from markdown_it import MarkdownIt
from rich.console import Console

from speccheck.language import load_ruleset, parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.language.diagnostics import Place
from speccheck.proofread.findings import Undecided
from speccheck.proofread.messages.comparing import WHETHER_CHANGED
from speccheck.proofread.messages.redundancy import WHETHER_IMPLIED
from speccheck.proofread.proofreading import proofread
from speccheck.proofread.revisions import Revised, compare_revisions
from speccheck.proofread.stringency import Stringency, compare_stringency
from speccheck.proofread.verdicts import turned_verdicts
from speccheck.quantities import Quantity
from speccheck.report.proofreading.against import proofreading_against
from speccheck.report.proofreading.alone import proofreading_alone
from speccheck.report.proofreading.page import render_proofreading_markdown, render_proofreading_page
from speccheck.report.proofreading.report import ProofreadingReport
from speccheck.report.proofreading.since import proofreading_since
from speccheck.report.terminal.proofreading import print_proofreading
from speccheck.schedule.lines import Datum, Line, Schedule
from tests.report.page_reader import read_page
from tests.some import some

FOLDER = Path(__file__).parents[1] / "proofread"
BASE = """
clause 1 "Thickness"
  wording "Not thinner than <b>1 inch</b> | or so."
  shall thickness be at least 1 in

clause 2 "Jacket"
  where outdoors
  shall jacket be aluminum

clause 3 "Fasteners"
  shall fasteners be at least 3
"""
REVISED = (
    BASE.replace("at least 1 in", "at least 2 in")
    .replace("clause 3", "clause 30")
    .replace("where outdoors", "where not outdoors")
)


def _ruleset(text: str, name: str = "case", edition: str = "1") -> Ruleset:
    header = f'ruleset "{name}"\n  edition "{edition}"\n  speaks "vocabulary"\n'
    loaded = parse_ruleset(header + text, f"{name}.clauses", FOLDER)
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


def _wanting() -> Ruleset:
    ruleset = load_ruleset(FOLDER / "wanting.clauses").ruleset
    assert ruleset is not None
    return ruleset


def _alone() -> ProofreadingReport:
    ruleset = _wanting()
    found = proofread(ruleset)
    question = Undecided(WHETHER_IMPLIED.at(Place(), clause="11", other="<i>2</i>"), ("11",), "no line was found")
    return proofreading_alone(ruleset, type(found)(found.findings, (question,)))


def _against() -> ProofreadingReport:
    specification, code = _ruleset(REVISED, "specification"), _ruleset(BASE, "code")
    return proofreading_against(specification, code, compare_stringency(specification, code))


def _since() -> ProofreadingReport:
    base, revised = _ruleset(BASE), _ruleset(REVISED, edition="2")
    inch = Datum(Quantity(0.0254, "length", "in"), "1 in")
    schedule = Schedule("schedule", (Line("CHW-1 <b>", {"thickness": inch, "fasteners": Datum(2.0, "2")}),))
    changes = compare_revisions(base, revised)
    return proofreading_since(base, revised, changes, turned_verdicts(base, revised, schedule, schedule))


REPORTS = {"alone": _alone, "against": _against, "since": _since}


def _terminal(report: ProofreadingReport) -> str:
    written = io.StringIO()
    print_proofreading(report, Console(file=written, width=100), width=100)
    return written.getvalue()


def _words(text: str) -> str:
    """Return text without the marks that set quoted parts apart and without line breaks."""
    return " ".join(text.translate({ord(sign): "" for sign in "`“”"}).replace("\u00a0", " ").split())


def test_findings_are_grouped_by_kind() -> None:
    """One group for each code, in the order of the codes; a question that stays open is in none of them."""
    report = _alone()
    found = proofread(_wanting()).findings
    assert [group.anchor for group in report.groups] == sorted({one.code for one in found})
    assert sum(len(group.remarks) for group in report.groups) == len(found)
    assert {one.code for group in report.groups for one in group.remarks if group.anchor != one.code} == set()
    assert [one.message for one in report.undecided] == [
        "whether clause `<i>2</i>` implies clause `11`: no line was found"
    ]
    assert (report.status, report.heading) == (1, "21 findings.")


@pytest.mark.parametrize("name", REPORTS)
def test_every_form_tells_all(name: str) -> None:
    """Each message, each example, each row of a table stands in the terminal, on the page and in Markdown."""
    report = REPORTS[name]()
    page = read_page(render_proofreading_page(report))
    markdown = MarkdownIt("commonmark").enable("table").parse(render_proofreading_markdown(report))
    shown = " ".join(_inline(token.children or []) for token in markdown if token.type == "inline")
    remarks = [one for group in report.groups for one in group.remarks] + list(report.undecided)
    texts = [report.heading, *(remark.message for remark in remarks)]
    texts += [text for remark in remarks for line in remark.lines for pair in line.data for text in pair]
    texts += [text for table in report.tables for row in table.rows for text in row]
    for form in (_words(_terminal(report)), _words(page.text), _words(shown)):
        assert [text for text in texts if _words(text) not in form] == []


def _inline(tokens: Sequence[object]) -> str:
    return "".join(getattr(token, "content", "") for token in tokens)


@pytest.mark.parametrize("name", REPORTS)
def test_text_of_others_stays_text(name: str) -> None:
    """What looks like markup in a clause, a question or a line makes no element on the page and none in Markdown."""
    report = REPORTS[name]()
    page = read_page(render_proofreading_page(report))
    assert not page.named("i")
    assert all("1 inch" not in element.text for element in some(page.named("b")))
    html = MarkdownIt("commonmark", {"html": True}).enable("table").render(render_proofreading_markdown(report))
    assert "<b>" not in html
    assert "<i>" not in html
    assert not page.named("script")


@pytest.mark.parametrize("name", REPORTS)
def test_clauses_can_be_followed(name: str) -> None:
    """Every link on the page leads to something on it, and every clause with wording shows it."""
    report = REPORTS[name]()
    page = read_page(render_proofreading_page(report))
    targets = {element.attributes["id"] for element in page.elements if "id" in element.attributes}
    links = [element.attributes["href"] for element in page.named("a")]
    assert links
    assert {link.removeprefix("#") for link in links} <= targets
    wordings = {one.clause.wording for one in report.clauses if one.clause is not None and one.clause.wording}
    assert wordings <= {quote.text for quote in page.named("blockquote")}


@pytest.mark.parametrize("name", REPORTS)
def test_the_same_findings_make_the_same_bytes(name: str) -> None:
    """Asked twice, each form is the same to the byte."""
    first, second = REPORTS[name](), REPORTS[name]()
    for render in (render_proofreading_page, render_proofreading_markdown, _terminal):
        assert render(first) == render(second)


def test_stringency_is_a_table_with_lines_beside_it() -> None:
    """By hand: twice the thickness is stricter, a jacket asked for elsewhere is looser, the fasteners are the same."""
    report = _against()
    (table,) = report.tables
    assert table.rows == (
        ("1", "Thickness", "stricter", "1"),
        ("2", "Jacket", "looser", "2"),
        ("3", "Fasteners", "same", "30"),
    )
    told = {group.title: [line.text for one in group.remarks for line in one.lines] for group in report.groups}
    assert told["Stricter than the code"] == ["thickness 1 in"]
    assert [(group.anchor, len(group.remarks)) for group in report.groups] == [("looser", 1), ("stricter", 1)]
    assert (report.status, report.heading) == (1, "The specification is looser than 1 of 3 clauses of the code.")


def test_nothing_looser_ends_with_0() -> None:
    """A specification checked against itself is the same throughout, and no group is left to tell."""
    ruleset = _ruleset(BASE)
    found = compare_stringency(ruleset, ruleset)
    assert {one.stringency for one in found} == {Stringency.SAME}
    report = proofreading_against(ruleset, ruleset, found)
    assert (report.status, report.groups) == (0, ())
    assert report.heading == "The specification is nowhere looser than the code."


def test_renumbered_clause_turns_no_verdict() -> None:
    """Clause 3 became 30 and means the same: its verdict on the line does not turn; that on the thickness does."""
    report = _since()
    (table,) = report.tables
    assert table.rows == (
        ("CHW-1 <b>", "1", "complies", "does not comply", "thickness is 1 in, but must be at least 2 in"),
    )
    assert [group.title for group in report.groups] == [
        "Stricter than before",
        "Looser than before",
        "Renumbered clauses",
    ]


def test_undecided_alone_ends_with_2() -> None:
    """Where nothing was found and a question stays open, that is what the heading says, with status 2."""
    ruleset = _ruleset(BASE)
    question = Undecided(WHETHER_CHANGED.at(Place(), clause="1", change="stricter"), ("1",), "no line was found")
    assert not any(isinstance(one, Revised) for one in compare_revisions(ruleset, ruleset))
    report = proofreading_since(ruleset, ruleset, [question])
    assert (report.status, report.heading) == (2, "No change of meaning was found; some questions stay open.")
