"""From the tokens of `grammar/quantity.lark` to a Reading, and what can be wrong with a number."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, NamedTuple, cast

from lark import Token, Transformer, v_args

from speccheck.quantities.amounts import DEGREES, Amount, Designation, Reading
from speccheck.quantities.conversion import canonical_unit
from speccheck.quantities.writing import write_exact

_LARGEST_EXPONENT = 30
# What a rule is marked in, and thirds, in lowest terms. Any other pair of numbers is rather a supply and a return.
_RULE_MARKS = frozenset({2, 3, 4, 8, 16, 32, 64})
_FEET_AND_INCHES = re.compile(r"(\d+)[^\d]*?(?:'|ft\.?|feet|foot)[ -]*([\d ./-]+)", re.IGNORECASE)


class Flaw(NamedTuple):
    """What is wrong at one place of the plain text; `{}` in the message stands for the text there."""

    message: str
    help: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Number:
    """A number without sign: exact, how it was written, and where."""

    value: Fraction
    is_fraction: bool
    start: int
    end: int


_PAIR = "{} could be a fraction or two numbers"
_PAIR_BELOW_ZERO = "write both numbers as a range, such as -20 to 40, or each number on a line of its own"
Read = Amount | Flaw


def exact(token: Token) -> Number | Flaw:
    """Return the number that a token writes, or what is wrong with it."""
    start, end = token.start_pos or 0, token.end_pos or 0
    kind, text = token.type, str(token)
    if kind == "DECIMAL_COMMA":
        return Flaw("{} has a comma where a decimal point is expected", f"write {_with_point(text)}", start, end)
    if kind == "NUMBER":
        digits, _, exponent = text.replace(",", "").lower().partition("e")
        if len(exponent) > 4 or abs(int(exponent or 0)) > _LARGEST_EXPONENT or float(digits) >= 10**_LARGEST_EXPONENT:
            return Flaw(
                "{} is too large or too small a number",
                f"write a number between 1e-{_LARGEST_EXPONENT} and 1e{_LARGEST_EXPONENT}",
                start,
                end,
            )
        return Number(Fraction(digits) * Fraction(10) ** int(exponent or 0), False, start, end)
    return _fraction(text, start, end)


def _fraction(text: str, start: int, end: int) -> Number | Flaw:
    """Return the value of "3/4" or "1-1/2", refusing what may be a typing error ("21/2") or a pair ("40/55")."""
    *whole, above, below = (int(part) for part in re.findall(r"\d+", text))
    if below == 0:
        return Flaw("{} divides by zero", "write a fraction such as 1-1/2", start, end)
    if not whole and (below not in _RULE_MARKS or math.gcd(above, below) > 1):
        return Flaw(_PAIR, pair_help(above, below), start, end)
    part = Fraction(above, below)
    if part >= 1:
        return Flaw("{} is not a proper fraction", f"write {_proper(whole, above, below)}", start, end)
    return Number(part + sum(whole), True, start, end)


def pair_help(first: int, second: int) -> str:
    """Say how to write two numbers with a slash between them, be they a pair such as supply and return or a share."""
    low, high = sorted((first, second))
    return f"write {low} to {high} where the line covers both, or each number on a line of its own"


def _proper(whole: list[int], above: int, below: int) -> str:
    """Write what "21/2" may have been meant to be: "2-1/2 or 10-1/2"."""
    literal = write_exact(Fraction(above, below) + sum(whole))
    front, last = divmod(above, 10)
    if not whole and front and 0 < last < below:
        return f"{front}-{last}/{below} or {literal}, whichever is meant"
    return f"{literal} if that is what is meant"


def _with_point(text: str) -> str:
    """Write "1,5" as "1.5"."""
    whole, _, rest = text.rstrip(",.").partition(",")
    return f"{whole}.{rest.replace(',', '')}" if rest else whole


@v_args(inline=True)
class AmountBuilder(Transformer[Token, Any]):
    """Makes amounts of tokens while the text is parsed; what it returns for `start` lacks only the text."""

    def sign(self, token: Token) -> Token:
        """Keep the sign."""
        return token

    def number(self, token: Token) -> Number | Flaw:
        """Make a number of any kind of number token."""
        return exact(token)

    def unit(self, token: Token) -> Token:
        """Keep the unit as written."""
        return token

    def plain(self, *parts: Token | Number | Flaw) -> Read:
        """A number with or without a unit."""
        return _amount(parts, None)

    def marked(self, mark: Token, *parts: Token | Number | Flaw) -> Read:
        """A number after NPS, DN, R or RSI."""
        found = _amount(parts, _designation(mark))
        return found._replace(start=mark.start_pos or 0)

    def named_after(self, *parts: Token | Number | Flaw) -> Read:
        """A number before NPS, DN or "nominal"."""
        mark = cast(Token, parts[-1])
        found = _amount(parts[:-1], _designation(mark))
        return found._replace(end=mark.end_pos or 0) if isinstance(found, Amount) else found

    def feet_and_inches(self, *parts: Token) -> Read:
        """Feet and inches, as one length: in feet where it is a quarter of a foot, otherwise in inches."""
        token = parts[-1]
        start, end = parts[0].start_pos or 0, token.end_pos or 0
        match = _FEET_AND_INCHES.match(token)
        assert match is not None, token
        written = match[2].strip()
        kind = "FRACTION" if "/" in written else "NUMBER"
        inches = exact(Token(kind, written, start_pos=start, end_pos=end))
        if isinstance(inches, Flaw):
            return inches
        if inches.value >= 12:
            return Flaw("{} has more inches than a foot has", "write less than 12 in after the feet", start, end)
        total = (int(match[1]) * 12 + inches.value) * (-1 if parts[0] == "-" else 1)
        in_feet = (total / 3).denominator == 1
        return Amount(total / 12 if in_feet else total, "ft" if in_feet else "in", None, True, start, end, start)

    def gauge(self, number: Number | Flaw, word: Token) -> Flaw:
        """A gauge number, which says no thickness by itself."""
        message = "{} is a gauge number, and its thickness depends on the metal"
        return Flaw(
            message, "write the thickness itself, such as `0.016 in` or `0.4 mm`", number.start, word.end_pos or 0
        )

    def alone(self, amount: Read) -> Reading | Flaw:
        """One amount."""
        return _reading(amount, amount, is_range=False)

    def and_over(self, *parts: Any) -> Reading | Flaw:
        """An amount and all above it."""
        return _reading(_only_amount(parts), None)

    def and_under(self, *parts: Any) -> Reading | Flaw:
        """An amount and all below it."""
        return _reading(None, _only_amount(parts))

    def over(self, _word: Token, amount: Read) -> Reading | Flaw:
        """All above an amount."""
        return _reading(amount, None, low_closed=False)

    def under(self, _word: Token, amount: Read) -> Reading | Flaw:
        """All below an amount."""
        return _reading(None, amount, high_closed=False)

    def through(self, *parts: Any) -> Reading | Flaw:
        """From one amount to another, both included."""
        return _between(parts)

    def to_under(self, *parts: Any) -> Reading | Flaw:
        """From one amount to another, the upper one not included."""
        return _between(parts, high_closed=False)

    def over_through(self, *parts: Any) -> Reading | Flaw:
        """From one amount to another, the lower one not included."""
        return _between(parts, low_closed=False)

    def over_to_under(self, *parts: Any) -> Reading | Flaw:
        """Between two amounts, neither included."""
        return _between(parts, low_closed=False, high_closed=False)


def _designation(mark: Token) -> Designation:
    """Return what the mark before or after a number says: "ips" and "nominal" are older words for NPS."""
    word = mark.strip(" -.").upper()
    return cast(Designation, word) if word in ("DN", "R", "RSI") else "NPS"


def _amount(parts: tuple[Any, ...], designation: Designation | None) -> Read:
    """Put sign, number and unit together."""
    number = next(part for part in parts if isinstance(part, Number | Flaw))
    tokens = [part for part in parts if isinstance(part, Token)]
    if isinstance(number, Flaw):
        is_pair = number.message == _PAIR and any(token.type == "DASH" for token in tokens)
        return number._replace(help=_PAIR_BELOW_ZERO) if is_pair else number
    minus = any(token.type == "DASH" for token in tokens)
    start = min([number.start, *(token.start_pos or 0 for token in tokens)])
    end = max([number.end, *(token.end_pos or 0 for token in tokens)])
    unit = next((token for token in tokens if token.type == "UNIT"), None)
    value = -number.value if minus else number.value
    unit_start = end if unit is None else unit.start_pos or 0
    return Amount(value, None if unit is None else str(unit), designation, number.is_fraction, start, end, unit_start)


def _only_amount(parts: tuple[Any, ...]) -> Read:
    """Return the one amount among tokens."""
    return next(part for part in parts if isinstance(part, Amount | Flaw))


def _between(parts: tuple[Any, ...], *, low_closed: bool = True, high_closed: bool = True) -> Reading | Flaw:
    """Make a range of the two amounts among tokens; a unit or a designation at one end serves both."""
    low, high = (part for part in parts if isinstance(part, Amount | Flaw))
    if isinstance(low, Amount) and isinstance(high, Amount):
        low, high = _shared(low, high), _shared(high, low)
    return _reading(low, high, low_closed=low_closed, high_closed=high_closed)


def _shared(amount: Amount, other: Amount) -> Amount:
    """Return the amount with the unit and designation of the other end where it has neither of its own.

    A degree sign alone is half a unit: in "40° to 45°F" both ends are in F.
    """
    half = amount.unit in DEGREES and canonical_unit(other.unit or "") in ("F", "C", "K")
    if not half and (amount.unit is not None or amount.designation is not None):
        return amount
    return amount._replace(unit=other.unit, designation=other.designation)


def _reading(
    low: Read | None,
    high: Read | None,
    *,
    low_closed: bool = True,
    high_closed: bool = True,
    is_range: bool = True,
) -> Reading | Flaw:
    """Make a Reading, or hand on the first flaw in it."""
    if isinstance(low, Flaw):
        return low
    if isinstance(high, Flaw):
        return high
    return Reading("", low, high, low_closed, high_closed, is_range)
