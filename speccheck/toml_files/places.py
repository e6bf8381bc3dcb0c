"""Where each key and each value of a TOML text stands; `tomllib` reads the values and keeps no places.

The text is one that `tomllib` has read without complaint, so that nothing is checked here a second time.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, field

Path = tuple[str | int, ...]
Span = tuple[int, int]

_TOKEN = re.compile(
    r"""
    (?P<blank>[ \t\r\n]+ | \#[^\n]*)
    | (?P<text>\"{3}(?:[^\\"]|\\.|"(?!""))*+\"{0,5} | '{3}(?:[^']|'(?!''))*+'{0,5}
        | "(?:[^"\\\n]|\\.)*+"? | '[^'\n]*+'?)
    | (?P<mark>[\[\]{},=.])
    | (?P<word>[^\s\#"'\[\]{},=.]+)
    """,
    re.VERBOSE | re.DOTALL,
)


MOST_PARTS = 50
"""Parts of the longest dotted key that is read."""
MOST_DEPTH = 100


def too_deep(text: str) -> str:
    """Return in words what of a text, which need not be TOML, would take reading too deep; "" where nothing does."""
    depth = parts = 0
    for one in _TOKEN.finditer(text):
        sign = one[0]
        if sign == ".":
            parts += 1
        elif one.lastgroup == "mark" or "\n" in sign:
            parts = 0
            depth += (sign in "[{") - (sign in "]}")
        if parts >= MOST_PARTS:
            return f"a key with more than {MOST_PARTS} parts"
        if depth > MOST_DEPTH:
            return "lists in lists, too deep to read"
    return ""


@dataclass(slots=True)
class Spans:
    """Where the keys and values stand, by their paths, as offsets into the text."""

    keys: dict[Path, Span] = field(default_factory=dict)
    values: dict[Path, Span] = field(default_factory=dict)


def spans_of(text: str) -> Spans:
    """Return where each key and value of a TOML text stands.

    Paths are those of the content: keys of tables and indices of arrays. A table with a heading has that as its key.
    """
    return _Scan(text).all()


@dataclass(frozen=True, slots=True)
class _Token:
    kind: str
    text: str
    start: int
    end: int


class _Scan:
    """One pass over the tokens of a text."""

    def __init__(self, text: str) -> None:
        found = _TOKEN.finditer(text)
        self.tokens = [_Token(one.lastgroup or "", one[0], *one.span()) for one in found]
        self.at = 0
        self.spans = Spans()
        self.counts: dict[Path, int] = {}  # of the tables of each array so far

    def all(self) -> Spans:
        """Return the spans of the whole text."""
        table: Path = ()
        while self._here() is not None:
            table = self._heading() if self._is("[") else self._entry(table)
        return self.spans

    def _here(self) -> _Token | None:
        """Return the next token that is not blank."""
        while self.at < len(self.tokens) and self.tokens[self.at].kind == "blank":
            self.at += 1
        return self.tokens[self.at] if self.at < len(self.tokens) else None

    def _is(self, mark: str) -> bool:
        here = self._here()
        return here is not None and here.text == mark

    def _next(self) -> _Token:
        here = self._here()
        assert here is not None, "the text ends within an entry, though it was read"
        self.at += 1
        return here

    def _heading(self) -> Path:
        """Pass `[table]` or `[[table]]` and return the path of the table that it begins."""
        first = self._next()
        many = self._is("[")
        self.at += many
        keys, _ = self._key()
        last = self._next()
        last = self._next() if many else last
        span = (first.start, last.end)
        *around, name = keys
        whole: Path = (*self._resolved(around), name)
        for count in range(1, len(keys)):
            self.spans.keys.setdefault(self._resolved(keys[:count]), span)
        self.spans.keys.setdefault(whole, span)
        if many:
            self.counts[whole] = self.counts.get(whole, 0) + 1
        path = self._resolved(keys)
        self.spans.keys[path] = span
        return path

    def _resolved(self, keys: list[str]) -> Path:
        """Return the path of keys in a heading: of an array of tables the last table so far is meant."""
        path: Path = ()
        for key in keys:
            path = (*path, key)
            if path in self.counts:
                path = (*path, self.counts[path] - 1)
        return path

    def _key(self) -> tuple[list[str], Span]:
        """Pass a key, `a."b c".d`, and return its parts and its span."""
        first = last = self._next()
        parts = [_name(first)]
        while self._is("."):
            self.at += 1
            last = self._next()
            parts.append(_name(last))
        return parts, (first.start, last.end)

    def _entry(self, table: Path) -> Path:
        """Pass `key = value` and return the table that it stands in."""
        parts, span = self._key()
        self._next()
        for count in range(1, len(parts) + 1):
            self.spans.keys.setdefault((*table, *parts[:count]), span)
        self._value((*table, *parts))
        return table

    def _value(self, path: Path) -> None:
        first = self._next()
        if first.text == "[":
            self._array(path)
        elif first.text == "{":
            self._inline_table(path)
        elif first.kind != "text":
            self._number(first)
        self.spans.values[path] = (first.start, self.tokens[self.at - 1].end)

    def _array(self, path: Path) -> None:
        index = 0
        while not self._is("]"):
            self._value((*path, index))
            index += 1
            self.at += self._is(",")
        self.at += 1

    def _inline_table(self, path: Path) -> None:
        while not self._is("}"):
            self._entry(path)
            self.at += self._is(",")
        self.at += 1

    def _number(self, first: _Token) -> None:
        """Pass the rest of a number, a date or a time: `1.5` has three tokens, and a blank may stand before a time."""
        while self.at < len(self.tokens):
            here = self.tokens[self.at]
            if here.text == "." or here.kind == "word":
                self.at += 1
            elif here.text == " " and first.text.count("-") == 2 and self._time_follows():
                self.at += 2
            else:
                return

    def _time_follows(self) -> bool:
        rest = self.tokens[self.at + 1 : self.at + 2]
        return bool(rest) and re.match(r"\d\d:", rest[0].text) is not None


def _name(token: _Token) -> str:
    if token.kind != "text":
        return token.text
    name = tomllib.loads(f"x = {token.text}")["x"]
    assert isinstance(name, str)
    return name
