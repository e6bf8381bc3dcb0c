"""Words said once for two neighbors: "domestic cold & hot water" shares its first word, "supply & return air" its last.

Neighbors are the chains of words on both sides of "and", or a slash, as `grammar/phrases.lark` parts them.
"""

from __future__ import annotations

from collections.abc import Sequence

from speccheck.phrases.facts import Fact
from speccheck.phrases.lexicon import Lexicon, Meaning
from speccheck.phrases.terminals import THINGS, Source, Terminal
from speccheck.phrases.words import Word, key_of

_NAMES = THINGS | {"FILLER", "WORD"}


def shared_head(source: Source, terminal: Terminal, facts: Sequence[Fact]) -> tuple[Meaning, ...]:
    """Return what words behind a link name with the first word of the value before it, or with its last ones.

    "Domestic cold & hot water" says "domestic" of both, "supply air & return" says "air". Words that name one value of
    the expected term by themselves share nothing: then, and where nothing is named, this is ().
    """
    term = source.lexicon.term
    before = [fact for fact in facts if fact.term is term]
    if not before or terminal.type not in _NAMES or _names_a_value(terminal, source):
        return ()
    first, *rest = key_of(source.text[before[-1].start : before[-1].end])
    own = tuple(word.folded for word in source.words[terminal.first : terminal.end])
    right_before = before[-1].end == source.words[terminal.first - 2].end
    return _named((first, *own), source.lexicon) or (_named((*own, *rest), source.lexicon) if right_before else ())


def shared_tail(source: Source, last: Terminal, behind: Terminal) -> tuple[Meaning, ...]:
    """Return what one word before a link names with the last words of the value behind it; () for nothing."""
    term = source.lexicon.term
    one_word = last.end - last.first == 1 and last.type in _NAMES
    if not one_word or behind.end - behind.first < 2 or all(each.term is not term for each in behind.meanings):
        return ()
    if _names_a_value(last, source):
        return ()
    rest = (word.folded for word in source.words[behind.first + 1 : behind.end])
    return _named((source.words[last.first].folded, *rest), source.lexicon)


def _named(key: tuple[str, ...], lexicon: Lexicon) -> tuple[Meaning, ...]:
    """Return what words name of the expected term, all of them together."""
    found = lexicon.find([Word(each, 0, 0) for each in key], 0)
    whole = found is not None and found.length == len(key)
    return tuple(each for each in found.meanings if each.term is lexicon.term) if whole and found is not None else ()


def _names_a_value(terminal: Terminal, source: Source) -> bool:
    """Whether words by themselves name one value of the expected term."""
    return any(each.term is source.lexicon.term and len(each.values) == 1 for each in terminal.meanings)
