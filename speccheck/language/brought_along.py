"""What a wheel brings along: the shipped rulesets as they were parsed, and the vocabularies as they were resolved, when
it was built, so that the first run of all need not do it.

The name of each file is made of the content of all modules and grammars, and of the text that it came of: what another
program made, or what came of another text, is not found. A checkout brings nothing along, and all is worked out there.
"""

from __future__ import annotations

from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any

from speccheck.disk_cache import content_of, values_in
from speccheck.language.syntax.source_text import SourceText
from speccheck.shipped import BROUGHT_ALONG, shipped_folder


def brought_along(source: SourceText) -> Any:
    """Return what the wheel brought along of a shipped file, or None.

    Of a ruleset that is its syntax tree with what there is to say of it, of a vocabulary all that was loaded of it.
    """
    folder = shipped_folder(BROUGHT_ALONG)
    return values_in(folder / _name(source)) if folder.is_dir() else None


def bring_along(folder: Path) -> None:
    """Write into a folder what a wheel of this checkout brings along."""
    from speccheck.language.loading import LoadedVocabulary, vocabulary_in
    from speccheck.language.ruleset_files import shipped_names, shown_name
    from speccheck.language.syntax.source_text import read_source

    for name in shipped_names():
        path = shipped_folder("rulesets") / f"{name}.clauses"
        source = read_source(path, shown_name(path))
        assert isinstance(source, SourceText), source
        vocabulary, ruleset, diagnostics = vocabulary_in(source)
        thing = LoadedVocabulary(vocabulary, diagnostics) if ruleset is None else (ruleset, diagnostics)
        (folder / _name(source)).write_bytes(content_of(thing))


def _name(source: SourceText) -> str:
    told = repr((_program_content(), source.name, source.text))
    return f"{sha256(told.encode(errors='surrogatepass')).hexdigest()[:32]}.kept"


@cache
def _program_content() -> str:
    """Return a fingerprint of the content of all modules and grammars, wherever they lie and whenever they came."""
    package, content = Path(__file__).parents[1], sha256()
    for path in (*sorted(package.rglob("*.py")), *sorted(shipped_folder("grammar").glob("*.lark"))):
        content.update(path.name.encode() + path.read_bytes())
    return content.hexdigest()
