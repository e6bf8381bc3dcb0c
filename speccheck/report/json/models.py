"""The shape of the JSON report, from which its published schema is made. Importing this module imports pydantic.

Fields are only ever added; a change of meaning or a removal makes a new `version`.
"""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from speccheck.report.json.beside_models import (
    ComparisonModel,
    DeviationModel,
    ObservationModel,
    Part,
    PlaceModel,
    VerdictWord,
)


class DiagnosticModel(Part):
    """A remark on how the schedule was read."""

    code: str
    severity: Literal["error", "warning", "note"]
    message: str
    help: str
    place: PlaceModel


class SourceModel(Part):
    """Where a clause comes from, and how sure that is ("" where it does not say)."""

    text: str
    confidence: Literal["seen", "second hand", "from memory", "common practice", "computed", ""]


class ClauseModel(Part):
    """One clause, by the label that reports call it by."""

    label: str
    title: str
    ruleset: str
    wording: str
    reason: str
    sources: list[SourceModel]
    notes: list[str]
    cautions: list[str]


class UncheckedModel(Part):
    """A paragraph of the section that no clause checks, and why."""

    number: str
    title: str
    ruleset: str
    reason: Literal[
        "document",
        "act on site",
        "qualification",
        "order of work",
        "left to the manufacturer",
        "other section",
        "vague",
    ]
    because: str
    wording: str


class RulesetModel(Part):
    """The ruleset that was judged by."""

    name: str
    edition: str
    document: str
    jurisdiction: str
    verified: str
    covers: str
    leaves_out: str
    clauses: list[ClauseModel]
    paragraphs_not_checked: list[UncheckedModel]


class DatumModel(Part):
    """One datum of a line: as written, as understood ("" if it is not given), where, and what was done to read it.

    `inferred` says that the line does not state it itself: `note` has where it came from.
    """

    term: str
    text: str
    understood: str
    given: bool
    note: str
    inferred: bool
    place: PlaceModel


class LineModel(Part):
    """One line of the schedule with its gravest verdict over the mandatory clauses."""

    name: str
    verdict: VerdictWord
    place: PlaceModel
    data: list[DatumModel]


class ColumnModel(Part):
    """How one column was understood; `term` is "" where it became no term."""

    header: str
    term: str
    unit: str
    note: str
    place: PlaceModel


class RemarkModel(Part):
    """Text of the file that belongs to no line."""

    text: str
    place: PlaceModel


class UnreadModel(Part):
    """Something that was not read as data, and that a person has to read before the schedule can comply."""

    kind: str
    text: str
    place: PlaceModel
    lines: list[str] = Field(
        description="the names of the lines that it stands on or under; empty: perhaps any of them"
    )


class ScheduleModel(Part):
    """The schedule as it was read."""

    name: str
    lines: list[LineModel]
    columns: list[ColumnModel]
    remarks: list[RemarkModel]
    unread: list[UnreadModel]
    diagnostics: list[DiagnosticModel]


class ValueModel(Part):
    """One amount as it was compared or worked out: in full where it is a number, otherwise in words."""

    number: float | None = Field(description="to twelve significant digits; null where it is no finite number")
    unit: str
    text: str


class StepModel(Part):
    """One step of the working; `holds` is null where it is not known."""

    part: str = Field(description="where, except, shall or should")
    depth: int = Field(description="how far the step lies inside another")
    holds: bool | None
    text: str
    detail: str
    values: list[ValueModel] = Field(description="the amounts that the step compares, left to right, as far as known")


class CellModel(Part):
    """One cell of the matrix."""

    line: int = Field(description="position of the line in schedule.lines, from 0")
    clause: int = Field(description="position of the clause in ruleset.clauses, from 0")
    verdict: VerdictWord
    mandatory: bool = Field(description="false for a clause of advice alone, whose verdict decides nothing")
    basis: str
    reason: str
    at: list[str] = Field(description="the sizes and temperatures for which the verdict holds, where not for all")
    missing: list[str] = Field(description="the terms that would settle it")
    notes: list[str]
    advice: VerdictWord | None
    advice_reason: str
    steps: list[StepModel]


class OutcomeModel(Part):
    """What the whole comes to; `status` is the exit status of a check."""

    status: Literal[0, 1, 2, 3]
    complete: bool = Field(description="whether everything in the schedule was read or set aside by a stated rule")
    heading: str
    details: list[str]


class CountsModel(Part):
    """How many cells of mandatory clauses have each verdict."""

    does_not_comply: int
    cannot_be_determined: int
    accepted_deviation: int
    complies: int
    not_checked: int
    not_applicable: int


class RequestModel(Part):
    """A datum to ask the contractor for, and the clauses that wait for it."""

    line: int
    term: str
    says: str
    clauses: list[int]


class RelationModel(Part):
    """How lines of the schedule stand to one another by a paragraph: which lines, the verdict, and why."""

    paragraph: str
    title: str
    ruleset: str
    lines: list[str]
    verdict: Literal["does not comply", "cannot be determined", "complies", "not applicable"]
    reason: str


class DocumentModel(Part):
    """A document that the section asks for: what it is to be of, for which lines, and how it stands."""

    paragraph: str
    title: str
    ruleset: str
    kind: str
    of: str
    lines: list[str]
    standing: Literal["not satisfied", "cannot be determined", "satisfied", "not applicable"]
    reason: str


class MatrixModel(Part):
    """A compliance matrix: a ruleset, a schedule, a cell for each pair, and what it comes to."""

    report: Literal["speccheck compliance matrix"]
    version: Literal[2]
    outcome: OutcomeModel
    counts: CountsModel
    ruleset: RulesetModel
    schedule: ScheduleModel
    cells: list[CellModel]
    missing_data: list[RequestModel]
    deviations: list[DeviationModel]
    observations: list[ObservationModel]
    documents: list[DocumentModel] = Field([], description="what the section asks to be submitted")
    relations: list[RelationModel] = Field([], description="how lines stand to one another")
    comparison: ComparisonModel | None
    cautions: list[str]
    not_checked_by_this_program: str = Field(
        description="the sentence that ends every report; empty where the ruleset names none"
    )
