"""PDF tables without rules on too narrow a page, drawn at random: words wrapped, run over, cut off, columns close."""

from __future__ import annotations

import random
from collections.abc import Sequence
from pathlib import Path
from typing import Any

CELLS = (
    ("Service", ["chilled water", "heating hot water", "domestic hot water supply", "steam condensate", "steam", ""]),
    ("Size (in)", ["1/2", "1 1/2", "2", "2 to 4", "1/2 to 1 1/2", "12", "2 1/2 and larger"]),
    ("Thk (in)", ["1", "1.5", "1 1/2", "2", "3", ""]),
    ("Op. temp (F)", ["42", "180", "350", "40 to 60", "140 to 180"]),
    ("Insulation", ["fiberglass", "elastomeric", "cellular glass", "mineral fiber"]),
    ("Jacket", ["PVC", "aluminum 0.016 in", "none", "", "all service jacket"]),
    ("Location", ["plenum", "outdoor", "mechanical room", "above ceiling, not plenum"]),
    ("Notes", ["", "", "see detail 3", "by others, under another section"]),
)
SPILLS, ORDERS = ("wrapped", "wrapped", "broken", "over", "cut"), ("cells", "cells", "lines", "columns", "shuffled")


def drawn(seed: int) -> tuple[list[list[str]], dict[str, Any]]:
    """Return a random table, and how it is set: what becomes of what is too wide, alignment, gaps, order of drawing."""
    chance = random.Random(seed)
    columns = chance.sample(CELLS, chance.randint(2, len(CELLS)))
    rows = [["Mark", *(header for header, _ in columns)]]
    rows += [[f"P-{n}", *(chance.choice(one) for _, one in columns)] for n in range(1, chance.randint(3, 14))]
    if chance.random() < 0.3:  # marks are not always first
        place = chance.randrange(len(rows[0]))
        rows = [[*row[1 : place + 1], row[0], *row[place + 1 :]] for row in rows]
    size = chance.choice([6, 7, 8])
    return rows, {
        "font": chance.choice(["Helvetica", "Times-Roman", "Courier", "Vera"]),
        "size": size,
        "gap": size * chance.choice([0.05, 0.14, 0.2, 0.28, 0.5, 0.8, 1.2, 2]),
        "narrow": chance.choice([0.4, 0.55, 0.7, 0.85, 1]),
        "leading": chance.choice([1.0, 1.15, 1.2, 1.35]),
        "between": size * chance.choice([0, 0.1, 0.3, 0.8, 1.5]),
        "level": chance.choice(["top", "top", "middle", "bottom"]),
        "right_aligned": tuple(chance.sample(range(len(rows[0])), chance.randint(0, 2))),
        "spill": chance.choice(SPILLS),
        "order": chance.choice(ORDERS),
        "blanks": chance.random() < 0.7,
        "heading": chance.choice(["", "PIPE INSULATION", "Schedule of piping at the dairy"]),
    }


def shown(text: str, room: float, spill: str, width: Any) -> list[str]:
    """Return the lines in which a text stands in a column."""
    if spill == "over":
        return [text]
    if spill == "cut":
        while text and width(text) > room + 0.01:
            text = text[:-1]
        return [text.rstrip()]
    lines = [""]
    for word in text.split():
        one = f"{lines[-1]} {word}".strip()
        if lines[-1] and width(one) > room + 0.01:
            lines.append(word)
        else:
            lines[-1] = one
        while spill == "broken" and width(lines[-1]) > room + 0.01 and len(lines[-1]) > 1:
            fits = next((n for n in range(len(lines[-1]), 1, -1) if width(lines[-1][:n]) <= room), 1)
            lines[-1:] = [lines[-1][:fits], lines[-1][fits:]]
    return lines


def write(path: Path, rows: Sequence[Sequence[str]], options: dict[str, Any]) -> list[list[str]]:
    """Write the table, and return its rows as a reader sees them: without what is cut off, lines put together."""
    from reportlab.pdfbase.pdfmetrics import registerFont, stringWidth
    from reportlab.pdfbase.ttfonts import TTFont
    from reportlab.pdfgen.canvas import Canvas

    if options["font"] == "Vera":
        registerFont(TTFont("Vera", "Vera.ttf"))  # reportlab carries it

    def width(text: str) -> float:
        return float(stringWidth(text, options["font"], options["size"]))

    columns = range(len(rows[0]))
    longest = [max(width(row[i]) for row in rows) for i in columns]
    least = [max(width(word) for row in rows for word in row[i].split() or [""]) for i in columns]
    whole = options["spill"] == "wrapped"
    least = [longest[i] if rows[0][i] == "Mark" else least[i] for i in columns]
    whole = [whole or rows[0][i] == "Mark" for i in columns]
    room = [max(longest[i] * options["narrow"], least[i] if whole[i] else options["size"] * 1.5) for i in columns]
    lefts = [40 + sum(room[:i]) + options["gap"] * i for i in columns]
    canvas = Canvas(str(path), pagesize=(max(612, lefts[-1] + room[-1] + 200), 1200), invariant=1)
    pieces: list[tuple[tuple[int, int, int], float, float, str]] = []
    y = 1160.0
    if options["heading"]:
        pieces.append(((-1, 0, 0), 40, y, options["heading"]))
        y -= 2.5 * options["size"]
    seen = []
    pitch = options["leading"] * options["size"]
    for number, row in enumerate(rows):
        cells = [shown(text, room[i], options["spill"], width) for i, text in enumerate(row)]
        most = max(map(len, cells))
        for i, lines in enumerate(cells):
            lower = {"top": 0.0, "middle": (most - len(lines)) / 2, "bottom": float(most - len(lines))}[
                options["level"]
            ]
            for n, line in enumerate(lines):
                x = lefts[i] + (room[i] - width(line) if i in options["right_aligned"] else 0)
                pieces.append(((number, i, n), x, y - (lower + n) * pitch, line))
        seen.append(["".join(lines) if options["spill"] == "broken" else " ".join(lines) for lines in cells])
        y -= most * pitch + options["between"]
    _draw(canvas, _in_order(pieces, options["order"]), options, width)
    return seen


def _in_order(pieces: list[Any], order: str) -> list[Any]:
    if order == "lines":
        return sorted(pieces, key=lambda one: (-one[2], one[1]))
    if order == "columns":
        return sorted(pieces, key=lambda one: (one[0][1], one[0][0], one[0][2]))
    if order == "shuffled":
        return random.Random(len(pieces)).sample(pieces, len(pieces))
    return pieces


def _draw(canvas: Any, pieces: list[Any], options: dict[str, Any], width: Any) -> None:
    canvas.setFont(options["font"], options["size"])
    for _, x, y, text in pieces:
        if options["blanks"]:
            canvas.drawString(x, y, text)
            continue
        for word in text.split(" "):  # some programs set each word at its place, and draw no blanks
            canvas.drawString(x, y, word)
            x += width(word + " ")
    canvas.save()
