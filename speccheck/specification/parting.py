"""Sentences parted where sections part them: what says for which lines a sentence is, and what says what it asks.

A sentence can often be parted in several ways ("Provide jackets on piping in wash-down rooms"). All are tried, and
`sentences` takes the one that is understood as a whole.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from speccheck.phrases.worded_amounts import amounts_in
from speccheck.specification.owners import NOUNS


@dataclass(frozen=True, slots=True)
class Parted:
    """The pieces of a sentence: for which lines it is, what is asked, what is left out, and what its verb says.

    `provided` says that it asks for something to be there; `heads` names the terms that its verb speaks of. `subject`
    is what stands before the colon of "Aluminum jacket: 0.016 inch thick": nothing of it is asked, it is asked about.
    """

    asks: str
    where: tuple[str, ...] = ()
    excepts: tuple[str, ...] = ()
    keyword: str = "shall"
    negative: bool = False
    provided: bool = False
    heads: tuple[str, ...] = ()
    subject: str = ""


_ON = r"(?:on|for|over|in|where|around|to|at)"
_LEADING = re.compile(r"(?:where|when|for|on|in|at|if)\s+(?P<where>[^,]+),\s*(?P<rest>.+)", re.IGNORECASE)
_EXCEPT = re.compile(rf",?\s*\bexcept\s+(?:{_ON}\s+)?(?P<where>[^,]+)$", re.IGNORECASE)
# What says where without a word before it: "outdoors", "above 220 F".
_THERE = r"(?:outdoors|indoors|within\s+reach)\b|(?:above|below|over|under)\s+-?\d+\s*(?:°|º|deg|[FC]\b)"
_NOT_PERMITTED = re.compile(
    r"(?P<asks>.+?)\s+(?:(?:is|are|shall)\s+not\s+(?:be\s+)?(?:permitted|allowed|acceptable|used)"
    r"|not\s+(?:permitted|allowed))"
    rf"(?:\s+{_ON}\s+(?P<where>.+)|\s+(?P<there>(?:{_THERE}).*))?",
    re.IGNORECASE,
)
_NO = re.compile(rf"no\s+(?P<asks>.+?)\s+(?:{_ON}\s+(?P<where>.+)|(?P<there>(?:{_THERE}).*))", re.IGNORECASE)
_DO_NOT = re.compile(r"do not (?:use|install|apply|provide)\s+(?P<asks>.+)", re.IGNORECASE)
_SHALL_WITH = re.compile(
    r"(?P<where>.+?)\s+(?P<verb>shall|must|should)\s+(?:be\s+(?P<done>insulated|covered|protected|jacketed|provided|sealed"
    r"|finished)\s+(?:with|by|to)|have|receive)\s+(?P<asks>.+)",
    re.IGNORECASE,
)
_SHALL = re.compile(r"(?P<subject>.+?)\s+(?P<verb>shall|must|should)\s+(?P<asks>.+)", re.IGNORECASE)
_INSULATE = re.compile(
    r"(?P<done>insulate|cover|protect|jacket|finish|wrap)\s+(?P<where>.+?)\s+(?:with|by|to|in)\s+(?P<asks>.+)",
    re.IGNORECASE,
)
_TREAT = re.compile(
    r"(?P<verb>seal|secure|fasten|bond|close|tape|cement|attach|hold|locate|lap|space)\s+(?P<what>.+?)"
    r"(?:\s+(?:with|by|at|not|every)\b)\s*(?P<asks>.+)",
    re.IGNORECASE,
)
_PROVIDE = re.compile(r"(?:provide|install|furnish|use|apply|comply\s+with|conform\s+to)\s+(?P<asks>.+)", re.IGNORECASE)
# "Install insulation 3 inches thick and thicker in two layers".
_LAYERED = re.compile(
    r"(?:install|apply|lay)\s+(?P<where>(?:all\s+)?insulation\s+.+?)\s+in\s+(?P<asks>.*\blayers?)", re.IGNORECASE
)
_LIMIT = re.compile(r"(?:limit|keep)\s+(?P<what>.+?)\s+to\s+(?P<asks>[-\d].*)", re.IGNORECASE)
_COLON = re.compile(r"(?P<subject>[^:]{3,60}):\s+(?P<asks>.+)")
_PLACE = re.compile(rf"\s+{_ON}\s+(?!each\b|least\b|most\b)|\s+(?=exposed\s+to\s|located\s|operating\s|{_THERE})", re.I)
_OF = re.compile(r"\s+of\s+", re.IGNORECASE)
# "Shall not be X", but not "shall be not less than X".
_NOT = re.compile(
    r"not\s+(?:be\s+)?(?!(?:less|more|greater|thinner|lower|higher|larger|smaller|over|exceed)\b)", re.IGNORECASE
)
_HEADS = {"insulate": ("insulation",), "insulated": ("insulation",), "jacket": ("jacket",), "jacketed": ("jacket",)}


def partings(text: str) -> Iterator[Parted]:
    """Yield the ways in which a sentence can be parted, the likelier first; none where it is no requirement."""
    text, excepts = _without(_EXCEPT, text)
    where: tuple[str, ...] = ()
    leading = _LEADING.fullmatch(text)
    if leading is not None:
        where, text = (leading["where"],), leading["rest"]
    for one in _plain_partings(text):
        yield replace(one, where=(*where, *one.where), excepts=excepts)


def _without(pattern: re.Pattern[str], text: str) -> tuple[str, tuple[str, ...]]:
    found = pattern.search(text)
    return (text, ()) if found is None else (text[: found.start()].strip(), (found["where"],))


def _plain_partings(text: str) -> Iterator[Parted]:
    """Yield the partings of a sentence without its leading condition and its exception."""
    found = _NOT_PERMITTED.fullmatch(text) or _NO.fullmatch(text)
    if found is not None:
        behind = (found["where"] or found["there"],) if found["where"] or found["there"] else ()
        yield from _placed(Parted(found["asks"], behind, negative=True))
        return
    found = _DO_NOT.fullmatch(text)
    if found is not None:
        yield from _placed(Parted(found["asks"], negative=True))
        return
    found = _SHALL_WITH.fullmatch(text)
    if found is not None:
        heads = _HEADS.get((found["done"] or "").casefold(), ())
        one = Parted(found["asks"], (found["where"],), keyword=_keyword(found["verb"]), provided=True, heads=heads)
        yield one
        yield from _placed(one)
    found = _SHALL.fullmatch(text)
    if found is not None:
        yield from _shall(found)
        return
    found = _INSULATE.fullmatch(text)
    if found is not None:
        yield Parted(found["asks"], (found["where"],), heads=_HEADS.get(found["done"].casefold(), ()))
    found = _TREAT.fullmatch(text)
    if found is not None:
        behind_what = text[found.end("what") :].removeprefix(" with").removeprefix(" by")
        noun = NOUNS.get(found["verb"].casefold(), "")
        yield from _placed(Parted(f"{found['what']} {noun}{behind_what}"))
    found = _LAYERED.fullmatch(text)
    if found is not None:
        yield Parted(found["asks"], (found["where"],))
        return
    found = _PROVIDE.fullmatch(text)
    if found is not None:
        yield from _placed(Parted(found["asks"], provided=True))
    found = _LIMIT.fullmatch(text)
    if found is not None:
        yield from _placed(Parted(f"{found['what']} at most {found['asks']}"))
    found = _COLON.fullmatch(text)
    if found is not None:
        yield from _placed(Parted(f"{found['subject']} {found['asks']}", subject=found["subject"]))
        yield from _placed(Parted(found["asks"], (found["subject"],), subject=found["subject"]))


def _keyword(verb: str) -> str:
    return "should" if verb.casefold() == "should" else "shall"


def _shall(found: re.Match[str]) -> Iterator[Parted]:
    """Yield the partings of "X shall ...": what X is of, and what trails behind, may say for which lines it is.

    A subject with an amount says for which lines: "insulation 3 inches thick and thicker shall ...".
    """
    keyword, subject, asks = _keyword(found["verb"]), found["subject"], found["asks"]
    forbids = _NOT.match(asks)
    asks = asks[forbids.end() :] if forbids is not None else asks
    subjects = [("", subject)] if amounts_in(subject) else [*_splits(subject), *_splits(subject, _OF)]
    for term, lines in dict.fromkeys(subjects):
        for rest, behind in _splits(asks):
            where = tuple(piece for piece in (lines, behind) if piece)
            yield Parted(f"{term} {rest}".strip(), where, keyword=keyword, negative=forbids is not None)


def _placed(one: Parted) -> Iterator[Parted]:
    """Yield a parting, and those in which the end of what it asks says for which lines it is."""
    for asks, lines in _splits(one.asks):
        yield replace(one, asks=asks, where=(*one.where, *([lines] if lines else [])))


def _splits(text: str, at: re.Pattern[str] = _PLACE) -> Iterator[tuple[str, str]]:
    """Yield a piece whole, and parted at each word that may begin what says where; not behind a semicolon, for then it
    says so of what follows alone.
    """
    yield text, ""
    for found in at.finditer(text):
        if found.start() and text[found.end() :].strip() and ";" not in text[: found.start()]:
            yield text[: found.start()], text[found.end() :]
