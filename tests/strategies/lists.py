"""Lists: layouts with a line a row, columns in any order, what several lines share said once or again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum, auto

from tests.strategies.layouts import NOTES, UNITS, VALUES, Fact, Sheet

HEADERS = {
    "service": ("Service", "System"),
    "location": ("Location",),
    "insulation": ("Insulation", "Insul"),
    "pipe size": ("Pipe Size", "Size", "NPS"),
    "thickness": ("Thickness", "Thk", "Insulation Thickness"),
    "operating temperature": ("Op. temp", "Fluid temp"),
}
GROUPS = {"insulation": ("Insulation", "Type"), "thickness": ("Insulation", "Thickness"), "pipe size": ("Pipe", "Size")}
BESIDE = ("VOID", "see 2", "M-101", "-", "by others")


class UnitsStand(Enum):
    """Where the units of bare numbers stand."""

    IN_THE_HEADER = auto()
    IN_THE_CELLS = auto()
    IN_A_ROW_BELOW = auto()
    NOWHERE = auto()


class Shared(Enum):
    """How what several lines share is written."""

    REPEATED = auto()
    MERGED = auto()
    FIRST = auto()
    DITTO = auto()
    HEADING = auto()


@dataclass
class _Plan:
    """What was drawn of a list: its columns, what its lines share and how, where units stand, and what is beside.

    `sibling` is the column of a second thickness and `beside` that of remarks, -1 where there is none.
    """

    columns: list[str]
    shared: str
    how: Shared
    units: UnitsStand
    tagged: bool
    two_rows: bool
    sibling: int = -1
    beside: int = -1

    @property
    def first(self) -> int:
        """The column at which the terms begin."""
        return int(self.tagged)


def draw_list(sheet: Sheet) -> list[Fact]:
    """Write a list in runs that share what a heading, a merged cell or a first column says."""
    chance = sheet.chance
    plan = _plan(sheet)
    _header(sheet, plan)
    truth: list[Fact] = []
    for number in range(chance.randint(1, 3)):
        run = _run(sheet, plan)
        heading = plan.how is Shared.HEADING
        known = True
        if heading:
            known = not sheet.odds(0.1)
            words = sheet.written(run[0][plan.shared]).upper() + ("" if known else " (rev)")
            sheet.put(0, words + (chance.choice(("", " PIPING")) if known and plan.shared == "service" else ""))
            sheet.row += 1
        truth += _rows(sheet, plan, run, frozenset() if known else frozenset({plan.shared}))
        if sheet.odds(0.3):
            sheet.put(chance.choice((0, 0, 1)), chance.choice(NOTES))
            sheet.row += 1
            sheet.row += number % 2
    return truth


def _plan(sheet: Sheet) -> _Plan:
    chance = sheet.chance
    shared = chance.choice(("", "service", "location"))
    how = chance.choice(list(Shared)) if shared else Shared.REPEATED
    columns = ["service", "location", "insulation", "pipe size", "thickness"]
    columns += ["operating temperature"] if sheet.odds(0.5) else []
    chance.shuffle(columns)
    if shared:
        columns.remove(shared)
        columns[:0] = [] if how is Shared.HEADING else [shared]
    tagged = how in (Shared.REPEATED, Shared.MERGED, Shared.DITTO) and sheet.odds(0.4)
    plan = _Plan(columns, shared, how, chance.choice(list(UnitsStand)), tagged, sheet.odds(0.2))
    end = plan.first + len(columns)
    if sheet.odds(0.2):
        plan.beside, end = end, end + 1
    if sheet.odds(0.1):
        plan.sibling = end
    return plan


def _header(sheet: Sheet, plan: _Plan) -> None:
    """Write the header: one row or two, with the units behind the names or in a row of their own."""
    chance = sheet.chance
    top = sheet.row
    if plan.two_rows:
        sheet.row += 1
    if plan.tagged:
        sheet.put(0, chance.choice(("Item", "Tag", "Mark")))
    for column, term in enumerate(plan.columns, plan.first):
        unit = f" ({UNITS[term]})" if term in UNITS and plan.units is UnitsStand.IN_THE_HEADER else ""
        group, below = GROUPS.get(term, ("", ""))
        if plan.two_rows and group:
            sheet.row = top
            sheet.put(column, group)
            sheet.row = top + 1
            sheet.put(column, below + unit)
        else:
            sheet.put(column, chance.choice(HEADERS[term]) + unit)
    if plan.two_rows:
        _merge_groups(sheet, plan, top)
    if plan.beside >= 0:
        sheet.put(plan.beside, chance.choice(("Remarks", "Dwg", "")))
    if plan.sibling >= 0:
        sheet.put(
            plan.sibling,
            chance.choice(("Thk", "Thickness")) + (" (in)" if plan.units is UnitsStand.IN_THE_HEADER else ""),
        )
    sheet.row += 1
    if plan.units is UnitsStand.IN_A_ROW_BELOW:
        for column, term in enumerate(plan.columns, plan.first):
            sheet.put(column, f"({UNITS[term]})" if term in UNITS else "")
        sheet.put(plan.sibling, "(in)" if plan.sibling >= 0 else "")
        sheet.row += 1


def _merge_groups(sheet: Sheet, plan: _Plan, top: int) -> None:
    """Write one group heading over columns side by side that it heads, merged, as a person would."""
    last = ""
    start = plan.first
    for column, term in enumerate([*plan.columns, ""], plan.first):
        group = GROUPS.get(term, ("", ""))[0]
        if group == last and group:
            sheet.cells.pop((top, column))
            continue
        if last:
            sheet.merge(top, start, top, column - 1)
        last, start = group, column


def _run(sheet: Sheet, plan: _Plan) -> list[dict[str, str]]:
    """Draw some lines that share one value; cells may be blank where no rule lets a blank repeat what is above."""
    chance = sheet.chance
    terms = [*plan.columns, *([plan.shared] if plan.how is Shared.HEADING else [])]
    lines = [{term: chance.choice(VALUES[term]) for term in terms} for _ in range(chance.randint(1, 4))]
    for line in lines:
        if plan.shared:
            line[plan.shared] = lines[0][plan.shared]
        may_be_blank = set(terms) if plan.tagged else {"insulation", "pipe size", "thickness"}
        for term in sorted(may_be_blank - {plan.shared}):
            if sheet.odds(0.06):
                line[term] = ""
    return lines


def _rows(sheet: Sheet, plan: _Plan, run: Sequence[dict[str, str]], unknown: frozenset[str]) -> list[Fact]:
    """Write the rows of a run, and return the lines that they are."""
    chance = sheet.chance
    truth = []
    first, after_gap = sheet.row, False
    for number, line in enumerate(run):
        open_terms = set(unknown)
        if plan.tagged:
            sheet.put(0, f"P-{sheet.row}")
        for column, term in enumerate(plan.columns, plan.first):
            text = _text(sheet, plan, term, line[term])
            if term == plan.shared and number and plan.how in (Shared.MERGED, Shared.FIRST, Shared.DITTO):
                text = '"' if plan.how is Shared.DITTO else ""
                open_terms |= {term} if after_gap else set()
            sheet.put(column, text)
        if plan.beside >= 0 and sheet.odds(0.1):
            sheet.put(plan.beside, chance.choice(BESIDE))
        if plan.sibling >= 0:
            other = chance.choice(("", line["thickness"], *VALUES["thickness"]))
            sheet.put(plan.sibling, _text(sheet, plan, "thickness", other))
            open_terms |= {"thickness"} if other != line["thickness"] else set()
            line["thickness"] = line["thickness"] or other
        if sheet.odds(0.05):
            sheet.hidden.add(sheet.row)
            after_gap = True
        else:
            truth.append(Fact(line, frozenset(open_terms)))
        sheet.row += 1
    if plan.how is Shared.MERGED:
        column = plan.columns.index(plan.shared) + plan.first
        sheet.merge(first, column, sheet.row - 1, column)
    return truth


def _text(sheet: Sheet, plan: _Plan, term: str, value: str) -> str:
    """Return a value as its cell shows it."""
    behind = value and term in UNITS and plan.units is UnitsStand.IN_THE_CELLS
    return sheet.written(value) + (f" {UNITS[term]}" if behind else "")
