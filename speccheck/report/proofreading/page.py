"""A report of proofreading as an HTML page that needs nothing else and prints, and as Markdown with text of others
escaped.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from speccheck.english import listed
from speccheck.report.escaping import markdown_safe
from speccheck.report.html.small_page import render_small_page
from speccheck.report.markdown.report import bullets, table
from speccheck.report.proofreading.report import NamedClause, ProofreadingRemark, ProofreadingReport

if TYPE_CHECKING:
    from markupsafe import Markup


def render_proofreading_markdown(report: ProofreadingReport) -> str:
    """Return the report as Markdown: what it comes to, tables, findings by kind, open questions, clauses, cautions."""
    parts = [
        f"# {markdown_safe(report.kind)}: {markdown_safe(report.title)}",
        *([markdown_safe(f"{report.beside_as.capitalize()} {report.beside}.")] if report.beside else []),
        f"**{markdown_safe(report.heading)}**",
        *bullets(report.sentences),
    ]
    for section in report.tables:
        parts += [f"## {markdown_safe(section.title)}", markdown_safe(section.sentence)]
        parts.append(table(section.headings, section.rows))
    for group in report.groups:
        parts += [f"## {markdown_safe(group.title)}", _quoted(group.meaning)]
        parts += _remarks(group.remarks)
    if report.undecided:
        parts += ["## Not decided", "No answer was proved either way.", *_remarks(report.undecided)]
    if report.clauses:
        parts += ["## Clauses named above", *(part for named in report.clauses for part in _clause(named))]
    return "\n\n".join([*parts, "## Cautions", *bullets(report.cautions)]) + "\n"


def _remarks(remarks: Iterable[ProofreadingRemark]) -> Iterator[str]:
    for remark in remarks:
        code = f"**{remark.code}** " if remark.code else ""
        yield code + _quoted(remark.message)
        facts = [f"at {remark.place}"] if remark.place else []
        facts += [f"clause {listed(clause.label for clause in remark.clauses)}"] if remark.clauses else []
        facts += [f"among others: {remark.systems}"] if remark.systems else []
        facts += [f"help: {remark.help}"] if remark.help else []
        yield from bullets(facts)
        for line in remark.lines:
            yield _quoted(f"{line.shows}:")
            yield table([markdown_safe(term) for term, _ in line.data], [[text for _, text in line.data]])


def _clause(named: NamedClause) -> Iterator[str]:
    clause = named.clause
    assert clause is not None, named
    yield f"### {markdown_safe(f'{named.label} {clause.title}'.strip())}"
    if clause.wording:
        yield f"> {markdown_safe(clause.wording)}"
    yield f"From: {markdown_safe(clause.ruleset)}"


def _quoted(text: str) -> str:
    """Return a sentence, escaped, with quotation marks around what stands between backticks."""
    return markdown_safe(re.sub(r"`([^`]+)`", r"“\1”", text))


# The space between a number and a short unit, where a line had better not end.
_BEFORE_UNIT = re.compile(r"(?<=\d) (?=(?:F|C|in|ft|mm|m)\b)")
_STYLES = ("page.css", "proofreading.css")


def render_proofreading_page(report: ProofreadingReport) -> str:
    """Return the page; the same report gives the same text."""
    anchors = {named.label: named.anchor for named in report.clauses}
    return render_small_page(
        "proofreading.html.j2", styles=_STYLES, report=report, anchors=anchors, quoted=_quoted_markup
    )


def _quoted_markup(text: str) -> Markup:
    """Return a sentence, escaped, with what stands between backticks set apart and numbers kept with their units."""
    from markupsafe import Markup, escape

    whole = _BEFORE_UNIT.sub("\u00a0", text)
    return Markup(re.sub(r"`([^`]+)`", r"<q>\1</q>", str(escape(whole))))
