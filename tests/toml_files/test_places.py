"""Places of TOML entries, held against what `tomllib` and `tomlkit` make of the same text."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from typing import Any

import tomlkit
from hypothesis import given
from hypothesis import strategies as st

from speccheck.toml_files.places import Path, spans_of

EVERY_WAY = """title = "one # two" # a remark
owner.name = 'a "b"'
"dotted.key"."c\\u0041" = 1.5e3
days = [ 1979-05-27, 1979-05-27 07:32:00, 07:32:00 ] # three
nested = [[1, 2], [{ x = 1, y.z = "]" }], [ # remark ]
  3,
]]

[table]
many = \"\"\"
line "" one
line two\\
  on\"\"\"\"
[table.'inner one']
literal = '''it's ]] {'''

[[ many ]]
name = "first"
[many.inside]
x = 0x1F
[["many"]]
[[many.deep]]
a = inf
[[many.deep]]
a = 1979-05-27T07:32:00.5-07:00
[empty]
"""


def paths_of(content: Any, path: Path = ()) -> Iterator[tuple[Path, Any]]:
    """Yield the path of each entry of a content, and the entry."""
    inner = content.items() if isinstance(content, dict) else enumerate(content) if isinstance(content, list) else ()
    for step, entry in inner:
        yield (*path, step), entry
        yield from paths_of(entry, (*path, step))


def assert_every_entry_has_its_place(text: str) -> None:
    """Each key stands where its place says, and each value read alone is the value of the whole."""
    spans = spans_of(text)
    content = tomllib.loads(text)
    paths = dict(paths_of(content))
    assert set(spans.keys) | set(spans.values) == set(paths)
    for path, (start, end) in spans.values.items():
        assert repr(tomllib.loads(f"x = {text[start:end]}")["x"]) == repr(paths[path])
    for path, (start, end) in spans.keys.items():
        keys = text[start:end]
        named = tomllib.loads(keys if keys.startswith("[") else f"{keys} = 0")
        words = [step for step in path if isinstance(step, str)]
        assert words[-1] in [step for found, _ in paths_of(named) for step in found]


def test_every_way_to_write_an_entry() -> None:
    """Dotted and quoted keys, all kinds of text, dates, arrays over lines, tables in tables and arrays of tables."""
    assert_every_entry_has_its_place(EVERY_WAY)
    spans = spans_of(EVERY_WAY)
    start, end = spans.keys["many", 1]
    assert EVERY_WAY[start:end] == '[["many"]]'
    start, end = spans.values["many", 1, "deep", 1, "a"]
    assert EVERY_WAY[start:end] == "1979-05-27T07:32:00.5-07:00"


SCALARS = (
    st.text(st.characters(exclude_categories=["Cs"]), max_size=8)
    | st.integers(-(2**60), 2**60)
    | st.booleans()
    | st.floats(allow_nan=False)
    | st.dates()
    | st.datetimes()
)
CONTENTS = st.recursive(
    SCALARS,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text("ab. \"'#=[é", max_size=3), inner, max_size=3),
    max_leaves=12,
)


@given(st.dictionaries(st.text("ab. \"'#=[é", max_size=3), CONTENTS, max_size=4))
def test_any_content_has_its_places(content: dict[str, Any]) -> None:
    """Whatever tomlkit writes has the same entries here as tomllib reads, each where it stands."""
    text = tomlkit.dumps(content)
    assert_every_entry_has_its_place(text)


@given(st.lists(st.sampled_from(EVERY_WAY.splitlines(keepends=True)), max_size=12))
def test_any_rows_that_tomllib_reads(rows: list[str]) -> None:
    """Rows put together at random either are no TOML, or have all their places."""
    text = "".join(rows)
    try:
        tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return
    assert_every_entry_has_its_place(text)
