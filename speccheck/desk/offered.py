"""What the screen Start offers to check against: the shipped rulesets by subject and place, each with a sentence.

Only the headers of the files are read, for to read them all takes seconds, and the first screen waits. What stands
first is what specifications of mechanical insulation name most often (common practice, no source).
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from speccheck.english import capitalized
from speccheck.language.ruleset_files import located, shipped_ruleset_names
from speccheck.language.syntax.header import read_header

MOST_NAMED = (
    "trade-practice",
    "condensation",
    "energy/ashrae-90.1",
    "energy/iecc-commercial",
    "fire",
    "safety",
    "weather-and-wet",
)
SUBJECTS = (
    ("Energy codes", "Thickness or resistance of insulation on pipes and ducts", ("energy/",)),
    ("Cold lines", "Sweating, vapor retarders and vapor stops", ("condensation", "vapor-control/")),
    ("Fire", "Surface burning and reaction to fire", ("fire",)),
    ("Jackets, supports and workmanship", "Metal jackets, saddles, shields, seams", ("metal-jackets/", "supports/")),
    ("Materials and adhesives", "Product standards and VOC content", ("material-", "adhesive-")),
    (
        "Surfaces and corrosion",
        "Surfaces in the sun and under the sky, design conductivity, corrosion under insulation",
        ("surroundings", "design-conductivity", "corrosion-"),
    ),
    ("Whole runs and years", "Heat of a run, freezing, cost and carbon of a year", ("runs", "yearly-")),
)
"""The other subjects: a title, a few words, and how the names of their rulesets begin."""
REST = ("Other subjects", "")
_WHERE_ADOPTED = re.compile(r"(?:, (?:and )?where|;).*")
ANYWHERE, FIRST_PLACES = "anywhere", ("anywhere", "United States", "North America")


@dataclass(frozen=True, slots=True)
class Offered:
    """A shipped ruleset: the name that commands take, its title, a sentence on what it covers, and where it holds."""

    name: str
    title: str
    covers: str
    place: str

    @property
    def country(self) -> str:
        """The country of its place, by which rulesets of a subject stand together."""
        return self.place.rsplit(", ", 1)[-1]


@dataclass(frozen=True, slots=True)
class Subject:
    """Rulesets of one subject, by country."""

    title: str
    sentence: str
    countries: tuple[tuple[str, tuple[Offered, ...]], ...]

    @property
    def count(self) -> int:
        """How many rulesets there are."""
        return sum(len(some) for _, some in self.countries)


@cache
def offered_rulesets() -> tuple[Offered, ...]:
    """Return the shipped rulesets, by name."""
    return tuple(map(_offered, shipped_ruleset_names()))


def _offered(name: str) -> Offered:
    header = read_header(located(name).read_text(encoding="utf-8"))
    words = header.text("covers").split(";")[0]
    place = _WHERE_ADOPTED.sub("", header.text("jurisdiction"))
    return Offered(name, header.name, capitalized(words), place or ANYWHERE)


@cache
def most_named() -> tuple[Offered, ...]:
    """Return the rulesets that most reviews are checked against."""
    known = {one.name: one for one in offered_rulesets()}
    return tuple(known[name] for name in MOST_NAMED if name in known)


@cache
def subjects() -> tuple[Subject, ...]:
    """Return all other rulesets by subject and country; what fits no subject stands last."""
    left = [one for one in offered_rulesets() if one.name not in MOST_NAMED]
    found = []
    for title, sentence, beginnings in SUBJECTS:
        some = [one for one in left if one.name.startswith(beginnings)]
        left = [one for one in left if one not in some]
        found.append(_subject(title, sentence, some))
    found.append(_subject(*REST, left))
    return tuple(one for one in found if one.countries)


def _subject(title: str, sentence: str, some: Sequence[Offered]) -> Subject:
    """Return a subject with its rulesets by country: those for anywhere first, then `FIRST_PLACES`, then the others."""
    ranks = {place: number for number, place in enumerate(FIRST_PLACES)}
    countries = sorted({one.country for one in some}, key=lambda one: (ranks.get(one, len(ranks)), one))
    grouped = ((country, tuple(one for one in some if one.country == country)) for country in countries)
    return Subject(title, sentence, tuple(grouped))
