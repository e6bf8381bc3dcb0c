"""Parsers made from the shipped lark grammars, with their tables kept in the user's cache folder.

In: the name of a grammar in the folder `grammar`. Out: a `lark.Lark` parser (LALR).
Building the tables of a grammar takes tens of milliseconds at every start of the program; reading them back takes a
few. A cache that cannot be read or written is not an error: the parser is then built afresh.
"""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING, Any

from speccheck.disk_cache import cache_folder
from speccheck.shipped import shipped_folder

if TYPE_CHECKING:
    import lark


def load_parser(
    grammar_name: str,
    *,
    start: str | list[str] = "start",
    transformer: lark.Transformer[Any, Any] | None = None,
    positions: bool = True,
) -> lark.Lark:
    """Return a parser for `grammar/<grammar_name>.lark`.

    `start` is the rule to begin with, or several, of which each parse then names one; `transformer`, where given, is
    applied while parsing, so that no tree is built; `positions` says whether trees know where in the text they stand,
    which those of terminals found by ourselves do by these. Raises `FileNotFoundError` where there is no such grammar
    and a lark error where the grammar is wrong: both are bugs of ours, never of a user.
    """
    import lark

    grammar = (shipped_folder("grammar") / f"{grammar_name}.lark").read_text(encoding="utf-8")
    options: dict[str, Any] = {
        "parser": "lalr",
        "start": start,
        "propagate_positions": positions,
        "maybe_placeholders": False,
    }
    folder = cache_folder()
    if folder is None:
        return lark.Lark(grammar, transformer=transformer, **options)
    # The key is in the name, so that versions do not overwrite each other. Lark itself checks what it reads, and builds
    # afresh where the file is damaged, half written by another process, or made by another version.
    key = hashlib.sha256(repr((grammar, lark.__version__, sorted(options.items()))).encode()).hexdigest()
    tables = folder / f"{grammar_name}-{key[:20]}.tables"
    return lark.Lark(grammar, cache=str(tables), transformer=transformer, **options)
