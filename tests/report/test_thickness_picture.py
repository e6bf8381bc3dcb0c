"""The picture of a thickness curve: well-formed, every mark in its place, the same bytes each time, titles harmless."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest

from speccheck.judge.curves import ThicknessCurve, thickness_curve
from speccheck.language import load_vocabulary
from speccheck.report.thickness_picture import draw_thickness
from speccheck.schedule.words import line_in_words
from tests.some import some

SVG = "{http://www.w3.org/2000/svg}"

# Checked beside: 114.3 mm pipe, 0.036 W/(m.K), emittance 0.9, computed with `ht` 1.2.0, CoolProp 8 and psychrolib 2.5.
COLD = (
    "pipe outside diameter 114.3 mm, operating temperature 5 C, ambient temperature 27 C, relative humidity 80 %, "
    "conductivity 0.036 W/(m.K), jacket emittance 0.9, thickness {}"
)
HOT = (
    "pipe outside diameter 114.3 mm, operating temperature 200 C, ambient temperature 27 C, conductivity "
    "0.055 W/(m.K), jacket emittance {}, thickness 1 in"
)
DUCT = (
    "duct width 24 in, duct height 12 in, operating temperature 55 F, ambient temperature 80 F, relative humidity "
    "60 %, conductivity 0.27 Btu.in/(h.ft2.F), jacket emittance 0.9, thickness 1 in"
)


def curve_of(words: str) -> ThicknessCurve:
    """Return the curve of a line in words."""
    vocabulary = load_vocabulary("mechanical insulation").vocabulary
    assert vocabulary is not None
    line, diagnostics = line_in_words(words, vocabulary)
    assert diagnostics == ()
    curve = thickness_curve({name: datum.value for name, datum in line.data.items()})  # type: ignore[misc]
    assert isinstance(curve, ThicknessCurve), curve
    return curve


def picture(words: str, title: str = "A line", system: str = "inch-pound") -> ElementTree.Element:
    """Return the picture of a line in words, read as XML."""
    return ElementTree.fromstring(draw_thickness(curve_of(words), title, system))


def texts(drawing: ElementTree.Element) -> list[str]:
    """Return all texts of a picture in the order in which they stand."""
    return [each.text or "" for each in drawing.iter(f"{SVG}text")]


def dots(drawing: ElementTree.Element) -> list[ElementTree.Element]:
    """Return the full dots of the proposed thickness: first in the upper panel, then in the lower one."""
    return [each for each in drawing.iter(f"{SVG}circle") if each.get("fill") == "#22282b"]


def dashed(drawing: ElementTree.Element) -> list[float]:
    """Return how far down the limits lie across the upper panel."""
    return [float(each.get("y1", "")) for each in drawing.iter(f"{SVG}line") if each.get("stroke-dasharray")]


def test_picture_is_well_formed_and_says_what_it_shows() -> None:
    """An SVG document of its own with a role, a title for those who cannot see it, and both axes named."""
    drawing = picture(COLD.format("1 in"), "CHW-3: chilled water, 4 in")
    assert drawing.tag == f"{SVG}svg"
    assert drawing.get("role") == "img"
    assert drawing.get("viewBox") == "0 0 640 470"
    title = drawing.find(f"{SVG}title")
    assert title is not None
    assert title.text == "CHW-3: chilled water, 4 in"
    assert texts(drawing)[0] == "CHW-3: chilled water, 4 in"
    assert "surface temperature, F" in texts(drawing)
    assert "heat flow, Btu/(h.ft)" in texts(drawing)
    assert "actual thickness of the insulation, in" in texts(drawing)


@pytest.mark.parametrize(
    ("system", "dew_point", "least"), [("inch-pound", 23.25 * 1.8 + 32, 18.85 / 25.4), ("metric", 23.25, 18.85)]
)
def test_dew_point_and_least_thickness_are_written_at_their_line(system: str, dew_point: float, least: float) -> None:
    """At 27 C and 80 % the dew point is 23.25 C, and 18.85 mm keep the surface at it; three digits are written."""
    (words,) = [text for text in texts(picture(COLD.format("1 in"), system=system)) if "dew point" in text]
    found = re.fullmatch(r"dew point ([\d.]+) [CF]: at least ([\d.]+) (?:in|mm)", words)
    assert found is not None
    assert float(found[1]) == pytest.approx(dew_point, abs=0.06)
    assert float(found[2]) == pytest.approx(least, rel=0.003)


@pytest.mark.parametrize(
    ("emittance", "least"),
    [(0.9, 17.94), (0.1, 33.92)],
)
def test_touch_limit_is_written_on_a_hot_line(emittance: float, least: float) -> None:
    """60 C at 27 C still air round 200 C: 17.94 mm under a dull jacket, 33.92 mm under bright metal (`ht`)."""
    (words,) = [text for text in texts(picture(HOT.format(emittance), system="metric")) if "touch limit" in text]
    found = re.fullmatch(r"customary touch limit 60 C: at least ([\d.]+) mm", words)
    assert found is not None
    assert float(found[1]) == pytest.approx(least, abs=0.06)


@pytest.mark.parametrize(("thickness", "sweats"), [("1/2 in", True), ("1 in", False)])
def test_proposed_dot_lies_on_its_side_of_the_limit(thickness: str, sweats: bool) -> None:
    """Further down is colder: the dot of a line that sweats lies under the dew point, that of a dry one over it."""
    drawing = picture(COLD.format(thickness))
    upper, lower = dots(drawing)
    (dew_point,) = dashed(drawing)
    assert (float(upper.get("cy", "")) > dew_point) is sweats
    assert upper.get("cx") == lower.get("cx")
    assert any(text.startswith(f"proposed {thickness}: ") for text in texts(drawing))


def test_dot_lies_where_its_numbers_put_it() -> None:
    """The dot's place, read back with the ticks of both axes, is the proposed thickness and its surface temperature."""
    curve, drawing = curve_of(COLD.format("1 in")), picture(COLD.format("1 in"))
    assert curve.proposed is not None
    upper = dots(drawing)[0]
    across, up = ticks(drawing, "middle"), ticks(drawing, "end")
    assert read_off(across, float(upper.get("cx", ""))) == pytest.approx(1.0, abs=0.01)
    surface = curve.proposed.surface * 1.8 - 459.67
    assert read_off(up, float(upper.get("cy", "")) + 4) == pytest.approx(surface, abs=0.1)


def ticks(drawing: ElementTree.Element, anchor: str) -> list[tuple[float, float]]:
    """Return places and numbers of the ticks: "middle" along the thickness, "end" along the upper panel."""
    coordinate = "x" if anchor == "middle" else "y"
    found = [each for each in drawing.iter(f"{SVG}text") if each.get("text-anchor") == anchor]
    plain = [each for each in found if re.fullmatch(r"-?[\d.]+", each.text or "")]
    if anchor == "end":
        plain = [each for each in plain if float(each.get("y", "")) < 260]
    return [(float(each.get(coordinate, "")), float(each.text or "")) for each in plain]


def read_off(axis: list[tuple[float, float]], place: float) -> float:
    """Return the number at a place of a linear axis."""
    (first, low), (last, high) = axis[0], axis[-1]
    return low + (place - first) / (last - first) * (high - low)


def test_stocked_thicknesses_are_named_rings_in_both_panels() -> None:
    """1/2 in, 1 in, 1-1/2 in and 2 in are stocked, and each has a ring in both panels where it is in view."""
    drawing = picture(COLD.format("1 in"))
    rings = [each for each in drawing.iter(f"{SVG}circle") if each.get("fill") == "#fffefa"]
    assert {"1/2 in", "1 in", "1-1/2 in"} <= set(texts(drawing))
    assert len(rings) >= 6


def test_duct_is_drawn_as_a_pipe_is() -> None:
    """The surface and the heat flow per length of a rectangular duct, with the dew point of its room."""
    drawing = picture(DUCT)
    assert "heat flow, Btu/(h.ft)" in texts(drawing)
    assert any(text.startswith("dew point") for text in texts(drawing))
    assert len(dots(drawing)) == 2


def test_everything_stays_inside_the_frame() -> None:
    """No dot, line, curve or text begins outside the picture, whichever system it is of."""
    for words in (COLD.format("1 in"), COLD.format("4 in"), HOT.format(0.1), DUCT):
        drawing = picture(words)
        places = [
            (float(each.get(x, "0")), float(each.get(y, "0")))
            for each in drawing.iter()
            for x, y in (("x", "y"), ("x1", "y1"), ("x2", "y2"), ("cx", "cy"))
            if each.get(x) is not None
        ]
        paths = " ".join(each.get("d", "") for each in drawing.iter(f"{SVG}path"))
        places += [(float(x), float(y)) for x, y in re.findall(r"([\d.]+) ([\d.]+)", paths)]
        assert all(0 <= x <= 640 and 0 <= y <= 470 for x, y in some(places)), words


@pytest.mark.parametrize("title", ['<script>alert("x")</script>', "a & b < c", "]]> --> 'quoted' \"twice\""])
def test_title_makes_no_markup(title: str) -> None:
    """A title of others is text, and nothing else, wherever it stands."""
    plain, hostile = picture(COLD.format("1 in")), picture(COLD.format("1 in"), title)
    assert [each.tag for each in hostile.iter()] == [each.tag for each in plain.iter()]
    assert texts(hostile)[0] == title
    found = hostile.find(f"{SVG}title")
    assert found is not None
    assert found.text == title


def test_picture_is_the_same_to_the_byte_without_a_clock_or_a_place() -> None:
    """Two processes with other hash seeds draw the same bytes, which name no day and no folder."""
    program = (
        "from tests.report.test_thickness_picture import *\n"
        "import sys; sys.stdout.write(draw_thickness(curve_of(COLD.format('1 in')), 'A line'))"
    )
    drawn = {
        subprocess.run(
            [sys.executable, "-c", program],
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": ".", "TZ": zone},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed, zone in (("1", "UTC"), ("2", "Asia/Tokyo"))
    }
    assert drawn == {draw_thickness(curve_of(COLD.format("1 in")), "A line")}
    (text,) = drawn
    assert not re.search(r"20\d\d-\d\d|\d\d:\d\d", text)
    assert str(Path.cwd()) not in text
