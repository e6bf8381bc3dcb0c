"""What all parts of the JSON report have in common. Importing this module imports pydantic."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

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
