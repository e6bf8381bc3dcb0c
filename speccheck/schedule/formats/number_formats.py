"""Number formats of a workbook: what a cell shows of the number that it holds, with units, percent signs and rounding.

A cell that holds 180 under the format 0"°F" shows 180°F, and one that holds 1.9685 under 0.0 shows 2.0: what a sheet
shows is what was proposed. The format codes are those of ISO/IEC 29500-1, section 18.8.31 (from memory).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import lru_cache
from types import MappingProxyType

from speccheck.schedule.grid import number_text

LONGEST_FORMAT = 1_000
"""Characters of the longest format that is read; spreadsheet programs take 255."""

_DATES = dict.fromkeys((*range(14, 18), 22, *range(27, 37), *range(50, 59)), "yyyy-mm-dd")
_TIMES = dict.fromkeys((18, 19, 20, 21, 45, 46, 47), "h:mm")
BUILT_IN: Mapping[str, str] = MappingProxyType(
    {
        str(number): code
        for number, code in {
            **{0: "General", 1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00", 9: "0%", 10: "0.00%", 11: "0.00E+00"},
            **{12: "# ?/?", 13: "# ??/??", 37: "#,##0", 38: "#,##0", 39: "#,##0.00", 40: "#,##0.00", 49: "@"},
            **_DATES,
            **_TIMES,
        }.items()
    }
)
_TOKEN = re.compile(
    r'"(?P<quoted>[^"]*)"|\\(?P<escaped>.)|[_*].|\[(?P<bracket>[^\[\]]*)\]|(?P<general>[Gg]eneral)|(?P<digit>[0#?])'
    r"|(?P<section>;)|(?P<percent>%)|(?P<other>.)",
    re.DOTALL,
)
_CONDITION = re.compile(r"(<=|>=|<>|<|>|=)\s*(-?\d+(?:\.\d+)?)")
_ELAPSED = re.compile(r"[hms]+", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Section:
    """One section of a format: what stands before and after the digits, and how these are written.

    `decimals` is None where all digits are shown, `denominator` the greatest one of a fraction (0: none), or, where
    it is negative, the only one. `date` says that the number stands for a day or a time, `text` that texts are shown.
    """

    before: str = ""
    after: str = ""
    percent: bool = False
    digits: bool = True
    decimals: int | None = None
    denominator: int = 0
    thousands: int = 0
    date: bool = False
    text: bool = False
    condition: tuple[str, float] | None = None

    def scaled(self, number: float) -> float:
        """Return a number in the unit in which it is shown: in hundredths, or in thousands."""
        return number * 100 if self.percent else number / 1000**self.thousands

    def rounded(self, number: float) -> Fraction:
        """Return the number that is left of one when it is shown, in the unit in which it is shown."""
        exact = Fraction(repr(float(self.scaled(number))))
        if self.denominator < 0:
            return Fraction(round(exact * -self.denominator), -self.denominator)
        if self.denominator:
            return exact.limit_denominator(self.denominator)
        if self.decimals is None or abs(exact) >= 10**15:
            return exact
        last = Decimal(1).scaleb(-self.decimals)
        return Fraction(Decimal(repr(float(self.scaled(number)))).quantize(last, ROUND_HALF_UP))


@dataclass(frozen=True, slots=True)
class NumberFormat:
    """A format: its sections, of which the first that fits a number is used."""

    sections: tuple[Section, ...] = (Section(),)

    @property
    def is_date(self) -> bool:
        """Whether numbers in this format are days or times."""
        return self.sections[0].date

    @property
    def shows_texts(self) -> bool:
        """Whether texts are shown: they are not where a fourth section is there and leaves them out."""
        return len(self.sections) < 4 or self.sections[3].text

    def shown(self, number: float) -> str:
        """Return a plain number as a cell of this format shows it; "" where it shows nothing."""
        section = self.section_of(number)
        if not section.digits:
            return section.before
        return f"{section.before}{_digits(number, section)}{section.after}"

    def section_of(self, number: float) -> Section:
        """Return the section for a plain number: by its conditions, else for those above, below and at zero."""
        sections = self.sections[:3]
        conditions = [section.condition for section in sections]
        if any(conditions):
            for section, condition in zip(sections, conditions, strict=True):
                if condition is None or _holds(number, *condition):
                    return section
            return sections[-1]
        if number < 0 and len(sections) > 1:
            return sections[1]
        return sections[2] if number == 0 and len(sections) > 2 else sections[0]


GENERAL = NumberFormat()


def _holds(number: float, relation: str, limit: float) -> bool:
    """Whether the condition of a section holds for a number."""
    below, equal = number < limit, number == limit
    return {
        "<": below,
        "<=": below or equal,
        ">": not below and not equal,
        ">=": not below,
        "=": equal,
        "<>": not equal,
    }[relation]


def _digits(number: float, section: Section) -> str:
    """Return the digits that a section shows of a number, without zeros at the end and marks of thousands."""
    rounded = section.rounded(number)
    if section.denominator and rounded != Fraction(repr(float(number))):
        return _fraction(rounded)
    return number_text(float(rounded))


def _fraction(number: Fraction) -> str:
    """Return a number as a whole and a fraction."""
    whole, rest = divmod(abs(number), 1)
    words = [str(whole)] if whole or not rest else []
    return ("-" if number < 0 else "") + " ".join([*words, str(rest)] if rest else words)


@lru_cache(maxsize=4096)
def parse_format(code: str) -> NumberFormat:
    """Return what a format shows. A format that is longer than any program writes shows numbers as they are."""
    if not code or len(code) > LONGEST_FORMAT:
        return GENERAL
    sections: list[Section] = []
    tokens: list[re.Match[str]] = []
    for token in _TOKEN.finditer(code):
        if token["section"]:
            sections.append(_section_of(tokens, len(sections)))
            tokens = []
        else:
            tokens.append(token)
    return NumberFormat((*sections, _section_of(tokens, len(sections))))


def _section_of(tokens: list[re.Match[str]], number: int) -> Section:
    """Return a section from its tokens; the sign that a section for negative numbers writes is the number's own."""
    placeholders = "".join(token["digit"] or token["other"] or "" for token in tokens if not token["bracket"])
    plain = "".join(token["other"] or "" for token in tokens)
    elapsed = any(token["bracket"] and _ELAPSED.fullmatch(token["bracket"]) for token in tokens)
    general = any(token["general"] for token in tokens)
    text = "@" in plain
    counts = any(token["digit"] for token in tokens) or general or text
    date = elapsed or ((not counts or "ss" in plain) and bool(re.search(r"[ymdhs]", plain, re.IGNORECASE)))
    before, after = _literals(tokens)
    if number == 1:
        before, after = before.strip("-("), after.strip(")")
    return Section(
        before,
        after,
        percent=any(token["percent"] for token in tokens),
        digits=counts or date,
        decimals=None if general or text or "E" in plain.upper() else _decimals(placeholders),
        denominator=_denominator("".join(token[0] for token in tokens)) if counts else 0,
        thousands=len(found[1]) if (found := re.search(r"[0#?](,+)(?![0#?,])", placeholders)) else 0,
        date=date,
        text=text,
        condition=_condition(tokens),
    )


def _condition(tokens: list[re.Match[str]]) -> tuple[str, float] | None:
    """Return the condition of a section, as in [<100]."""
    for token in tokens:
        found = _CONDITION.fullmatch(token["bracket"] or "")
        if found is not None:
            return found[1], float(found[2])
    return None


def _literals(tokens: list[re.Match[str]]) -> tuple[str, str]:
    """Return the words that stand before and behind the digits."""
    before, after, digits = "", "", False
    for token in tokens:
        digits = digits or bool(token["digit"] or token["general"]) or token["other"] == "@"
        literal = token["quoted"] or token["escaped"] or (" %" if token["percent"] else "")
        if digits:
            after += literal
        else:
            before += literal
    return before, after


def _decimals(placeholders: str) -> int:
    """Return how many digits are shown behind the point."""
    found = re.search(r"\.([0#?]*)", placeholders)
    return len(found[1]) if found else 0


def _denominator(code: str) -> int:
    """Return the greatest denominator of a fraction, or the one that is written out, negative; 0 for no fraction."""
    found = re.search(r"[0#?]\s*/\s*(\d+|[0#?]+)", code)
    if not found:
        return 0
    if found[1].isdecimal() and int(found[1]):
        return -int(found[1])
    return int(10 ** min(len(found[1]), 3)) - 1
