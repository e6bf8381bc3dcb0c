"""The shape of a mapping file, checked by pydantic. Imported only where a mapping file is read."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

RowNumber = Annotated[int, Field(ge=1, le=1_000_000)]


class MappedColumnEntry(BaseModel):
    """A term and the unit of the bare numbers of its column."""

    model_config = ConfigDict(extra="forbid", strict=True)
    term: str
    unit: str = ""


class MappingFile(BaseModel):
    """A whole mapping file; unknown keys are errors."""

    model_config = ConfigDict(extra="forbid", strict=True, alias_generator=lambda name: name.replace("_", "-"))
    units: Literal["", "inch-pound", "metric"] = ""
    sheet: str = ""
    header_row: RowNumber | Annotated[list[RowNumber], Field(min_length=1, max_length=3)] | None = None
    ignore: list[str] = []
    repeat_blanks: list[str] | None = None
    read_hidden: bool = False
    seen: list[str] = []
    ignore_sheets: list[str] = []
    constants: dict[str, str] = {}
    columns: dict[str, str | MappedColumnEntry] = {}
    values: dict[str, dict[str, str]] = {}
