"""Headers as contractors write them: shortened, qualified, in four more languages, two terms in one, with a value.

What they mean is common practice, no source. `files/headers.csv` has the header (rows of a header parted by `>>`), the
term and the unit; "" for what names nothing of ours, or not for certain.
"""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.language import load_vocabulary
from speccheck.language.vocabulary.terms import Form, Vocabulary
from speccheck.language.vocabulary.values import NotGiven, write_value
from speccheck.phrases import read_header
from speccheck.schedule import read_schedule
from speccheck.schedule.header_words import HeaderReader
from tests.schedule.building import FILES


@cache
def reader() -> HeaderReader:
    """Return a reader of the shipped vocabulary."""
    return HeaderReader(vocabulary())


@cache
def vocabulary() -> Vocabulary:
    """Return the shipped vocabulary."""
    found = load_vocabulary("mechanical insulation").vocabulary
    assert found is not None
    return found


def headers() -> list[tuple[str, str, str]]:
    """Return the headers of the file, each with its term and unit."""
    with (FILES / "headers.csv").open(encoding="utf-8") as file:
        return [(row["header"], row["term"], row["unit"]) for row in csv.DictReader(file)]


@pytest.mark.parametrize(("header", "term", "unit"), headers())
def test_a_header_names_its_term(header: str, term: str, unit: str) -> None:
    """Each header gives the term that a reviewer takes it for, and none where it names something else."""
    match = reader().match_parts(tuple(part.strip() for part in header.replace("\\n", "\n").split(">>")))
    named = ("", "") if match is None else (match.name.replace("#", "mark"), match.unit)
    assert named == (term, unit)


@pytest.mark.parametrize(
    ("header", "terms"),
    [
        ("Insulation / Thickness", ["insulation", "thickness"]),
        ("FLAME/SMOKE DEV.", ["flame spread", "smoke developed"]),
        ("Facing & Thickness", ["facing", "thickness"]),
        ("Thickness / Dämmdicke", ["thickness"]),
        ("Conductivity\nWärmeleitfähigkeit", ["conductivity"]),
        ("Service & Size", []),
        ("Jacket Type/Thickness", ["jacket", "jacket thickness"]),
        ("Insulation Type and Thickness", ["insulation", "thickness"]),
        ("Thickness / Delivery", []),
    ],
)
def test_two_terms_in_one_header(header: str, terms: list[str]) -> None:
    """Two names are two terms, or one in two languages; what no cell can state together names nothing."""
    assert [term.name for term in read_header(header, vocabulary()).terms] == terms


@pytest.mark.parametrize(
    ("header", "term", "text"),
    [
        ("Line Temp. 15 °C", "operating temperature", "15 °C"),
        ("Operating temperature: 180 F", "operating temperature", "180 F"),
        ("Pipe size, 2 in", "pipe size", "2 in"),
    ],
)
def test_a_value_in_a_header(header: str, term: str, text: str) -> None:
    """A header may state a value of the term that it names."""
    (stated,) = read_header(header, vocabulary()).stated
    assert (stated.term.name, stated.text) == (term, text)


@pytest.mark.parametrize("header", ['Thickness 2"', 'Thk (2")', "Thickness 2-3"])
def test_a_figure_in_a_header_is_no_unit(header: str) -> None:
    """A size or a value behind "thickness" never becomes the unit of the numbers below."""
    match = reader().match(header)
    assert match is None or match.unit == ""


_MEASURED = st.sampled_from([term for term in vocabulary().terms.values() if term.kind.form is Form.QUANTITY])


@given(_MEASURED, st.sampled_from(["{}", "The {}", "{} range", "{} (proposed)", "Proposed {}", "{},"]), st.booleans())
def test_a_name_among_neutral_words_is_that_term_or_none(term: object, wording: str, capitals: bool) -> None:
    """Whatever stands around the name of a term, no other term is named."""
    name = term.name.upper() if capitals else term.name  # type: ignore[attr-defined]
    match = reader().match(wording.format(name))
    assert match is None or match.term is term


def test_a_condition_in_a_header_belongs_to_each_value_under_it(tmp_path: Path) -> None:
    """The mean temperature of "k @ 75 F mean" is that of each conductivity below, unless its cell states another."""
    path = tmp_path / "case.csv"
    path.write_text(
        "Service,Size,k @ 75 F mean\nCHW,2 in,0.25\nCHW,3 in,TBD\nCHW,4 in,0.27 @ 100 F\n", encoding="utf-8"
    )
    schedule = read_schedule(path, vocabulary(), units="inch-pound")
    first, open_, other = (line.data.get("conductivity mean temperature") for line in schedule.lines)
    assert first is not None
    assert (write_value(first.value, vocabulary().terms["operating temperature"]), first.note, first.inferred) == (
        "75 F",
        "from the header in C1",
        True,
    )
    assert open_ is None
    assert other is not None
    assert isinstance(other.value, NotGiven)
