"""Headers that name two units: a pair says which number is in which, a number alone mostly does not.

That a thickness of 25 is none in inches is the vocabulary's sensible range. Sizes are those of ASME B36.10M and
ISO 6708.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.language.vocabulary.values import NotGiven, write_value
from speccheck.schedule import read_schedule
from tests.schedule.test_as_written import shipped


def read(header: str, text: str, term: str, folder: Path) -> str:
    """Return what one cell under a header is read as, or "?" with why it is open."""
    path = folder / "case.csv"
    path.write_text(f'Service;Insulation;"{header}"\nHHW;FG;"{text}"\n', encoding="utf-8")
    value = read_schedule(path, shipped(), units="inch-pound").lines[0].data[term].value
    return f"? {value.why}" if isinstance(value, NotGiven) else write_value(value, shipped().terms[term])


@pytest.mark.parametrize(
    "header", ["Thickness mm (in)", "Thickness (mm/in)", "Thickness in. (mm)", "Insul. Thk., in [mm]"]
)
@pytest.mark.parametrize(
    ("text", "value"), [("25", "25 mm"), ("25 mm", "25 mm"), ("1 in", "1 in"), ("1", "?"), ("5", "?"), ("1-1/2", "?")]
)
def test_a_number_alone_is_in_the_unit_that_makes_sense_or_open(
    header: str, text: str, value: str, tmp_path: Path
) -> None:
    """In whatever order and marks the units stand, the numbers decide, and where they do not the cell is open."""
    assert read(header, text, "thickness", tmp_path).partition(" `")[0].strip() == value


@pytest.mark.parametrize(
    ("header", "text", "term", "value"),
    [
        ("Thickness mm (in)", "25 (1)", "thickness", "25 mm"),
        ("Thickness mm (in)", "1 (25)", "thickness", "1 in"),
        ("Thickness in. (mm)", "1-1/2 (40)", "thickness", "1-1/2 in"),
        ("Oper. temp. °F (°C)", "180 (82)", "operating temperature", "180 F"),
        ("k, W/mK (BTU·in/h·ft²·°F)", "0.036 (0.25)", "conductivity", "0.036 W/(m.K)"),
        ("Pipe size in (DN)", "2 (50)", "pipe size", "2 in"),
        ("Pipe size in (DN)", "65", "pipe size", "2-1/2 in"),
    ],
)
def test_a_pair_says_which_number_is_in_which_unit(
    header: str, text: str, term: str, value: str, tmp_path: Path
) -> None:
    """Two numbers that are the same in the two units are one amount, and DN 65 is the one size of that number."""
    assert read(header, text, term, tmp_path) == value


@pytest.mark.parametrize(
    ("header", "text", "term", "why"),
    [
        ("Thickness mm (in)", "25 (2)", "thickness", "`25 (2)` holds two amounts that are not the same in mm and in"),
        ("Pipe size in (DN)", "20", "pipe size", "`20` may be in in or in DN, which the header both names"),
        ("Temp. °F (°C)", "45", "operating temperature", "`45` may be in F or in C, which the header both names"),
    ],
)
def test_what_the_numbers_do_not_decide_says_why(header: str, text: str, term: str, why: str, tmp_path: Path) -> None:
    """Amounts that disagree, and numbers that could be either, are questions."""
    assert read(header, text, term, tmp_path) == f"? {why}"
