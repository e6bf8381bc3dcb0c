"""What the product is built of, and the wheel that it is handed over as."""

from __future__ import annotations

import tomllib
import zipfile
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.specifiers import SpecifierSet
from packaging.utils import canonicalize_name

from tests.tools.same_wheel import differences
from tests.tools.tested_versions import HEADING, NOT_OURS, RECORD, TOP, asked_for, others, record, recorded, versions

TEXT = RECORD.read_text("utf-8")
PACKAGES = {
    "reader": ("2.0", ["Small_Parts>=1", "fonts; extra == 'pictures'", "never; sys_platform == 'nowhere'"]),
    "small-parts": ("1.5", ["reader"]),
    "fonts": ("7", []),
}
"""An invented index, as `installed` tells of packages: one asks for another that asks for it in turn."""


@pytest.mark.parametrize("requirement", asked_for(), ids=str)
def test_what_the_project_asks_for_has_a_tested_version_that_it_allows(requirement: Requirement) -> None:
    """Each library of `pyproject.toml`, to run, to build and of every extra, was tried in the version of the record."""
    assert requirement.specifier.contains(recorded(TEXT)[canonicalize_name(requirement.name)], prereleases=True)


def test_the_record_is_of_a_python_that_the_project_allows() -> None:
    """The version of Python that the heading names is one of `requires-python`."""
    before, after = HEADING.splitlines()[1].split("{python}")
    named = TEXT.splitlines()[1].removeprefix(before).split(after.split("{")[0])[0]
    allowed = tomllib.loads((TOP / "pyproject.toml").read_text("utf-8"))["project"]["requires-python"]
    assert SpecifierSet(allowed).contains(named)


def test_the_record_has_each_package_once_in_the_order_of_names() -> None:
    """So that a new version shows as one changed line."""
    names = [line.split("==")[0] for line in TEXT.splitlines()[2:]]
    assert names == sorted({canonicalize_name(name) for name in names} - NOT_OURS)


def test_a_requirement_brings_what_it_asks_for_in_turn() -> None:
    """Names are normalized, markers decided here, and a circle ends; an extra is followed where it is asked for."""
    assert versions([Requirement("Reader")], PACKAGES.get) == ({"reader": "2.0", "small-parts": "1.5"}, [])
    asked = [Requirement("Reader"), Requirement("reader[pictures]")]
    assert versions(asked, PACKAGES.get) == ({"fonts": "7", "reader": "2.0", "small-parts": "1.5"}, [])


def test_what_is_not_installed_is_told() -> None:
    """A record without it would call a version tested that nobody tried."""
    asked = [Requirement("reader"), Requirement("absent>=3"), Requirement("never; sys_platform == 'nowhere'")]
    assert versions(asked, PACKAGES.get)[1] == ["absent"]


def test_a_record_read_back_is_what_was_written_and_other_versions_are_listed() -> None:
    """What is not installed is no other version."""
    written = {"absent": "1", "reader": "1.9", "small-parts": "1.5"}
    assert recorded(record(written)) == written
    assert others(written, PACKAGES.get) == ["reader 2.0, recorded 1.9"]


def test_wheels_differ_by_a_byte_a_time_a_mode_or_a_name(tmp_path: Path) -> None:
    """What `python -m tests.tools.same_wheel` compares; `.ci/run` builds the wheel twice and compares the two."""

    def wheel(name: str, text: str = "x = 1", when: int = 2020, mode: int = 0o644) -> Path:
        with zipfile.ZipFile(tmp_path / name, "w") as archive:
            entry = zipfile.ZipInfo("speccheck/one.py", (when, 1, 1, 0, 0, 0))
            entry.external_attr = mode << 16
            archive.writestr(entry, text)
        return tmp_path / name

    first, told = wheel("a-1.whl"), ["speccheck/one.py and speccheck/one.py"]
    (tmp_path / "other").mkdir()
    assert differences(first, wheel("other/a-1.whl")) == []
    assert differences(first, wheel("other/a-1.whl", text="x = 2")) == told
    assert differences(first, wheel("other/a-1.whl", when=2021)) == told
    assert differences(first, wheel("other/a-1.whl", mode=0o600)) == told
    assert differences(first, wheel("other/a-2.whl")) == ["a-1.whl and a-2.whl"]
