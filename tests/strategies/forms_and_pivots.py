"""Forms and pivots: layouts that are no lists, with names left of their values, or sizes or services across."""

from __future__ import annotations

from tests.strategies.layouts import SERVICES, SIZES, UNITS, VALUES, Fact, Sheet

FORM_KEYS = {
    "service": ("System", "Service"),
    "location": ("Location",),
    "insulation": ("Insulation",),
    "pipe size": ("Pipe size",),
    "thickness": ("Thickness", "Insulation thickness"),
    "operating temperature": ("Op. temp",),
}


def _bands(sheet: Sheet) -> list[tuple[str, str]]:
    """Return sizes side by side as a header writes them, each with the value that it stands for."""
    sizes = sorted(sheet.chance.sample(range(len(SIZES)), sheet.chance.randint(2, 4)))
    if not sheet.odds(0.3):
        return [(f'{SIZES[size]}"', f"{SIZES[size]} in") for size in sizes]
    lowest, *others = [SIZES[size] for size in sizes]
    bands = [(f'up to {lowest}"', f"{lowest} in and under")]
    bands += [(f'{size}" & up', f"{size} in and over") for size in others[-1:]]
    return bands


def draw_sizes_across(sheet: Sheet) -> list[Fact]:
    """Write services down and sizes across, with words over the sizes or without."""
    chance = sheet.chance
    bands = _bands(sheet)
    choices = ["Thickness (in)", "Pipe Size / Thickness"]
    over = chance.choice([*choices, ""] if len(bands) > 2 or "up to" in bands[0][0] else choices)
    sheet.put(0, "Service")
    if over:
        sheet.put(1, over)
        sheet.merge(sheet.row, 1, sheet.row, len(bands))
        sheet.merge(sheet.row, 0, sheet.row + 1, 0)
        sheet.row += 1
    for column, (text, _) in enumerate(bands, 1):
        sheet.put(column, text)
    sheet.row += 1
    truth = []
    for service in chance.sample(SERVICES, chance.randint(1, 3)):
        sheet.put(0, sheet.written(service))
        for column, (_, size) in enumerate(bands, 1):
            truth += _cell(sheet, column, {"service": service, "pipe size": size})
        sheet.row += 1
    return truth


def draw_services_across(sheet: Sheet) -> list[Fact]:
    """Write sizes down and services across, with a row of temperatures or without."""
    chance = sheet.chance
    services = chance.sample(SERVICES, chance.randint(2, 3))
    sheet.put(0, "Pipe Size")
    for column, service in enumerate(services, 1):
        sheet.put(column, sheet.written(service))
    sheet.row += 1
    temperatures = {}
    if sheet.odds(0.3):
        sheet.put(0, "Op. temp (F)")
        for column, service in enumerate(services, 1):
            temperatures[service] = {"operating temperature": chance.choice(VALUES["operating temperature"])}
            sheet.put(column, temperatures[service]["operating temperature"])
        sheet.row += 1
    truth = []
    for size in sorted(chance.sample(range(len(SIZES)), chance.randint(1, 4))):
        sheet.put(0, f'{SIZES[size]}"')
        for column, service in enumerate(services, 1):
            beside = {"service": service, "pipe size": SIZES[size], **temperatures.get(service, {})}
            truth += _cell(sheet, column, beside)
        sheet.row += 1
    return truth


def _cell(sheet: Sheet, column: int, beside: dict[str, str]) -> list[Fact]:
    """Write a thickness, and return the line that it is; with a blank cell or a dash it need not be one."""
    if sheet.odds(0.05):
        sheet.put(column, sheet.chance.choice(("", "-")))
        return [Fact(beside, frozenset(beside))]
    thickness = sheet.chance.choice(VALUES["thickness"])
    sheet.put(column, f'{thickness}"')
    return [Fact({**beside, "thickness": thickness})]


def draw_form(sheet: Sheet) -> list[Fact]:
    """Write systems one below another, each as names with their values."""
    chance = sheet.chance
    truth = []
    terms = [term for term in VALUES if term != "operating temperature" or sheet.odds(0.5)]
    keys = {term: chance.choice(FORM_KEYS[term]) for term in terms}
    for _ in range(chance.randint(1, 3)):
        sheet.row += 1
        line = {term: chance.choice(VALUES[term]) for term in terms}
        for term, value in line.items():
            sheet.put(0, keys[term] + chance.choice(("", ":")))
            sheet.put(1, sheet.written(value) + (f" {UNITS[term]}" if term in UNITS else ""))
            sheet.row += 1
        truth.append(Fact(line))
    return truth
