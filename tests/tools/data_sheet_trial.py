"""`python -m tests.tools.data_sheet_trial [--seed N] [--count 30]`: invented data sheets with planted differences.

Each sheet is of an invented product, in one of ten layouts, in inch-pound or metric units, and shows what a schedule
line states but for what was planted: one value is different, one is left out, or one is shown twice and differently.
Printed is what was found of that, what was invented, and what is shown and was not found.
"""

from __future__ import annotations

import argparse
import random
import tempfile
from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from speccheck.language import parse_ruleset
from speccheck.review.evidence import check_against_products
from speccheck.review.messages.evidence import NOT_SHOWN, PRODUCT_DIFFERS, PRODUCT_SHOWN, PRODUCTS_DISAGREE
from speccheck.review.reviewing import judge_schedule
from speccheck.schedule.data_sheets import read_data_sheet
from speccheck.schedule.schedule import read_objects

RULES = """ruleset "trial"
  speaks mechanical insulation
  units  inch-pound

clause 1 "conductivity"
  shall conductivity be at most 0.50 Btu.in/(h.ft2.F)
"""
STEMS = ("Quill", "Brindle", "Marrow", "Tansy", "Ferrow", "Cobble", "Wicket", "Sorrel")
ENDS = ("foam", "wrap", "shell", "bloc", "fleece")
MEANS = (75, 100, 150)


@dataclass(frozen=True)
class Sheet:
    """A data sheet: its product, what the line states, what the sheet shows, what was planted on which property."""

    product: str
    stated: Mapping[str, str]
    shown: Mapping[str, str]
    curve: Mapping[int, float]
    planted: str
    kind: str
    twice: str
    metric: bool


def sheet_of(chance: random.Random) -> Sheet:
    """Return a random sheet."""
    product = chance.choice(STEMS) + chance.choice(ENDS) + f" {chance.choice('ABCDEFGH')}{chance.randint(10, 99)}"
    metric = chance.random() < 0.4
    k = chance.randint(20, 34) / 100
    values: dict[str, Any] = {
        "conductivity": k,
        "density": chance.choice((2.5, 3.0, 3.5, 4.0, 6.0)),
        "permeability": chance.choice((0.03, 0.05, 0.08, 0.10)),
        "minimum use temperature": chance.choice((-297, -70, -40, 0)),
        "maximum use temperature": chance.choice((180, 220, 250, 300, 850)),
        "flame spread": chance.choice((5, 15, 20, 25)),
        "smoke developed": chance.choice((0, 30, 45, 50)),
    }
    kind = chance.choice(("different", "different", "different", "left out", "twice", "none"))
    planted = chance.choice(list(values)) if kind != "none" else ""
    shown = dict(values)
    if kind == "different":
        shown[planted] = (
            round(values[planted] * 1.4 + 3, 2)
            if planted not in ("conductivity", "permeability")
            else round(values[planted] + 0.03, 3)
        )
    elif kind == "left out":
        del shown[planted]
    curve = {}
    if "conductivity" in shown:
        curve = {mean: round(shown["conductivity"] + 0.02 * number, 2) for number, mean in enumerate(MEANS)}
    twice = ""
    if kind == "twice":
        step = 0.02 if values[planted] < 1 and isinstance(values[planted], float) else 10
        other = round(values[planted] + step, 2)
        twice = written(planted, other, metric)
    stated = {name: written(name, value, False) for name, value in values.items()}
    stated["conductivity mean temperature"] = "75 F"
    texts = {name: written(name, value, metric) for name, value in shown.items()}
    return Sheet(product, stated, texts, curve, planted, kind, twice, metric)


def written(name: str, value: float, metric: bool) -> str:
    """Return a value as a sheet writes it; conversions with factors of NIST SP 811 (from memory)."""
    if name == "conductivity":
        return f"{value * 0.1442279:.4f} W/(m·K)" if metric else f"{value:.2f} Btu·in/(h·ft²·°F)"
    if name == "density":
        return f"{value * 16.01846:.1f} kg/m³" if metric else f"{value:g} lb/ft³"
    if name == "permeability":
        return f"{value:.2f} perm-in"
    if name.endswith("temperature"):
        return f"{(value - 32) / 1.8:.1f} °C" if metric else f"{value:g} °F"
    return f"{value:g}"


LABELS = {
    "conductivity": "Thermal conductivity",
    "density": "Density",
    "permeability": "Water vapor permeability",
    "minimum use temperature": "Minimum service temperature",
    "maximum use temperature": "Maximum service temperature",
    "flame spread": "Flame spread index",
    "smoke developed": "Smoke developed index",
}
METHODS = {
    "conductivity": "ASTM C518",
    "permeability": "ASTM E96",
    "flame spread": "ASTM E84",
    "smoke developed": "ASTM E84",
}


def _mean(sheet: Sheet, mean: int) -> str:
    return f"{(mean - 32) / 1.8:.1f} °C" if sheet.metric else f"{mean} °F"


def _rows(sheet: Sheet) -> list[tuple[str, str]]:
    """Return names and values, the conductivity once for each mean temperature."""
    rows = []
    for name, text in sheet.shown.items():
        if name == "conductivity":
            for mean, k in sheet.curve.items():
                rows.append((f"{LABELS[name]} at {_mean(sheet, mean)} mean", written(name, k, sheet.metric)))
        else:
            rows.append((LABELS[name], text))
    if sheet.twice:
        where = f" at {_mean(sheet, 75)} mean" if sheet.planted == "conductivity" else ""
        rows.append((LABELS[sheet.planted] + where, sheet.twice))
    return rows


def _pdf(path: Path, sheet: Sheet, body: Sequence[Any]) -> None:
    from reportlab.lib.pagesizes import letter
    from reportlab.lib.styles import getSampleStyleSheet
    from reportlab.platypus import PageBreak, Paragraph, SimpleDocTemplate, Spacer

    styles = getSampleStyleSheet()
    first = [
        Paragraph(f"{sheet.product} pipe insulation", styles["Title"]),
        Paragraph("Product data. Invented for a trial; no such product exists.", styles["Normal"]),
        Spacer(1, 12),
    ]
    if sheet.product[-1] in "13579":  # the data on a second page
        first += [Paragraph("A covering for pipes and ducts in buildings of all kinds.", styles["Normal"]), PageBreak()]
    SimpleDocTemplate(str(path), pagesize=letter, invariant=1).build([*first, *body])


def _table(rows: Sequence[Sequence[str]], ruled: bool = True) -> Any:
    from reportlab.lib import colors
    from reportlab.platypus import Table

    table = Table(rows, hAlign="LEFT")
    table.setStyle([("GRID", (0, 0), (-1, -1), 0.5, colors.black)] if ruled else [])
    return table


def ruled(path: Path, sheet: Sheet) -> None:
    """Names and values in a ruled table."""
    _pdf(path, sheet, [_table([("Property", "Value"), *_rows(sheet)])])


def unruled(path: Path, sheet: Sheet) -> None:
    """Names and values beside each other without rules."""
    _pdf(path, sheet, [_table(_rows(sheet), ruled=False)])


def methods(path: Path, sheet: Sheet) -> None:
    """Name, unit, method and number in columns of their own."""
    rows = [("Property", "Unit", "Test method", "Result")]
    backwards = {label: name for name, label in LABELS.items()}
    for label, text in _rows(sheet):
        number, _, unit = text.partition(" ")
        name = backwards[label.partition(" at ")[0]]
        rows.append((label, unit, METHODS.get(name, ""), number))
    _pdf(path, sheet, [_table(rows)])


def columns(path: Path, sheet: Sheet) -> None:
    """Mean temperatures over columns."""
    rows = [row for row in _rows(sheet) if not row[0].startswith(LABELS["conductivity"])]
    body = [_table([("Property", "Value"), *rows])]
    if sheet.curve:
        from reportlab.platypus import Spacer

        head = ("Mean temperature", *(_mean(sheet, mean) for mean in sheet.curve))
        values = (LABELS["conductivity"], *(written("conductivity", k, sheet.metric) for k in sheet.curve.values()))
        body += [Spacer(1, 10), _table([head, values])]
        if sheet.twice and sheet.planted == "conductivity":
            body += [Spacer(1, 10), _table([(f"{LABELS['conductivity']} at {_mean(sheet, 75)} mean", sheet.twice)])]
    _pdf(path, sheet, body)


def downward(path: Path, sheet: Sheet) -> None:
    """Mean temperatures and conductivities under their names, the unit in the header."""
    rows = [row for row in _rows(sheet) if not row[0].startswith(LABELS["conductivity"])]
    body = [_table([("Property", "Value"), *rows])]
    if sheet.curve:
        from reportlab.platypus import Spacer

        unit = written("conductivity", 1, sheet.metric).partition(" ")[2]
        degree = "°C" if sheet.metric else "°F"
        curve = [
            (_mean(sheet, mean).partition(" ")[0], written("conductivity", k, sheet.metric).partition(" ")[0])
            for mean, k in sheet.curve.items()
        ]
        if sheet.twice and sheet.planted == "conductivity":
            curve.append((_mean(sheet, 75).partition(" ")[0], sheet.twice.partition(" ")[0]))
        body += [Spacer(1, 10), _table([(f"Mean temperature, {degree}", f"k-factor, {unit}"), *curve])]
    _pdf(path, sheet, body)


def prose_of(sheet: Sheet) -> list[str]:
    """Return sentences."""
    shown, found = sheet.shown, []
    if "density" in shown:
        found.append(f"{sheet.product} is made to a nominal density of {shown['density']}.")
    if sheet.curve:
        each = [
            f"{written('conductivity', k, sheet.metric)} at {_mean(sheet, mean)}" for mean, k in sheet.curve.items()
        ]
        found.append(f"Its thermal conductivity is {', '.join(each[:-1])} and {each[-1]} mean temperature.")
    if "permeability" in shown:
        found.append(f"The water vapor permeability does not exceed {shown['permeability']} when tested to ASTM E96.")
    low, high = shown.get("minimum use temperature"), shown.get("maximum use temperature")
    if low and high:
        found.append(f"The service temperature range is {low} to {high}.")
    elif low or high:
        found.append(f"The {'minimum' if low else 'maximum'} service temperature is {low or high}.")
    if "flame spread" in shown:
        found.append(f"The flame spread index is {shown['flame spread']} by ASTM E84 at up to 2 in thickness.")
    if "smoke developed" in shown:
        found.append(f"A smoke developed index of {shown['smoke developed']} was found in the same test.")
    if sheet.twice:
        where = f" at {_mean(sheet, 75)} mean temperature" if sheet.planted == "conductivity" else ""
        found.append(f"Earlier production had a {LABELS[sheet.planted].lower()} of {sheet.twice}{where}.")
    return found


def prose(path: Path, sheet: Sheet) -> None:
    """Sentences in one column."""
    from reportlab.lib.styles import getSampleStyleSheet
    from reportlab.platypus import Paragraph

    _pdf(path, sheet, [Paragraph(" ".join(prose_of(sheet)), getSampleStyleSheet()["Normal"])])


def two_columns(path: Path, sheet: Sheet) -> None:
    """Sentences in two columns, filled up with words of no meaning here."""
    from reportlab.lib.pagesizes import letter
    from reportlab.lib.styles import getSampleStyleSheet
    from reportlab.platypus import BaseDocTemplate, Frame, PageTemplate, Paragraph

    style = getSampleStyleSheet()["Normal"]
    frames = [Frame(54, 54, 240, 640, id="left"), Frame(318, 54, 240, 640, id="right")]

    def title(canvas: Any, document: Any) -> None:
        canvas.setFont("Helvetica-Bold", 16)
        canvas.drawString(54, 720, f"{sheet.product} pipe insulation")

    document = BaseDocTemplate(str(path), pagesize=letter, invariant=1)
    document.addPageTemplates([PageTemplate("two", frames, onPage=title)])
    filler = (
        "It is cut with a sharp knife, fitted without gaps and kept dry until it is covered, as the maker advises. "
    )
    sentences = prose_of(sheet)
    half = len(sentences) // 2
    first = f"{filler * 4}{' '.join(sentences[:half])} {filler * 22}"
    second = f"{filler * 3}{' '.join(sentences[half:])} {filler * 6}"
    document.build([Paragraph(first, style), Paragraph(second, style)])


def pairs(path: Path, sheet: Sheet) -> None:
    """Two pairs of name and value on each line."""
    rows = _rows(sheet)
    if len(rows) % 2:
        rows.append(("", ""))
    _pdf(path, sheet, [_table([(*a, *b) for a, b in zip(rows[::2], rows[1::2], strict=True)], ruled=False)])


def word_table(path: Path, sheet: Sheet) -> None:
    """A Word table of names and values."""
    from tests.schedule.formats.papers import write_docx

    write_docx(path, [("Property", "Value"), *_rows(sheet)], f"{sheet.product} pipe insulation")


def word_prose(path: Path, sheet: Sheet) -> None:
    """Paragraphs of a Word document."""
    from docx import Document

    document = Document()
    document.add_heading(f"{sheet.product} pipe insulation")
    for sentence in prose_of(sheet):
        document.add_paragraph(sentence)
    document.save(str(path))


LAYOUTS: tuple[tuple[str, Callable[[Path, Sheet], None]], ...] = (
    (".pdf", ruled), (".pdf", unruled), (".pdf", methods), (".pdf", columns), (".pdf", downward), (".pdf", prose),
    (".pdf", two_columns), (".pdf", pairs), (".docx", word_table), (".docx", word_prose),
)  # fmt: skip


def tried(number: int, seed: int, folder: Path) -> Counter[str]:
    """Return what came of one sheet."""
    sheet = sheet_of(random.Random(f"{seed} {number}"))
    ending, write = LAYOUTS[number % len(LAYOUTS)]
    path = folder / f"sheet{number}{ending}"
    write(path, sheet)
    ruleset = parse_ruleset(RULES).ruleset
    assert ruleset is not None
    line = {"mark": "P-1", "product": sheet.product, "insulation": "elastomeric foam", **sheet.stated}
    schedule = read_objects([line], "schedule", ruleset.vocabulary)
    data = read_data_sheet(path, ruleset.vocabulary, [sheet.product])
    matrix = judge_schedule(schedule, ruleset)
    found = Counter[str]()
    told = {name: set[str]() for name in sheet.stated}
    for one in check_against_products(matrix, data):
        for name in sheet.stated:
            about_report = "report" in one.diagnostic.message
            if f" {name} " in f" {one.diagnostic.message} " and not about_report:
                told[name].add(one.diagnostic.code)
    for name in sheet.stated:
        if name.startswith("conductivity mean"):
            continue
        planted = sheet.kind if name == sheet.planted else ""
        outcome = _outcome(planted, told[name])
        found[outcome] += 1
        if outcome not in ("shown", "difference found", "left out, said", "question found"):
            what = f"sheet {number} {write.__name__} {'metric' if sheet.metric else 'inch'}"
            print(f"{what}: {name} {planted}: {outcome} {sorted(told[name])}")
    return found


def _outcome(planted: str, told: set[str]) -> str:
    """Return what became of one property."""
    if planted == "different":
        return "difference found" if PRODUCT_DIFFERS.code in told else "difference MISSED"
    if planted == "left out":
        return "left out, said" if NOT_SHOWN.code in told else "left out, MISSED"
    if planted == "twice":
        return "question found" if PRODUCTS_DISAGREE.code in told else "question MISSED"
    if PRODUCT_DIFFERS.code in told or PRODUCTS_DISAGREE.code in told:
        return "INVENTED"
    return "shown" if PRODUCT_SHOWN.code in told else "not found"


def main() -> None:
    """Try all sheets and print the sums."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=30)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        sums: Counter[str] = Counter()
        for number in range(asked.count):
            sums += tried(number, asked.seed, Path(folder))
    print(dict(sums))


if __name__ == "__main__":
    main()
