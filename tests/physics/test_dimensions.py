"""Pipe, tube and insulation dimensions against printed tables and a library."""

from __future__ import annotations

import numpy as np
import pytest
from fluids.piping import schedule_lookup

from speccheck.physics import dimensions as pipes
from speccheck.physics import dimensions as sizes
from speccheck.physics.systems import equivalent_flat_thickness
from tests.physics.published_cases import cases, columns
from tests.some import some

MM = 1e-3


@pytest.mark.parametrize("schedule", ["10", "20", "40", "80", "160", "STD", "XS", "XXS"])
def test_steel_pipe_agrees_with_the_fluids_library(schedule: str) -> None:
    """Outside diameter and bore of every size of a schedule are those of fluids 1.3.1 (ASME B36.10M)."""
    nominal, bore, outside, _ = schedule_lookup[schedule]
    assert np.allclose(pipes.steel_pipe_outside_diameter(nominal), np.array(outside) * MM, rtol=0, atol=1e-9)
    assert np.allclose(pipes.steel_pipe_bore(nominal, schedule), np.array(bore) * MM, rtol=0, atol=1e-9)


def test_inch_series_of_steel_pipe_rounds_to_the_metric_one() -> None:
    """The inch diameters of ASME B36.10M (½ 0.840, 5 5.563, 12 12.750) match the mm ones."""
    nominal = [0.5, 2.0, 5.0, 12.0, 24.0]
    inches = pipes.steel_pipe_outside_diameter(nominal, "inch") / pipes.INCH
    assert inches == pytest.approx([0.840, 2.375, 5.563, 12.750, 24.0])
    assert np.all(np.abs(pipes.steel_pipe_outside_diameter(nominal) - inches * pipes.INCH) <= 0.45 * MM)


def test_copper_tube_is_an_eighth_of_an_inch_over_nominal() -> None:
    """ASTM B88: the printed mm (ASHRAE chapter 23, Table 14) and the tube-size plastics of fluids agree."""
    nominal = [0.375, 0.5, 0.75, 1, 1.25, 1.5, 2, 2.5, 3, 3.5, 4, 5, 6]
    printed = [12.7, 15.9, 22.2, 28.6, 34.9, 41.3, 54.0, 66.7, 79.4, 92.1, 105, 130, 156]
    found = pipes.copper_tube_outside_diameter(nominal) / MM
    assert np.all(np.abs(found - printed) <= [0.05] * 10 + [0.5] * 3)
    assert pipes.copper_tube_outside_diameter(nominal, "metric") / MM == pytest.approx(printed)
    plastic_nominal, _, plastic_outside, _ = schedule_lookup["DR11D2241CTS"]
    assert pipes.copper_tube_outside_diameter(plastic_nominal) / MM == pytest.approx(plastic_outside, abs=0.001)


def test_copper_bore_takes_two_walls_off() -> None:
    """1 in. type L is 1.025 in. inside (wall 0.050 in., ASTM B88, from memory); an unknown type or size gives NaN."""
    assert float(pipes.copper_tube_bore(1.0, "L")) / pipes.INCH == pytest.approx(1.025)
    assert np.isnan(pipes.copper_tube_bore(1.0, "Z"))
    assert np.isnan(pipes.copper_tube_bore(1.1, "L"))
    assert np.isnan(pipes.steel_pipe_bore([2.0, 7.0], "40")).tolist() == [False, True]
    assert np.isnan(pipes.steel_pipe_bore(2.0, "no such"))


def test_insulation_outside_diameters_are_the_printed_ones() -> None:
    """Cells from all corners of the four tables (ASHRAE chapter 23, Tables 13 to 16), by mm label and by inch size."""
    rows = cases("insulation_outside_diameters")
    for row in rows:
        made = sizes.insulation_size(
            row["form"],  # type: ignore[arg-type]
            float(row["nominal_in"]),
            float(row["thickness_mm"]) * MM,
        )
        assert float(made.outside_diameter) / MM == pytest.approx(float(row["outside_mm"])), row
        assert bool(made.from_table), row
    by_inch = sizes.insulation_size("rigid on pipe", [0.5, 14.0], [2.5 * pipes.INCH, 5 * pipes.INCH])
    assert by_inch.outside_diameter / MM == pytest.approx([168, 610])


def test_actual_thickness_is_not_the_nominal_one() -> None:
    """NPS 1 at 1 in. is 27.8 mm, NPS 2 26.9, NPS 4 at 2 in. 52.4, NPS ½ at 2½ in. 73.4 (Table 13)."""
    made = sizes.insulation_size("rigid on pipe", [1, 2, 4, 0.5], np.array([25, 25, 50, 63]) * MM)
    assert made.thickness / MM == pytest.approx([27.8, 26.85, 52.35, 73.35], abs=0.06)


def test_sizes_that_only_the_insulation_table_has_take_its_pipe_diameter() -> None:
    """4½, 7, 9 and 11 in. are 127, 194, 244 and 298 mm outside (ASHRAE chapter 23, Table 13)."""
    made = sizes.insulation_size("rigid on pipe", [4.5, 7, 9, 11], 0.038)
    assert made.bare_diameter / MM == pytest.approx([127, 194, 244, 298])
    assert made.outside_diameter / MM == pytest.approx([219, 273, 324, 381])


def test_nominal_thickness_stands_where_the_table_has_no_cell() -> None:
    """Not printed: pipe, or printed bore of the insulation (61 mm on NPS 2), plus twice the thickness; it is said."""
    made = sizes.insulation_size("rigid on pipe", [22, 2, 8, 7.3, 2], [0.025, 0.040, 0.025, 0.025, np.nan])
    assert made.from_table.tolist() == [False, False, False, False, False]
    assert made.outside_diameter[:3] / MM == pytest.approx([609, 141, 271])
    assert made.bore_from_table.tolist() == [False, True, True, False, True]
    assert np.isnan(made.outside_diameter[3:]).all()


@pytest.mark.parametrize("form", list(sizes.TABLES))
def test_printed_insulation_is_never_much_thinner_than_nominal(form: sizes.Form) -> None:
    """Every printed cell is between 87 % and 145 % of its nominal thickness: none was misplaced."""
    cells = sizes.table(sizes.TABLES[form])
    actual = (cells.column("outside_mm") - cells.column("bare_mm")) / 2
    nominal = cells.column("thickness_in") * 25.4
    assert np.all(actual >= 0.87 * nominal)
    assert np.all(actual <= 1.45 * nominal)


def test_equivalent_flat_thickness_of_printed_diameters() -> None:
    """r2·ln(r2/r1) of ASHRAE chapter 23, equation 8, for printed diameters, in mm and in inches."""
    printed = columns("equivalent_flat_thickness")
    found = equivalent_flat_thickness(printed["inner"], printed["outer"])
    assert np.all(np.abs(found - printed["equivalent"]) <= printed["tolerance"])


@pytest.mark.parametrize(
    ("standard", "nominal", "outside", "inside"),
    [
        ("EN-10216", 2.5, 76.1, 70.3),
        ("EN-10216", 3, 88.9, 82.5),
        ("EN-1057", 0.75, 22.0, 20.0),
        ("EN-1057", 1.25, 35.0, 32.0),
        ("EN-1057", 2, 54.0, 50.0),
    ],
)
def test_european_pipe_has_the_diameters_of_published_worked_values(
    standard: str, nominal: float, outside: float, inside: float
) -> None:
    """Pipes of worked values for the German law: 76.1 x 2.9, 88.9 x 3.2, copper 22 x 1, 35 x 1.5, 54 x 2 (mm)."""
    if standard == "EN-1057":
        found = (pipes.european_copper_outside_diameter(nominal), pipes.european_copper_bore(nominal))
    else:
        found = (pipes.european_steel_outside_diameter(nominal), pipes.european_steel_bore(nominal, standard))
    assert [1000 * float(one) for one in found] == pytest.approx([outside, inside])


NPS_OF_DN = {
    20: 0.75,
    25: 1,
    32: 1.25,
    40: 1.5,
    50: 2,
    65: 2.5,
    80: 3,
    100: 4,
    125: 5,
    150: 6,
    200: 8,
    250: 10,
    300: 12,
}


def test_european_steel_pipe_has_the_diameters_of_the_library() -> None:
    """`data/steel_pipe_by_dn.csv`: every outside diameter, and to DN 150 the inside one of one of its two series.

    Above DN 150 seamless pipe has thicker walls than the library, which is for welded pipe; those are not asserted.
    """
    printed = cases("steel_pipe_by_dn")
    for dn, nominal in NPS_OF_DN.items():
        rows = some(row for row in printed if float(row["dn"]) == dn)
        outside, bore = (
            1000 * float(one)
            for one in (pipes.european_steel_outside_diameter(nominal), pipes.european_steel_bore(nominal, "EN-10216"))
        )
        assert [float(row["outside"]) for row in rows] == pytest.approx([outside] * len(rows))
        if dn <= 150:
            assert any(float(row["inside"]) == pytest.approx(bore) for row in rows), (dn, bore)


@pytest.mark.parametrize(("series", "standard"), [("MEDIUM", "EN-10255-medium"), ("HEAVY", "EN-10255-heavy")])
def test_threaded_pipe_has_the_walls_of_the_library(series: str, standard: str) -> None:
    """The open library fluids carries BS 1387, whose walls EN 10255 took over, with the greatest outside diameters."""
    for dn, inside, outside, wall in zip(*schedule_lookup[f"BS1387{series}"][:4], strict=True):
        nominal = {10: 0.375, 15: 0.5, 20: 0.75, 25: 1, 32: 1.25, 40: 1.5, 50: 2, 65: 2.5, 80: 3, 100: 4, 125: 5}.get(
            int(dn)
        )
        if nominal is None:
            continue
        ours = (
            1000 * float(pipes.european_steel_outside_diameter(nominal)),
            1000 * float(pipes.european_steel_bore(nominal, standard)),
        )
        assert (ours[0] - ours[1]) / 2 == pytest.approx(wall)
        assert outside - 1.0 <= ours[0] <= outside
        assert inside - 1.0 <= ours[1] <= inside
