"""The pictures of the page: one for each line whose surface does not comply, in the page itself, and no other."""

from __future__ import annotations

import pytest

from speccheck.language import load_ruleset, parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.report.html import pictures as page_pictures
from speccheck.report.html.page import render_page
from speccheck.report.html.pictures import pictures
from speccheck.review import judge_schedule
from speccheck.review.matrix import Matrix
from speccheck.schedule.lines import Line, Schedule
from speccheck.schedule.words import line_in_words
from tests.report.page_reader import read_page

# 1 in of 0.25 Btu.in/(h.ft2.F) on 4 in pipe at 42 F in 80 F air at 80 %, dew point 73.3 F: dry bare, wet under bright
# metal, computed with `ht`, CoolProp and psychrolib.
LINE = (
    "component pipe, service chilled water, pipe material steel, pipe size 4 in, operating temperature 42 F, ambient "
    "temperature 80 F, relative humidity 80 %, insulation elastomeric foam, thickness 1 in, conductivity 0.25 "
    "Btu.in/(h.ft2.F), jacket emittance {}"
)
WET, DRY = LINE.format(0.1), LINE.format(0.9)


@pytest.fixture(scope="module")
def condensation() -> Ruleset:
    """The shipped ruleset on condensation."""
    ruleset = load_ruleset("condensation").ruleset
    assert ruleset is not None
    return ruleset


def matrix_of(ruleset: Ruleset, lines: dict[str, str]) -> Matrix:
    """Return the matrix of lines in words, by their names."""
    read = [Line(name, line_in_words(words, ruleset.vocabulary)[0].data) for name, words in lines.items()]
    return judge_schedule(Schedule("lines", tuple(read)), ruleset)


def test_lines_that_sweat_have_a_picture_and_dry_ones_have_none(condensation: Ruleset) -> None:
    """The wet line alone has a figure, with its title inside the drawing and its clause below."""
    page = read_page(render_page(matrix_of(condensation, {"DRY-1": DRY, "WET-1": WET})))
    (figure,) = page.named("figure")
    assert "WET-1: chilled water, 4 in" in figure.text
    assert "Clause 1.1" in figure.text
    assert [one.text for one in page.named("title") if "svg" in one.inside] == ["WET-1: chilled water, 4 in"]
    assert "Surface temperatures" in [one.text for one in page.named("h2")]
    assert "dew point 73.3 F" in figure.text


def test_page_without_such_findings_has_no_pictures(condensation: Ruleset) -> None:
    """Nothing about surfaces is said where every surface complies, or where nothing is worked out."""
    page = read_page(render_page(matrix_of(condensation, {"DRY-1": DRY})))
    assert page.named("figure") == []
    assert "Surface temperatures" not in [one.text for one in page.named("h2")]


def test_size_at_which_a_range_fails_is_drawn_and_named(condensation: Ruleset) -> None:
    """Of a line for 2 in to 4 in the picture shows the first size that sweats, and says which."""
    (picture,) = pictures(matrix_of(condensation, {"WET-2": WET.replace("4 in", "2 in to 4 in", 1)}))
    assert picture.title == "WET-2: chilled water, 2 in to 4 in, at 2 in"


def test_names_of_others_make_no_markup(condensation: Ruleset) -> None:
    """A mark that tries to be markup stays text in the drawing and in the page."""
    hostile = '<script>alert("x")</script>'
    page = read_page(render_page(matrix_of(condensation, {hostile: WET})))
    plain = read_page(render_page(matrix_of(condensation, {"WET-1": WET})))
    assert {one.name for one in page.elements} == {one.name for one in plain.elements}
    assert len(page.named("script")) == len(plain.named("script"))
    assert hostile in page.named("figure")[0].text


def test_a_page_holds_no_more_pictures_than_it_can_bear(condensation: Ruleset, monkeypatch: pytest.MonkeyPatch) -> None:
    """A schedule in which everything sweats has pictures for the first lines only."""
    monkeypatch.setattr(page_pictures, "MOST", 2)
    found = pictures(matrix_of(condensation, {f"WET-{number}": WET for number in range(4)}))
    assert [one.line for one in found] == [0, 1]


def test_failing_for_another_reason_is_no_picture() -> None:
    """A clause that does not speak of surfaces draws nothing."""
    ruleset = parse_ruleset('ruleset "T"\n  speaks mechanical insulation\nclause 1 "T"\n  shall thickness be 9 in\n')
    assert ruleset.ruleset is not None
    assert pictures(matrix_of(ruleset.ruleset, {"WET-1": WET})) == ()


def test_page_with_pictures_is_the_same_again(condensation: Ruleset) -> None:
    """The same matrix gives the same page, drawings included."""
    lines = {"WET-1": WET, "DRY-1": DRY}
    assert render_page(matrix_of(condensation, lines)) == render_page(matrix_of(condensation, lines))


def test_water_that_does_not_comply_has_its_course() -> None:
    """A line whose insulation holds too much water has the picture of its years, with the stated ones named."""
    rules = parse_ruleset("""ruleset "Water"
  speaks mechanical insulation

clause 1 "Water in the insulation"
  shall water content be at most 5 %
""").ruleset
    assert rules is not None
    wet = f"{DRY}, permeability 0.1 perm.in, service years 10"
    page = read_page(render_page(matrix_of(rules, {"WET-1": wet, "NEW-1": wet.replace("years 10", "years 0.1")})))
    (figure,) = page.named("figure")
    assert "water content, %" in figure.text
    assert "service years" in figure.text
    assert "% at 10" in figure.text
    assert "Surface temperatures and courses" in [one.text for one in page.named("h2")]
