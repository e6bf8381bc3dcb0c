"""Whatever the brewery's people are shown is metric: no inch, no Fahrenheit and no Btu in any answer."""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest
from click.testing import CliRunner
from docx import Document
from openpyxl import load_workbook

from speccheck.cli import speccheck
from speccheck.desk.work_rulesets import system
from speccheck.review.corrections import mend_schedule
from tests.demo.test_brewery import BREWERY, matrix

PROJECT, SCHEDULE = str(BREWERY / "project.clauses"), str(BREWERY / "schedule.xlsx")
INCH_POUND = re.compile(r"\d ?(?:in|ft|F|psi|mph|perm)\b(?! the| a| this)|\bBtu|\bNPS \d")
COLD = "service chilled water, pipe size DN 50, operating temperature 6 C"

# By hand: 30 mm over 22.3 mm inside; as thick as 54.5 mm inside; twice 70.3 mm; 20 mm at 0.035 is 24.9 mm at 0.040 on
# copper 22 x 1; 40 mm of glycol line over DN 50; 13 mm in shafts; 60 mm of steam line. Each in the next millimetres
# that are commonly stocked (common practice, no source).
IN_STOCK = {"H-2": 30, "H-4": 60, "H-6": 160, "H-7": 25, "G-2": 40, "K-2": 13, "S-2": 60}


def shown(path: Path) -> str:
    """Return the words of a page, a workbook, a Word document or a text, without what only a program reads."""
    if path.suffix == ".xlsx":
        cells = (cell for sheet in load_workbook(path) for row in sheet.iter_rows() for cell in row)
        return "\n".join(f"{cell.value} {cell.comment.text if cell.comment else ''}" for cell in cells if cell.value)
    if path.suffix == ".docx":
        document = Document(str(path))
        cells = [cell.text for table in document.tables for row in table.rows for cell in row.cells]
        return "\n".join([*(paragraph.text for paragraph in document.paragraphs), *cells])
    text = path.read_text(encoding="utf-8")
    if path.suffix == ".html":
        text = re.sub(r"<style.*?</style>|<svg.*?</svg>", " ", text, flags=re.DOTALL)
        text = html.unescape(re.sub(r"<[^>]+>", " ", text))
    return text


@pytest.mark.parametrize(
    "command",
    [
        ("check", SCHEDULE, "--against", PROJECT, "--full", "--page", "a.html", "--workbook", "b.xlsx"),
        ("check", SCHEDULE, "--against", PROJECT, "--markdown", "a.md", "--findings", "b.csv"),
        ("corrections", SCHEDULE, "--against", PROJECT, "--workbook", "a.xlsx"),
        ("reply", SCHEDULE, "--against", PROJECT, "--proposals", "--page", "a.html", "--word", "b.docx"),
        ("markup", SCHEDULE, "--against", PROJECT, "--into", "a.xlsx"),
        ("prose", PROJECT, "--sources", "--page", "a.html", "--word", "b.docx"),
        ("blank", PROJECT, "a.xlsx"),
        ("read", SCHEDULE, "--against", PROJECT, "--all"),
        ("explain", SCHEDULE, "--against", PROJECT, "--line", "C-3", "--clause", "GEG-2.1"),
        ("explain", SCHEDULE, "--against", PROJECT, "--line", "K-4", "--clause", "DIN1988-1.3"),
        ("requirements", COLD, "--against", PROJECT, "--full"),
        ("proofread", PROJECT),
        (
            "system",
            f"{COLD}, pipe material steel, insulation elastomeric foam, thickness 19 mm, conductivity 0.035 W/(m.K), "
            "ambient temperature 26 C, relative humidity 70 %, jacket none",
            "--picture",
            "a.svg",
        ),
    ],
    ids=lambda command: " ".join(word for word in command if "/" not in word)[:60],
)
def test_every_answer_is_metric(command: tuple[str, ...], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is printed and what is written, by each command that the brewery's three users have."""
    monkeypatch.chdir(tmp_path)
    printed = CliRunner().invoke(speccheck, list(command), standalone_mode=False).output
    written = [shown(path) for path in sorted(tmp_path.iterdir())]
    assert len(printed) + sum(map(len, written)) > 100
    for words in (printed, *written):
        assert INCH_POUND.findall(" ".join(words.split())) == []


def test_corrections_are_thicknesses_that_are_stocked_in_millimetres() -> None:
    """Each thin line is told the next thickness in stock: 25 mm and not 25.4, 30 mm and not 31.75."""
    found: dict[str, str] = {}
    for one in mend_schedule(matrix()):
        for proposal in one.proposals:
            for change in proposal.changes:
                if change.term.name == "thickness" and one.line.name in IN_STOCK:
                    found.setdefault(one.line.name, str(change.after))
    assert found == {name: f"{millimetres} mm" for name, millimetres in IN_STOCK.items()}


def test_the_desk_draws_a_metric_system_in_metric() -> None:
    """Words and picture of a system that is asked for in metric have no inch in them, stocked thicknesses neither."""
    line = (
        f"{COLD}, pipe material steel, insulation elastomeric foam, conductivity 0.036 W/(m.K), jacket none, "
        "thickness 25 mm, ambient temperature 27 C, relative humidity 70 %"
    )
    found = system({"line": line, "units": "metric"}, lambda *_: None)
    assert "<svg" in found["picture"]
    for words in (found["text"], re.sub(r"<[^>]+>", " ", found["picture"])):
        assert "25 mm" in words
        assert INCH_POUND.findall(words) == []
