"""The shapes of the files that a reviewer writes, checked by pydantic: the register of deviations, and the notes.

Descriptions complete "write ...". Imported only where such a file is read.
"""

from __future__ import annotations

import datetime
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field, StringConstraints

Words = Annotated[str, StringConstraints(strip_whitespace=True, min_length=1)]


class _Table(BaseModel):
    model_config = ConfigDict(extra="forbid", strict=True)


class DeviationEntry(_Table):
    """One accepted deviation."""

    name: Words = Field(description="`name`, by which the letters call the deviation, in quotation marks")
    clause: Words = Field(description="`clause`, its number in quotation marks")
    lines: Words = Field(description="`lines`, a condition of the clause language in quotation marks")
    reason: Words = Field(description="`reason`, why it was accepted, in quotation marks")
    reference: Words = Field(description="`reference`, where it was accepted, in quotation marks")
    until: datetime.date | None = Field(None, description="a date without quotation marks: 2026-06-30")


class RegisterFile(_Table):
    """A whole register."""

    deviation: list[DeviationEntry] = Field(min_length=1, description="a table [[deviation]] for each deviation")


class ReceivedEntry(_Table):
    """One thing that was received."""

    document: Words = Field(description='`document`, what it is, in quotation marks: "data sheet"')
    name: str = Field("", description="the name of the document in quotation marks")
    of: dict[str, str] = Field({}, description='what it is of: of = { insulation = "mineral wool" }')
    lines: list[str] = Field([], description='the lines that it is for: lines = ["P-1", "P-2"]')
    dated: datetime.date | None = Field(None, description="a date without quotation marks: 2026-03-04")


class ReceivedFile(_Table):
    """A whole register of what was received."""

    received: list[ReceivedEntry] = Field([], description="a table [[received]] for each thing that came")


class NoteEntry(_Table):
    """One note."""

    line: dict[str, str] = Field(
        min_length=1, description='`line`, what tells the line from others: line = { mark = "P-1" }'
    )
    clause: str = Field("", description="the number of a clause in quotation marks")
    round: str = Field("", description="the round in quotation marks")
    status: str = Field("", description="a word in quotation marks")
    text: str = Field("", description="the note in quotation marks")


class TransmittalEntry(_Table):
    """What a reply says of itself."""

    project: str | None = Field(None, description="the project in quotation marks")
    submittal: str | None = Field(None, description="the submittal in quotation marks")
    round: str | None = Field(None, description="the round in quotation marks")
    sender: str | None = Field(None, alias="from", description="who sends the reply, in quotation marks")
    to: str | None = Field(None, description="to whom the reply goes, in quotation marks")
    date: str | None = Field(None, description="the date as the reply writes it, in quotation marks")
    action: str | None = Field(None, description="the action in quotation marks")


class NotesFile(_Table):
    """A whole file of notes."""

    note: list[NoteEntry] = Field([], description="a table [[note]] for each note")
    transmittal: TransmittalEntry | None = Field(None, description="a table [transmittal]")
