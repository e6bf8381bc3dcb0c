"""English in sentences: a noun with its number, a verb that agrees, capitals, lists, and the known name that was meant.

Everything that words a number of things, a list of names or a help line draws on this, whichever floor it is on.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

_ONES = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_TEENS = ("ten", "eleven", "twelve", *(f"{one}teen" for one in ("thir", "four", "fif", "six", "seven", "eigh", "nine")))
_TENS = tuple(f"{ten}ty" for ten in ("twen", "thir", "for", "fif", "six", "seven", "eigh", "nine"))
NUMBER_WORDS: Mapping[str, int] = {
    **{word: number for number, word in enumerate((*_ONES, *_TEENS), start=1)},
    **{
        f"{ten}-{one}" if one else ten: 10 * tens + ones
        for tens, ten in enumerate(_TENS, start=2)
        for ones, one in enumerate(("", *_ONES))
    },
}
"""The numbers from one to ninety-nine by their words."""


def agree(number: int, singular: str, plural: str) -> str:
    """Return the form that goes with a number of things: `agree(1, "was", "were")` is "was", all others "were"."""
    return singular if number == 1 else plural


def noun(number: int, singular: str, plural: str = "") -> str:
    """Return a noun in the form that goes with a number: "line", "lines"; an irregular plural is given."""
    return agree(number, singular, plural or f"{singular}s")


def count(number: int, singular: str, plural: str = "") -> str:
    """Return "1 line", "12,000 lines": the number with its noun."""
    return f"{number:,} {noun(number, singular, plural)}"


def capitalized(words: str) -> str:
    """Return words with a capital letter at their start, all others as they are."""
    return words[:1].upper() + words[1:]


def listed(words: Iterable[str], conjunction: str = "and") -> str:
    """Return "a", "a and b", "a, b and c"."""
    *most, last = tuple(words) or ("",)
    return f"{', '.join(most)} {conjunction} {last}" if most else last


def first_of(words: Sequence[str], most: int) -> str:
    """Return "a, b and c", or "a, b and 4 more" with `most` of them named; one that is left over is named too."""
    more = len(words) - most
    return listed([*words[:most], f"{more:,} more"] if more > 1 else words)


def nearest(name: str, known: Iterable[str], likeness: float = 0.6) -> str | None:
    """Return the known name that `name` most likely means, or None where none is near.

    `likeness` is how alike the two must be, from 0 to 1. Compares without regard to case; equal distances go to the
    name that comes first.
    """
    from difflib import get_close_matches

    by_lower: dict[str, str] = {}
    for candidate in known:
        by_lower.setdefault(candidate.lower(), candidate)
    found = get_close_matches(name.lower(), list(by_lower), n=1, cutoff=likeness)
    return by_lower[found[0]] if found else None


def did_you_mean(name: str, known: Iterable[str], otherwise: str = "", *, shown: str = "{}") -> str:
    """Return the help line on a name that is not known: the nearest one that is, or `otherwise`.

    `shown` is how the name is shown between the back quotes, as "{} ..." where more words follow it.
    """
    near = nearest(name, known)
    return meant(near and shown.format(near), otherwise)


def meant(near: str | None, otherwise: str) -> str:
    """Return the question whether a known name was meant, or `otherwise` where none is near."""
    return otherwise if near is None else f"did you mean `{near}`?"
