"""The settings of a project: what project.toml says."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from speccheck.language.diagnostic_rules import Rule
from speccheck.toml_files import FileKind, read_toml_file

SETTINGS = "project.toml"
_RULE = Rule("", "settings of a project", "What project.toml says.")  # its code is never shown
_KIND = FileKind(_RULE, _RULE, "write name, against, units, design, products, deviations, received and on")


class Unreadable(Exception):
    """A project.toml that cannot be used, and why: nothing is made of a project whose settings are not known."""


class Settings(BaseModel):
    """What project.toml says; the paths are inside the folder of the project, and "" stands for none."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True)
    name: str = Field(default="", description="the name of the project in quotation marks")
    against: str = Field(default="", description="the name of a ruleset in quotation marks")
    units: Literal["", "inch-pound", "metric"] = Field(default="", description='"inch-pound" or "metric"')
    design: str = Field(default="", description="the name of a file in quotation marks")
    products: str | list[str] = Field(
        default="", description="the name of a file, or a list of names in square brackets"
    )
    deviations: str = Field(default="", description="the name of a file in quotation marks")
    received: str = Field(default="", description="the name of a file in quotation marks")
    on: datetime.date | None = Field(default=None, description="the day of the review, such as 2026-03-04")

    @property
    def product_files(self) -> tuple[str, ...]:
        """The names of the files of product data."""
        if isinstance(self.products, str):
            return (self.products,) if self.products else ()
        return tuple(self.products)

    def with_(self, **changes: Any) -> Settings:
        """Return the settings with some of them changed."""
        return self.model_copy(update=changes)


def read_settings(folder: Path) -> Settings:
    """Return what project.toml says; keys that it lacks are empty, and so are all where there is no such file yet."""
    path = folder / SETTINGS
    if not path.exists():
        return Settings()
    file, problems = read_toml_file(path, Settings, _KIND)
    if file is None:
        raise Unreadable("; ".join(f"{one.place}: {one.message} ({one.help})" for one in problems))
    return file.entries


def settings_text(settings: Settings) -> str:
    """Return the text of project.toml; what is empty is left out."""
    import tomlkit

    document = tomlkit.document()
    document.add(tomlkit.comment("A project of speccheck. The paths are inside this folder."))
    for key, value in settings:
        if value:
            document[key] = value
    return tomlkit.dumps(document)
