"""The shape of a mapping file, checked by pydantic. Imported only where a mapping file is read."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

RowNumber = Annotated[int, Field(ge=1, le=1_000_000)]


class MappedColumnEntry(BaseModel):
    """A term, the unit of the bare numbers of its column, and the value that a column stands for."""

    model_config = ConfigDict(extra="forbid", strict=True)
    term: str = Field(description="the name of a term in quotation marks")
    unit: str = Field("", description="a unit in quotation marks")
    stands_for: dict[str, str] | None = Field(
        None, alias="for", min_length=1, max_length=1, description='one term and its value: { "pipe size" = "2 in" }'
    )


class MappedTableEntry(BaseModel):
    """The constants of some tables."""

    model_config = ConfigDict(extra="forbid", strict=True)
    sheet: str = Field("", description="the name of a sheet in quotation marks")
    heading: str = Field("", description="the words above the table in quotation marks")
    constants: dict[str, str] = Field(description='terms and their values: { location = "outdoor" }')


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
    notes: list[str] = Field([], description="a list of the texts with which such rows begin")
    ignore_sheets: list[str] = Field([], description="a list of names of sheets")
    constants: dict[str, str] = Field({}, description="the value as a text")
    columns: dict[str, str | MappedColumnEntry] = Field({}, description="the name of a term, or a term and its unit")
    values: dict[str, dict[str, str | dict[str, str]]] = Field(
        {}, description="the value as a text, or a table of terms and their values"
    )
    legend: dict[str, dict[str, str]] = Field({}, description="a table of terms and their values")
    tables: list[MappedTableEntry] = Field([], description="a table [[tables]] with constants for some tables")
