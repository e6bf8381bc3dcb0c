"""What a review found beside the verdicts, as tables that every report can draw: a title, headings, rows of words.

In: a matrix. Out: sections, none of them empty: accepted deviations, what the register, the design list and the
product data brought up, and what became of the round before. What of the schedule a person has to read is a section of
its own, which stands first in every report.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from speccheck.english import capitalized, count
from speccheck.judge.cell import Cell
from speccheck.judge.judgement import Verdict
from speccheck.language.diagnostics import Place
from speccheck.report.line_words import drawn_together, place_words
from speccheck.report.wording import clause_label
from speccheck.review.documents import DocumentStanding
from speccheck.review.editions import ClauseChange
from speccheck.review.matrix import Matrix
from speccheck.review.observations import Topic
from speccheck.review.rounds import ChangeKind, Fate, RoundComparison, TermChange
from speccheck.schedule.lines import Schedule

Row = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ReportTable:
    """One table: a name for links, a title of at most 31 characters, a sentence, headings, rows.

    A row has one text a heading. `settled` says that nobody has to act on it.
    """

    anchor: str
    title: str
    sentence: str
    headings: tuple[str, ...]
    rows: tuple[Row, ...]
    settled: bool = False


_UNREAD = (
    "This was not read as data and may change what is proposed. The schedule is not told to comply until it has been "
    "seen: settle it on the screen Reading of the desk, or list the texts under `seen` in a mapping file."
)
_OBSERVED = ("Weight", "Lines", "What was found", "What to do", "Place")
_TOPICS = (
    (Topic.DEVIATIONS, "register", "Register of deviations", "What is to be said of the accepted deviations."),
    (Topic.DESIGN, "design", "Design list", "The schedule checked against the systems that the building has."),
    (Topic.RECEIVED, "received", "Received and not asked for", "What of the register nothing asks for."),
    (Topic.YEAR, "year", "A year of energy", "What the lines that do not comply cost a year."),
    (Topic.PRODUCTS, "products", "Product data", "The schedule checked against what product data show."),
)


def sections(matrix: Matrix) -> tuple[ReportTable, ...]:
    """Return the sections that have anything in them, in the order of a report."""
    found = (_accepted(matrix), _relations(matrix), _documents(matrix), *_observed(matrix))
    rounds = () if matrix.comparison is None else _rounds(matrix.comparison)
    return tuple(section for section in (*found, *rounds) if section.rows)


def to_be_read(schedule: Schedule) -> tuple[ReportTable, ...]:
    """Return the section on what of a schedule was not read as data, none where everything was."""
    rows = [
        (str(one.kind), one.text, f"on {drawn_together(one.lines)}" if one.lines else "", place_words(one.place))
        for one in schedule.unread
    ]
    headings = ("What", "Text", "Lines", "Place")
    return (ReportTable("unread", "For a person to read", _UNREAD, headings, tuple(rows)),) if rows else ()


def _accepted_by(cell: Cell) -> list[str]:
    """Return the deviations by which a cell was accepted; what reads registers is loaded where there was one."""
    from speccheck.review.accepting import accepted_by

    return list(map(str, accepted_by(cell)))


def _accepted(matrix: Matrix) -> ReportTable:
    rows = [
        (
            found.line.name,
            f"{clause_label(found.clause)} {found.clause.title}",
            found.cell.reason,
            "; ".join(_accepted_by(found.cell)),
        )
        for found in matrix.findings(Verdict.ACCEPTED)
    ]
    sentence = "These lines do not meet the clause. The engineer has accepted that; it is no compliance."
    headings = ("Line", "Clause", "What is not met", "Accepted as")
    return ReportTable("deviations", "Accepted deviations", sentence, headings, tuple(rows))


def _relations(matrix: Matrix) -> ReportTable:
    """Return how lines stand to one another by each relation, the gravest first."""
    order = [Verdict.FAILS, Verdict.CANNOT_TELL, Verdict.COMPLIES, Verdict.NOT_APPLICABLE]
    rows = [
        (
            str(one.verdict),
            f"{one.relation.name} {one.relation.title}",
            drawn_together(one.lines),
            one.reason,
        )
        for one in sorted(matrix.relations, key=lambda one: order.index(one.verdict))
    ]
    sentence = "What the section asks lines to have in common, and what they come to together."
    return ReportTable(
        "relations", "Lines beside one another", sentence, ("Verdict", "Paragraph", "Lines", "Reason"), tuple(rows)
    )


def _documents(matrix: Matrix) -> ReportTable:
    """Return how each document that the section asks for stands, the gravest first."""
    order = list(DocumentStanding)
    rows = [
        (
            one.standing.value,
            f"{one.document.name} {one.document.title}",
            " of ".join(filter(None, [one.document.kind.value, one.subject])),
            drawn_together(one.lines),
            one.reason,
        )
        for one in sorted(matrix.documents, key=lambda one: order.index(one.standing))
    ]
    sentence = "What the section asks to be submitted, checked against the register of what was received."
    headings = ("Standing", "Paragraph", "Document", "Lines", "Reason")
    return ReportTable("documents", "Documents to be submitted", sentence, headings, tuple(rows))


def _observed(matrix: Matrix) -> Iterator[ReportTable]:
    """Yield a section for each topic on which something was found; warnings before notes."""
    for topic, anchor, title, sentence in _TOPICS:
        mine = [one for one in matrix.observations if one.topic is topic]
        mine.sort(key=lambda one: one.diagnostic.severity == "note")
        rows = [
            (
                f"{one.diagnostic.severity} {one.diagnostic.code}",
                drawn_together(one.lines),
                one.diagnostic.message,
                one.diagnostic.help,
                _whole_place(one.diagnostic.place),
            )
            for one in mine
        ]
        yield ReportTable(anchor, title, sentence, _OBSERVED, tuple(rows))


def _whole_place(place: Place) -> str:
    """Return the file without folders, and the place in it."""
    return place_words(replace(place, file=place.file.replace("\\", "/").rsplit("/", 1)[-1], among_files=True))


# ---- the round before --------------------------------------------------------------------------------------------

_OPEN_FATES = (Fate.NEW, Fate.STILL_OPEN, Fate.LINE_DROPPED, Fate.CLAUSE_DROPPED, Fate.NO_LONGER_APPLIES)
_SETTLED_FATES = (Fate.ACCEPTED, Fate.CLOSED)


def _rounds(found: RoundComparison) -> tuple[ReportTable, ...]:
    """Return what became of the round before: first what somebody has to look at, then what is settled."""
    before = f"Compared with {found.old_name}."
    return (
        ReportTable(
            "findings-then",
            "Findings since the round before",
            f"{before} {counted(found)}",
            ("What became of it", "Line", "Clause", "Then and now"),
            tuple(_followed(found, _OPEN_FATES)),
        ),
        ReportTable(
            "silent",
            "Changes not requested",
            "No finding of the round before asked for these changes. Look at each of them.",
            ("Line", "Datum", "Then", "Now", "Place"),
            tuple(map(_changed, found.silent)),
        ),
        ReportTable(
            "moved",
            "Lines added, dropped, renamed",
            "Lines are matched by what they are, not by their name or row.",
            ("What", "Then", "Now"),
            tuple(_moved(found)),
        ),
        ReportTable(
            "clauses-then",
            "Clauses that changed",
            f"From {found.rulesets[0]} to {found.rulesets[1]}, compared by meaning.",
            ("What became of it", "Then", "Now", "Clause", "What differs"),
            tuple(map(clause_row, found.clauses)),
        ),
        ReportTable(
            "settled",
            "Findings closed",
            "Findings of the round before that are met now, or accepted as deviations.",
            ("What became of it", "Line", "Clause", "Then and now"),
            tuple(_followed(found, _SETTLED_FATES)),
            settled=True,
        ),
        ReportTable(
            "asked",
            "Changes that were asked for",
            "Whether they are enough, the findings say.",
            ("Line", "Datum", "Then", "Now", "Place"),
            tuple(map(_changed, found.of_kind(ChangeKind.ASKED))),
            settled=True,
        ),
        ReportTable(
            "newly-stated",
            "Stated for the first time",
            "The round before did not state these data, and no finding asked for them.",
            ("Datum", "Lines"),
            tuple(_newly_stated(found.of_kind(ChangeKind.NEWLY_STATED))),
            settled=True,
        ),
    )


def counted(found: RoundComparison) -> str:
    """Return how many findings met each fate, and how many changes were silent, in one sentence."""
    parts = [f"{number} {fate}" for fate in Fate if (number := len(found.with_fate(fate)))]
    silent = len(found.silent)
    findings = f"Findings: {', '.join(parts)}." if parts else "No finding in either round."
    asked = count(silent, "change not requested by the review", "changes not requested by the review")
    return f"{findings} {capitalized(asked)}."


def _followed(found: RoundComparison, fates: Iterable[Fate]) -> Iterator[Row]:
    for one in found.with_fate(*fates):
        yield (str(one.fate), one.line, f"{one.clause} {one.title}", one.words)


def _changed(change: TermChange) -> Row:
    return (change.line, change.term, change.old, change.now, place_words(change.place))


def _moved(found: RoundComparison) -> Iterator[Row]:
    yield from (("added", "", name) for name in found.added)
    yield from (("dropped", name, "") for name in found.dropped)
    yield from (("renamed", old, new) for old, new in found.renamed)


def _newly_stated(changes: Iterable[TermChange]) -> Iterator[Row]:
    by_term: dict[str, list[str]] = {}
    for change in changes:
        by_term.setdefault(change.term, []).append(change.line)
    return ((term, drawn_together(lines)) for term, lines in by_term.items())


def clause_row(change: ClauseChange) -> Row:
    """Return what became of a clause: fate, label then, label now, title, what differs."""
    return (str(change.fate), change.old, change.new, change.title, "; ".join(change.details))
