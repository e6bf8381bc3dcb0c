"""What sections say where the language has words of its own, and those words: the help of many a first mistake.

Exact synonyms are none of them: the grammar takes those, and the formatter turns them into the house words.
"""

from __future__ import annotations

import re

INSTEAD = {
    "unless": "write `except where` on a line of its own",
    ",": "a name has no comma: join conditions by `and`, and write several values as `is one of A, B`",
    **dict.fromkeys(("minimum", "min", "a minimum"), "write `at least` before the amount"),
    **dict.fromkeys(("maximum", "max", "a maximum"), "write `at most` before the amount"),
    **dict.fromkeys(("exceed", "not exceed"), "write `be at most`"),
    **dict.fromkeys(("exceeds", "exceeding"), "write `is more than`"),
    "must": "write `shall` before the name",
    **dict.fromkeys(("if", "when", "wherever"), "write `where`"),
    "may": "write `should` for what is recommended; what is only permitted needs no clause",
    **dict.fromkeys(("below", "under"), "write `less than`"),
    **dict.fromkeys(("above", "over"), "write `more than`"),
    **dict.fromkeys(("equal", "equals"), "write `is` or `be`"),
}
"""Where the parser stops at such a word, the word is said to stand wrongly, with this help."""

AFTER_NOT = {
    "be": "write `be not`, as in `shall jacket be not PVC`",
    **dict.fromkeys(("below", "under"), "write `at least` in place of `not {}`"),
    **dict.fromkeys(("above", "over"), "write `at most` in place of `not {}`"),
}
"""The same behind `not`, where to replace the one word would turn the meaning round."""

BEHIND_AMOUNTS = {
    **dict.fromkeys(("more", "larger", "greater", "higher", "above", "over", "thicker"), "at least"),
    **dict.fromkeys(("less", "smaller", "lower", "below", "under", "thinner"), "at most"),
}
"""What sections say behind an amount ("2 in or larger"), and what the language says before it."""

SAYS_NOTHING = frozenset({"thick", "long", "wide", "high", "deep", "in", "on", "apart", "each"})
"""What sections say behind an amount that the term says already: "1 in thick", "15 ft on center"."""

PRESENT = frozenset({"provided", "present", "required", "installed", "included"})
"""What sections say where something has to be there, whichever it is."""

_COMPARED = re.compile(r"(above|over|below|under)\s+(.+)")


def compared_with(name: str) -> tuple[str, str] | None:
    """Return the words of the language and the name in "above dew point", or None where no such word leads a name."""
    found = _COMPARED.fullmatch(name)
    if found is None:
        return None
    return ("more than" if found[1] in ("above", "over") else "less than"), found[2]
