"""The shape of what stands beside the verdicts in the JSON report: deviations, observations, the round before.

Also the parts that all of the report has: places, verdicts, and models that allow no other field.
"""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from speccheck.review.observations import Topic

VerdictWord = Literal[
    "does not comply", "cannot be determined", "accepted deviation", "complies", "not checked", "not applicable"
]


class Part(BaseModel):
    """What all parts of the report have in common: no field but those named here."""

    model_config = ConfigDict(extra="forbid")


class PlaceModel(Part):
    """Where something stands: in a text file by line and column from 1, in a workbook by sheet and cell."""

    file: str
    line: int = Field(description="0 where it does not apply")
    column: int = Field(description="0 where it does not apply")
    sheet: str
    cell: str


class DeviationModel(Part):
    """One deviation of the register; `until` is the last day on which it holds, null where it has no end."""

    name: str
    clause: str = Field(description="the label of the clause")
    lines: str = Field(description="the condition, as written")
    reason: str
    reference: str
    until: str | None
    accepted_on: list[int] = Field(description="positions of the lines on which it is an accepted deviation, from 0")


class ObservationModel(Part):
    """What the register, the design list or the product data brought up."""

    topic: Topic
    code: str
    severity: Literal["error", "warning", "note"]
    message: str
    help: str
    lines: list[str] = Field(description="names of the lines that it is about")
    clauses: list[str] = Field(description="labels of the clauses that it is about")
    place: PlaceModel


class FollowedModel(Part):
    """What became of one finding; verdicts are null where the line or the clause is not in that round."""

    fate: str
    line: str
    clause: str
    then: VerdictWord | None
    now: VerdictWord | None
    reason: str


class ChangeModel(Part):
    """One datum of a line that says something else than in the round before."""

    line: str
    term: str
    then: str
    now: str
    kind: Literal["a finding asked for it", "no finding asked for it", "stated for the first time"]
    place: PlaceModel


class RenamedModel(Part):
    """A line that has another name than in the round before."""

    then: str
    now: str


class ClauseChangeModel(Part):
    """What became of a clause, where the rounds were judged by two editions of a ruleset."""

    fate: str
    then: str
    now: str
    title: str
    details: list[str]


class ComparisonModel(Part):
    """What became of the round before."""

    then: str
    now: str
    findings: list[FollowedModel]
    changes: list[ChangeModel]
    added: list[str]
    dropped: list[str]
    renamed: list[RenamedModel]
    clauses: list[ClauseChangeModel]
