"""The shape of a mapping file, checked by pydantic. Imported only where a mapping file is read."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

RowNumber = Annotated[int, Field(ge=1, le=1_000_000)]


class MappedColumnEntry(BaseModel):
    """A term and the unit of the bare numbers of its column."""

    model_config = ConfigDict(extra="forbid", strict=True)
    term: str = Field(description="the name of a term in quotation marks")
    unit: str = Field("", description="a unit in quotation marks")


class MappingFile(BaseModel):
    """A whole mapping file; unknown keys are errors. Descriptions complete "write ..."."""

    model_config = ConfigDict(extra="forbid", strict=True, alias_generator=lambda name: name.replace("_", "-"))
    units: Literal["", "inch-pound", "metric"] = Field("", description='"inch-pound" or "metric"')
    sheet: str = Field("", description="the name of one sheet")
    header_row: RowNumber | Annotated[list[RowNumber], Field(min_length=1, max_length=3)] | None = Field(
        None, description="a row number from 1, or a list of up to three"
    )
    ignore: list[str] = Field([], description="a list of headers or column letters")
    repeat_blanks: list[str] | None = Field(None, description="a list of terms")
    read_hidden: bool = Field(False, description="true or false")
    seen: list[str] = Field([], description="a list of texts")
    ignore_sheets: list[str] = Field([], description="a list of names of sheets")
    constants: dict[str, str] = Field({}, description="the value as a text")
    columns: dict[str, str | MappedColumnEntry] = Field({}, description="the name of a term, or a term and its unit")
    values: dict[str, dict[str, str]] = Field({}, description="the value as a text")
