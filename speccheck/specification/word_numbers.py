"""The numbers that Word shows before paragraphs, computed from the lists of a document (ECMA-376, 17.9)."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

_W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"
_ROMAN = ((1000, "M"), (900, "CM"), (500, "D"), (400, "CD"), (100, "C"), (90, "XC"), (50, "L"), (40, "XL"))
_SMALL_ROMAN = ((10, "X"), (9, "IX"), (5, "V"), (4, "IV"), (1, "I"))


def letters(number: int) -> str:
    """Return the letter of a number as Word counts: A to Z, then AA, BB."""
    return chr(ord("A") + (number - 1) % 26) * ((number - 1) // 26 + 1)


def roman(number: int) -> str:
    """Return a number in Roman figures."""
    text = ""
    for value, figures in (*_ROMAN, *_SMALL_ROMAN):
        text += figures * (number // value)
        number %= value
    return text


FORMATS: Mapping[str, Callable[[int], str]] = {
    "decimal": str,
    "decimalZero": lambda number: f"{number:02d}",
    "upperLetter": letters,
    "lowerLetter": lambda number: letters(number).lower(),
    "upperRoman": roman,
    "lowerRoman": lambda number: roman(number).lower(),
    "none": lambda number: "",
}


@dataclass
class Level:
    """One level of a list: where it starts, how it counts, and its text; %1 in it is the count of the first level."""

    start: int = 1
    counts: str = "decimal"
    text: str = ""
    style: str = ""
    always_decimal: bool = False
    restarts_after: int | None = None


@dataclass
class NumberedLists:
    """The lists of a document, and how far each has counted."""

    levels: dict[str, dict[int, Level]] = field(default_factory=dict)
    instances: dict[str, str] = field(default_factory=dict)
    starts: dict[tuple[str, int], int] = field(default_factory=dict)
    counts: dict[str, dict[int, int]] = field(default_factory=dict)
    begun: set[str] = field(default_factory=set)

    @classmethod
    def of(cls, numbering: Any) -> NumberedLists:
        """Return the lists of a numbering part (its root element), or none where there is no such part."""
        lists = cls()
        for abstract in numbering.findall(f"{_W}abstractNum") if numbering is not None else ():
            found = {int(one.get(f"{_W}ilvl")): _level(one) for one in abstract.findall(f"{_W}lvl")}
            lists.levels[abstract.get(f"{_W}abstractNumId")] = found
        for one in numbering.findall(f"{_W}num") if numbering is not None else ():
            name = one.get(f"{_W}numId")
            lists.instances[name] = one.find(f"{_W}abstractNumId").get(f"{_W}val")
            for override in one.findall(f"{_W}lvlOverride"):
                start = override.find(f"{_W}startOverride")
                if start is not None:
                    lists.starts[name, int(override.get(f"{_W}ilvl"))] = int(start.get(f"{_W}val"))
        return lists

    def level_of_style(self, style: str) -> int | None:
        """Return the level that a paragraph style stands for in any list."""
        found = (depth for levels in self.levels.values() for depth, level in levels.items() if level.style == style)
        return next(found, None)

    def next(self, name: str, depth: int) -> str | None:
        """Count one paragraph of list `name` at a level (from 0), and return what Word shows; None for a bullet."""
        abstract = self.instances.get(name, "")
        levels = self.levels.get(abstract)
        if levels is None or depth not in levels:
            return None
        counts = self.counts.setdefault(abstract, {})
        if name not in self.begun:
            self.begun.add(name)
            counts.update({at: start - 1 for (of, at), start in self.starts.items() if of == name})
        counts[depth] = counts.get(depth, levels[depth].start - 1) + 1
        for deeper in [at for at in counts if at > depth]:
            after = levels[deeper].restarts_after if deeper in levels else None
            if after is None or (after and depth < after):
                del counts[deeper]
        level = levels[depth]
        return None if level.counts == "bullet" else self._shown(levels, counts, level)

    @staticmethod
    def _shown(levels: Mapping[int, Level], counts: Mapping[int, int], level: Level) -> str:
        """Return the text of a level with the counts in it."""

        def count(found: re.Match[str]) -> str:
            at = int(found[1]) - 1
            of = levels.get(at, Level())
            how = "decimal" if level.always_decimal else of.counts
            return FORMATS.get(how, str)(counts.get(at, of.start))

        return re.sub(r"%(\d)", count, level.text)


def _level(element: Any) -> Level:
    """Return a level as its element describes it."""

    def value(name: str) -> str | None:
        child = element.find(f"{_W}{name}")
        return None if child is None else child.get(f"{_W}val", "1")

    restart = value("lvlRestart")
    return Level(
        int(value("start") or 1),
        value("numFmt") or "decimal",
        value("lvlText") or "",
        value("pStyle") or "",
        value("isLgl") not in (None, "0", "false"),
        int(restart) if restart is not None else None,
    )
