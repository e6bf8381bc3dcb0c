"""`speccheck system` as a person runs it: limits and minimum thickness, status, the picture, and mistakes."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
from click.testing import CliRunner, Result
from fluids.piping import nearest_pipe

from speccheck.cli import speccheck

# A 114.3 mm pipe at 5 C in air of 27 C and 80 %: 18.85 mm is the minimum thickness against condensation with emittance
# 0.9 and 42.36 mm with 0.1, computed with `ht` 1.2.0, CoolProp 8 and psychrolib 2.5.
COLD = (
    "pipe outside diameter 114.3 mm, operating temperature 5 C, ambient temperature 27 C, relative humidity 80 %, "
    "conductivity 0.036 W/(m.K)"
)


def run(*words: str) -> Result:
    """Run the command in this process."""
    return CliRunner().invoke(speccheck, ["system", *words], standalone_mode=False)


def told(found: Result) -> str:
    """Return what was printed as one line of words."""
    return " ".join(found.output.split())


@pytest.mark.parametrize(
    ("emittance", "thickness", "status", "least", "met"),
    [
        ("0.9", "19 mm", 0, 18.85, "met as proposed"),
        ("0.9", "18 mm", 1, 18.85, "not met as proposed"),
        ("0.1", "19 mm", 1, 42.36, "not met as proposed"),
    ],
)
def test_least_thickness_and_verdict(emittance: str, thickness: str, status: int, least: float, met: str) -> None:
    """The dew point and the minimum thickness are those of the libraries, and the status says whether it is met."""
    found = run(f"{COLD}, jacket emittance {emittance}, thickness {thickness}", "--units", "metric")
    assert found.return_value == status
    assert "dew point 23.3 C:" in told(found)
    number = re.search(r"at least ([\d.]+) mm actual thickness", told(found))
    assert number is not None
    assert float(number[1]) == pytest.approx(least, abs=0.01)
    assert f"; {met}" in told(found)


def test_hot_line_is_held_to_the_touch_limit() -> None:
    """200 C, 27 C still air, 0.055 W/(m.K), emittance 0.9: 17.94 mm for 60 C (`ht`, CoolProp)."""
    line = (
        "pipe outside diameter 114.3 mm, operating temperature 200 C, ambient temperature 27 C, "
        "conductivity 0.055 W/(m.K), jacket emittance 0.9, thickness {}"
    )
    burns = run(line.format("17 mm"), "--units", "metric")
    assert burns.return_value == 1
    assert "touch limit 60 C: at least 17.94 mm" in told(burns)
    assert run(line.format("18 mm"), "--units", "metric").return_value == 0


def test_without_a_proposed_thickness_the_least_one_is_told() -> None:
    """The question how thick it must be has an answer without a proposal; no proposal meets no limit."""
    found = run(f"{COLD}, jacket emittance 0.9")
    assert found.return_value == 1
    assert "Proposed" not in found.output
    assert "at least 18.85 mm" in told(found)
    assert "first stocked thickness that has it: 19 mm" in told(found)


def test_a_line_is_answered_in_the_units_that_it_is_written_in() -> None:
    """The metric line in millimetres and degrees Celsius alone, stocked thicknesses and pipe sizes too; or as asked."""
    metric = (
        "pipe size DN 100, pipe material steel, " + COLD.split(", ", 1)[1] + ", jacket emittance 0.9, thickness 19 mm"
    )
    assert not re.search(r"\d (in|F|Btu\S*|mph|psi)\b", told(run(metric)))
    assert "13 mm:" in told(run(metric))
    asked = told(run(metric, "--units", "inch-pound"))
    assert "at least 0.74" in asked
    assert "1/2 in:" in asked
    inches = "pipe size 4 in, operating temperature 41 F, ambient temperature 80 F, relative humidity 80 %"
    inches += ", pipe material steel, jacket emittance 0.9, thickness 1 in, conductivity 0.25 Btu.in/(h.ft2.F)"
    assert not re.search(r"\d (mm|C|W\S*|kPa)\b", told(run(inches)))


def test_working_cautions_and_width() -> None:
    """Inputs, method and source are told within 80 columns, and the standing cautions stand below."""
    found = run(f"{COLD}, jacket emittance 0.9, thickness 1 in")
    assert max(len(line) for line in found.output.splitlines()) <= 80
    for words in (
        "Churchill and Chu",
        "ASTM C680",
        "jacket emittance: 0.9 (given)",
        "orientation: horizontal (assumed)",
    ):
        assert words in told(found)
    assert "Hot surfaces" in told(found)


def test_missing_data_are_named() -> None:
    """Without the emittance nothing can be told, and that is what is asked for."""
    found = run(f"{COLD}, thickness 1 in")
    assert found.return_value == 2
    assert "The surface temperature cannot be worked out: it needs" in told(found)
    assert "jacket" in told(found)


@pytest.mark.parametrize("line", ["thikness 1 in", "thickness one", "pipe size 4 lb"])
def test_line_that_cannot_be_read_ends_with_status_3(line: str) -> None:
    """A word that is no term and a value that is none are told with their place, without a traceback."""
    found = run(line)
    assert isinstance(found.exception, SystemExit)
    assert found.exception.code == 3


def test_picture_is_written_with_its_title_and_the_same_again(tmp_path: Path) -> None:
    """The file is an SVG with the title asked for, escaped, and the same bytes at every run."""
    line = f"{COLD}, jacket emittance 0.9, thickness 1 in"
    first, second = tmp_path / "first.svg", tmp_path / "second.svg"
    for path in (first, second):
        assert run(line, "--picture", str(path), "--title", "CHW-3 <&> 4 in").return_value == 0
    assert first.read_bytes() == second.read_bytes()
    drawing = ElementTree.fromstring(first.read_text(encoding="utf-8"))
    title = drawing.find("{http://www.w3.org/2000/svg}title")
    assert title is not None
    assert title.text == "CHW-3 <&> 4 in"


def test_picture_that_cannot_be_written_ends_with_status_3(tmp_path: Path) -> None:
    """A folder that is not there is told before anything is worked out."""
    found = run(f"{COLD}, jacket emittance 0.9, thickness 1 in", "--picture", str(tmp_path / "absent" / "line.svg"))
    assert found.exit_code == 3
    assert "R103" in found.output
    assert list(tmp_path.iterdir()) == []


def test_what_was_not_judged_is_said_and_ends_with_status_2() -> None:
    """A cold line without humidity is not told to be fine: the condensation is named with what it needs."""
    line = COLD.replace("relative humidity 80 %, ", "") + ", jacket emittance 0.9, thickness 1 in"
    found = run(line)
    assert found.return_value == 2
    assert "Not judged: condensation: information needed: relative humidity" in told(found)


def test_stated_limit_counts_on_lines_that_are_not_hot() -> None:
    """A limit of 30 C on a line at 40 C is judged: 20 mm keep to it with emittance 0.9, 1 mm does not."""
    line = (
        "pipe outside diameter 114.3 mm, operating temperature 40 C, ambient temperature 25 C, "
        "conductivity 0.04 W/(m.K), jacket emittance 0.9, surface temperature limit 30 C, thickness {}"
    )
    assert run(line.format("1 mm"), "--units", "metric").return_value == 1
    assert run(line.format("20 mm"), "--units", "metric").return_value == 0


def test_limit_that_nobody_stated_is_told_as_assumed_and_sizes_in_the_units_asked_for() -> None:
    """The customary 60 C is marked as assumed, and stocked thicknesses are named in mm."""
    line = (
        "pipe outside diameter 114.3 mm, operating temperature 200 C, ambient temperature 27 C, "
        "conductivity 0.055 W/(m.K), jacket emittance 0.9, thickness 25 mm"
    )
    words = told(run(line, "--units", "metric"))
    assert "customary touch limit 60 C" in words
    assert "surface temperature limit: 60 C (assumed)" in words
    assert "Proposed 25 mm" in words


def test_sizes_of_tube_and_of_large_pipe_have_their_diameters() -> None:
    """5/8 in copper is 3/4 in outside (ASTM B88), NPS 42 is 1067 mm (ASME B36.10M, as in the library fluids)."""
    shared = (
        "; insulation elastomeric foam; conductivity 0.25 Btu.in/(h.ft2.F); jacket none; thickness 1 in; "
        "operating temperature 42 F; ambient temperature 80 F; relative humidity 80 %"
    )
    assert "pipe outside diameter: 3/4 in (worked out)" in told(run(f"pipe size 5/8 in; pipe material copper{shared}"))
    large = told(run(f"pipe size 42 in; pipe material steel{shared}", "--units", "metric"))
    assert f"pipe outside diameter: {nearest_pipe(NPS=42, schedule='STD')[2] * 1000:.0f} mm (worked out)" in large


@pytest.mark.parametrize(("limit", "status", "met"), [("140 F", 1, "not met"), ("260 F", 0, "met")])
def test_bare_pipe_is_judged_by_its_own_surface(limit: str, status: int, met: str) -> None:
    """A bare steel pipe at 250 F is as hot as what it carries; what would insulate it is not known and is said."""
    line = "pipe size 4 in, pipe material steel, insulation none, operating temperature 250 F, ambient temperature 75 F"
    found = run(f"{line}, surface temperature limit {limit}")
    assert found.return_value == status
    assert "Proposed no insulation: surface 250 F" in told(found)
    assert f"touch limit {limit}: {met} as proposed; the minimum thickness cannot be determined: conductivity" in told(
        found
    )


@pytest.mark.parametrize(("facing", "emittance"), [("all-service jacket", 0.9), ("foil", 0.05)])
def test_facing_shows_its_emittance(facing: str, emittance: float) -> None:
    """Without a jacket the facing is the surface: paper 0.9, foil as low as 0.05 (common practice, no source)."""
    line = (
        "component duct, duct width 24 in, duct height 12 in, insulation glass fiber, conductivity 0.25 "
        f"Btu.in/(h.ft2.F), facing {facing}, jacket none, thickness 1 in, operating temperature 55 F, "
        "ambient temperature 80 F, relative humidity 80 %"
    )
    stated = re.search(r"jacket emittance: ([\d.]+) \(worked out\)", told(run(line)))
    assert stated is not None
    assert float(stated[1]) == pytest.approx(emittance, abs=0.06)


WATER = (
    f"{COLD}, jacket emittance 0.9, thickness 19 mm, insulation polyisocyanurate, permeability 0.02 ng/(s.m.Pa), "
    "vapor stop spacing 6 m"
)


def test_service_years_and_vapor_stops_ask_for_more(tmp_path: Path) -> None:
    """Water, the wet surface, the spread of vapor and the length at risk are rows; what runs over years is drawn."""
    drawn = tmp_path / "water.svg"
    found = run(f"{WATER}, service years 20", "--units", "metric", "--picture", str(drawn))
    assert found.return_value == 0
    for row in ("Yearly moisture gain: ", "Water content: ", "Wet surface temperature: ", "Length at risk: 6000 mm"):
        assert row in told(found)
    texts = [one.text for one in ElementTree.parse(drawn).iter("{http://www.w3.org/2000/svg}text")]
    assert "water content, %" in texts
    assert "wet surface temperature, C" in texts


def test_what_lacks_an_input_cannot_be_determined() -> None:
    """A sheet whose open share nobody states leaves the water open, and the status says that something is."""
    found = run(f"{WATER}, retarder permeance 0.02 perm, service years 20", "--units", "metric")
    assert found.return_value == 2
    assert "Water content: cannot be determined: information needed: retarder open share" in told(found)


def test_a_run_asks_for_its_end_its_standstill_and_its_heat(tmp_path: Path) -> None:
    """Velocity, limit, ice, tracing and hangers are rows each; the temperature is drawn along the run."""
    drawn = tmp_path / "run.svg"
    line = (
        "pipe outside diameter 114.3 mm, pipe inside diameter 102.3 mm, pipe material steel, "
        "service heating hot water, "
        "operating temperature 82 C, ambient temperature -7 C, conductivity 0.0375 W/(m.K), jacket emittance 0.9, "
        "thickness 50 mm, run length 100 m, fluid velocity 0.03 m/s, fluid temperature limit 60 C, ice share 25 %, "
        "maintained temperature 10 C, hanger loss share 15 %, bare fittings 0, bare length 0 m"
    )
    found = run(line, "--units", "metric", "--picture", str(drawn))
    assert found.return_value == 0
    for row in ("Outlet temperature: ", "Holding time: ", "Icing time: ", "Heat trace load: ", "Run heat flow: "):
        assert row in told(found)
    texts = [one.text for one in ElementTree.parse(drawn).iter("{http://www.w3.org/2000/svg}text")]
    assert "outlet temperature, C" in texts
    assert "run length, m" in texts


def test_a_year_and_the_thickness_that_pays(tmp_path: Path) -> None:
    """With hours, efficiency and prices the year is told in kWh, cost and kg; the cost is drawn over the thickness."""
    drawn = tmp_path / "year.svg"
    line = (
        "pipe outside diameter 114.3 mm, component pipe, operating temperature 82 C, ambient temperature 22 C, "
        "conductivity 0.0375 W/(m.K), jacket emittance 0.9, thickness 25 mm, "
        "insulation mineral wool, run length 100 m, operating hours 5000 h, "
        "energy efficiency 80 %, energy price 0.08, carbon factor 0.2, insulation price per cubic metre 2000, "
        "jacket price per square metre 30, "
        "economic life 15"
    )
    found = run(line, "--units", "metric", "--picture", str(drawn))
    assert found.return_value == 0
    heat, energy, carbon = (
        float(value)
        for name, unit in (("heat", "kWh"), ("energy", "kWh"), ("carbon", "kg"))
        for value in re.findall(rf"Yearly {name}: ([\d.]+) {unit}", told(found))
    )
    assert energy == pytest.approx(heat / 0.8, rel=1e-3)
    assert carbon == pytest.approx(energy * 0.2, rel=1e-3)
    assert "Economic thickness: 60 mm" in told(found), "with 10 W/(m2.K), by hand, 50 mm cost 1 % more, 80 mm 5 %"
    texts = [one.text for one in ElementTree.parse(drawn).iter("{http://www.w3.org/2000/svg}text")]
    assert "yearly cost" in texts
    assert "actual thickness, mm" in texts


@pytest.mark.parametrize(("units", "stocked"), [("metric", "30 mm"), ("inch-pound", "1-1/2 in")])
def test_next_stocked_thickness_is_one_of_the_units_in_use(units: str, stocked: str) -> None:
    """Of 26.75 mm (1.053 in) against condensation the working says the next that is stocked in these units."""
    found = run(
        "pipe size 4 in, pipe material steel, insulation elastomeric foam, conductivity 0.036 W/(m.K), "
        "jacket emittance 0.9, operating temperature 5 C, ambient temperature 27 C, relative humidity 85 %, "
        "thickness 25 mm",
        "--units",
        units,
    )
    assert f"next stocked thickness: {stocked} " in " ".join(told(found).split())


def test_walls_sun_and_sky_ask_for_their_surface(tmp_path: Path) -> None:
    """Each is a row with its working and a course over the thickness; in the sun a pipe has its sol-air temperature."""
    drawn = tmp_path / "outdoors.svg"
    found = run(
        "pipe outside diameter 114.3 mm, component pipe, insulation elastomeric foam, operating temperature 5 C, "
        "ambient temperature 27 C, relative humidity 50 %, conductivity 0.036 W/(m.K), jacket emittance 0.9, "
        "thickness 38 mm, surroundings temperature 22 C, solar irradiance 500 W/m2, solar absorptance 0.6, "
        "sky temperature 10 C",
        "--units",
        "metric",
        "--picture",
        str(drawn),
    )
    assert found.return_value == 0
    rows = dict(re.findall(r"(Radiant|Sunlit|Night) surface temperature: ([\d.]+) C", told(found)))
    assert float(rows["Night"]) == pytest.approx(16.2, abs=0.05)  # SciPy and CoolProp: 16.230
    assert float(rows["Radiant"]) < 27 < float(rows["Sunlit"])
    texts = [one.text for one in ElementTree.parse(drawn).iter("{http://www.w3.org/2000/svg}text")]
    for name in ("radiant", "sunlit", "night"):
        assert f"{name} surface temperature, C" in texts


def test_a_tank_is_told_as_a_whole(tmp_path: Path) -> None:
    """A tank of which the height is stated has a row for the heat of shell and ends, and the working names each."""
    found = run(
        "component tank, orientation vertical, tank diameter 1.5 m, tank height 2 m, insulation elastomeric foam, "
        "operating temperature 5 C, ambient temperature 27 C, relative humidity 60 %, conductivity 0.036 W/(m.K), "
        "jacket emittance 0.9, thickness 38 mm",
        "--units",
        "metric",
    )
    number = re.search(r"Tank heat flow: ([\d.]+) W", told(found))
    assert number is not None
    # All faces at 22 K through 38 mm and some 0.12 m2 K/W of surface: 19.0 W/m2 of some 14 m2.
    assert float(number[1]) == pytest.approx(22 / (0.038 / 0.036 + 0.12) * 13.9, rel=0.06)
    for words in ("heat flow of the shell", "heat flow of the tank roof", "heat flow of the tank bottom"):
        assert words in told(found)


def test_faces_of_a_duct_are_told_and_drawn(tmp_path: Path) -> None:
    """Side, top and bottom of a duct have their temperatures in a row, and a line each in the picture."""
    drawn = tmp_path / "duct.svg"
    found = run(
        "component duct, duct width 24 in, duct height 12 in, insulation glass fiber, conductivity 0.25 "
        "Btu.in/(h.ft2.F), facing all-service jacket, jacket none, thickness 1-1/2 in, operating temperature 55 F, "
        "ambient temperature 80 F, relative humidity 80 %",
        "--picture",
        str(drawn),
    )
    row = re.search(
        r"Surface of each face: duct side ([\d.]+) F, duct top ([\d.]+) F, duct bottom ([\d.]+) F", told(found)
    )
    assert row is not None
    side, top, bottom = (float(value) for value in row.groups())
    assert top < side <= bottom  # a cold top is cooled from above, where the air lies still
    assert f"Proposed 1-1/2 in: surface {top} F" in told(found)
    texts = [one.text for one in ElementTree.parse(drawn).iter("{http://www.w3.org/2000/svg}text")]
    assert {"duct side", "duct top", "duct bottom"} <= set(texts)
    pipe = run(f"{COLD}, jacket emittance 0.9, thickness 1 in")
    assert "each face" not in pipe.output


def test_a_buried_pipe_needs_no_air() -> None:
    """In soil there is no surface to work out; the heat flow of the pipe is told all the same, and the status is 2."""
    found = run(
        "pipe outside diameter 114.3 mm, insulation cellular glass, conductivity 0.045 W/(m.K), thickness 50 mm, "
        "operating temperature 82 C, ground temperature 10 C, burial depth 1 m, soil conductivity 1.5 W/(m.K)",
        "--units",
        "metric",
    )
    assert found.return_value == 2
    assert "Buried heat flow: " in told(found)
    assert "W/m" in told(found)
