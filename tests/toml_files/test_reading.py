"""One reader for all that people write in TOML: what it takes, and what it says of what it cannot take."""

from __future__ import annotations

from pathlib import Path

import pytest
from pydantic import BaseModel, ConfigDict, Field

from speccheck.language.diagnostic_rules import Rule
from speccheck.language.diagnostics import Diagnostic
from speccheck.toml_files import FileKind, TomlFile, TomlText, load_toml, read_toml_file

UNREADABLE, ENTRY = (Rule(code, "a file of a test", "A file that a test reads.") for code in ("X1", "X2"))
KIND = FileKind(UNREADABLE, ENTRY, "write such a file")


class Inner(BaseModel):
    """A table in a list."""

    model_config = ConfigDict(extra="forbid", strict=True)
    name: str = Field(description="a name in quotation marks")
    count: int = Field(0, description="a whole number")


class Shape(BaseModel):
    """A file with one of each."""

    model_config = ConfigDict(extra="forbid", strict=True)
    size: int | list[int] | None = Field(None, description="a number or a list of numbers")
    inner: list[Inner] = Field([], description="tables [[inner]]")
    named: dict[str, str | Inner] = Field({}, description="a text or a table")


def read(folder: Path, content: str | bytes) -> tuple[TomlFile[Shape] | None, tuple[Diagnostic, ...]]:
    """Return what a file with some content is read as."""
    path = folder / "some.toml"
    path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
    return read_toml_file(path, Shape, KIND)


@pytest.mark.parametrize("before", ["", "\ufeff", "\ufeff\r\n# a remark\r\n"])
def test_entries_and_their_places(tmp_path: Path, before: str) -> None:
    """A byte-order mark and the line ends of Windows change neither what is read nor the columns."""
    file, problems = read(tmp_path, f'{before}[["inner"]]\r\nname = "one"\r\n[[inner]]\r\nname = \'two\'')
    assert problems == ()
    assert file is not None
    assert [one.name for one in file.entries.inner] == ["one", "two"]
    first = before.count("\n") + 1
    place = file.source.place("inner", 1, "name", value=True)
    assert (place.file, place.line, place.column, place.length) == ("some.toml", first + 3, 8, 5)
    assert file.source.place_within("inner", 1, "name").column == 9
    assert file.source.place("inner", 1).line == first + 2
    assert file.source.place("inner", 1, "no such key").line == first + 2


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (
            "sise = 1",
            "error[X2]: there is no key `sise`\n  at some.toml:1:1\n  | sise = 1\n  | ^^^^\n"
            "  help: did you mean `size`?",
        ),
        (
            "[[inner]]\nname = 'a'\nother = 1",
            "error[X2]: there is no key `inner.other`\n  at some.toml:3:1\n  | other = 1\n  | ^^^^^\n"
            "  help: the keys are name and count",
        ),
        (
            "inner = [{ count = 1 }]",
            "error[X2]: the key `inner.name` is missing\n  at some.toml:1:10\n  | inner = [{ count = 1 }]\n"
            "  |          ^^^^^^^^^^^^^\n  help: write a name in quotation marks",
        ),
        (
            "[[inner]]\nnam = 'a'",
            "error[X2]: there is no key `inner.nam`\n  at some.toml:2:1\n  | nam = 'a'\n  | ^^^\n"
            "  help: did you mean `name`?",
        ),
        (
            "size = [1, true]",
            "error[X2]: `size` cannot be `true`\n  at some.toml:1:12\n  | size = [1, true]\n  |            ^^^^\n"
            "  help: write a number or a list of numbers",
        ),
        (
            "[named]\na = 3",
            "error[X2]: `named.a` cannot be `3`\n  at some.toml:2:5\n  | a = 3\n  |     ^\n"
            "  help: write a text or a table",
        ),
        (
            "[named.a]\nname = 1.50",
            "error[X2]: `named.a.name` cannot be `1.50`\n  at some.toml:2:8\n  | name = 1.50\n  |        ^^^^\n"
            '  help: write it in quotation marks: "1.50"',
        ),
        (
            "inner = 1979-05-27 07:32:00",
            "error[X2]: `inner` cannot be `1979-05-27 07:32:00`\n  at some.toml:1:9\n"
            "  | inner = 1979-05-27 07:32:00\n  |         ^^^^^^^^^^^^^^^^^^^\n  help: write tables [[inner]]",
        ),
        (
            "a = 1\na = 2",
            "error[X1]: this is not TOML: cannot overwrite a value\n  at some.toml:2:6\n  | a = 2\n  |      ^\n"
            "  help: write such a file",
        ),
        (
            'a = """never ends',
            "error[X1]: this is not TOML: unterminated string\n  at some.toml:1:18\n"
            '  | a = """never ends\n  |                  ^\n  help: write such a file',
        ),
        (
            b"\xff\xfea\x00",
            "error[X1]: `some.toml` is not text in UTF-8\n  at some.toml\n  help: save it as text in UTF-8",
        ),
        (
            f"size = {'9' * 5000}",
            "error[X1]: `some.toml` has a number with too many digits\n  at some.toml\n  help: write such a file",
        ),
        (
            f"{'.'.join('a' * 60)} = 1\nb = '{'.'.join('a' * 60)}'",
            "error[X1]: `some.toml` has a key with more than 50 parts\n  at some.toml\n  help: write such a file",
        ),
        (
            f"size = {'[' * 5000}{']' * 5000}",
            "error[X1]: `some.toml` has lists in lists, too deep to read\n  at some.toml\n  help: write such a file",
        ),
    ],
)
def test_what_cannot_be_used_is_told_at_its_place(tmp_path: Path, content: str | bytes, told: str) -> None:
    """Every mistake is one diagnostic with line, column, the line of text, and what to write instead."""
    file, problems = read(tmp_path, content)
    assert file is None
    assert "\n".join(map(str, problems)) == told


def test_all_mistakes_are_told_in_one_run(tmp_path: Path) -> None:
    """They come in the order of the file."""
    _, problems = read(tmp_path, "[[inner]]\nname = 1\n[[inner]]\ncount = 'a'\n[[inner]]\nname = ''\nx = 1")
    assert [one.message for one in problems] == [
        "`inner.name` cannot be `1`",
        "the key `inner.name` is missing",
        "`inner.count` cannot be `'a'`",
        "there is no key `inner.x`",
    ]


def test_file_that_is_not_there(tmp_path: Path) -> None:
    """Its name is told, without its folder."""
    (found,) = read_toml_file(tmp_path / "none.toml", Shape, KIND)[1]
    assert (found.code, found.message) == ("X1", "`none.toml` cannot be opened: no such file or directory")


def test_a_text_with_many_points_is_no_deep_key(tmp_path: Path) -> None:
    """Points within quotation marks, in prose over several lines and in numbers count for nothing."""
    points = ".".join("a" * 60)
    text = f'a = \'{points}\'\nb = """\n{points}"""\nc = [{"1.5," * 60}]\n'
    (tmp_path / "some.toml").write_text(text, encoding="utf-8")
    source = load_toml(tmp_path / "some.toml", FileKind(UNREADABLE, ENTRY))
    assert isinstance(source, TomlText)
    assert list(source.content) == ["a", "b", "c"]
