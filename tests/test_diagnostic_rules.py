"""The sentences of all diagnostics: how they are written, and that whoever tells one states its facts."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path
from string import Formatter
from typing import TypeGuard

import speccheck
from speccheck.language.diagnostic_rules import Rule, Wording
from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.report.all_codes import CHAPTERS, all_rules
from speccheck.report.messages import CONVERSATION, NO_CELL_TO_CHANGE
from tests.some import some

PACKAGE = Path(speccheck.__file__).parent
TOLD_BY_NO_TEST = (NO_CELL_TO_CHANGE, CONVERSATION)
"""Rules of cells that cannot be corrected or marked, of which no test has a workbook yet."""
MODULES = tuple(f"speccheck.{name}" for names in CHAPTERS.values() for name in names)


def _wordings() -> dict[tuple[str, str], Wording]:
    """Return every wording, by its module and its name."""
    catalogues = {module: vars(import_module(module)) for module in MODULES}
    return {
        (module, name): found
        for module, names in catalogues.items()
        for name, found in names.items()
        if isinstance(found, Wording)
    }


def test_sentences_are_lower_case_without_a_full_stop() -> None:
    """A message is one sentence in lower case; a help line too, and neither ends with a full stop."""
    for (_, name), one in some(_wordings().items()):
        for text in (one.message, one.help):
            assert not re.match(r"(?!Parquet)[A-Z][a-z]", text), name
            assert not re.search(r"[.!](\s|$)", text.replace("...", "")), name
            assert text.count("`") % 2 == 0, name
        assert one.message, name


def test_titles_and_documentation_are_whole() -> None:
    """A title fits on a line and is no sentence; the documentation is whole sentences."""
    for rule in some(all_rules().values()):
        assert 0 < len(rule.title) <= 80, rule.code
        assert not rule.title.endswith("."), rule.code
        assert rule.documentation[0].isupper() or rule.documentation[0] == "`", rule.code
        assert rule.documentation.endswith("."), rule.code


def test_no_two_wordings_of_a_rule_are_the_same() -> None:
    """A sentence stands once in its catalogue."""
    said = [(one.rule.code, one.message, one.help, one.severity) for one in _wordings().values()]
    assert len(set(said)) == len(said)


def test_whoever_tells_a_sentence_states_its_facts() -> None:
    """Each place that tells a wording by its name states every fact that it has, and no other."""
    known = _wordings()
    told = [one for path in sorted(PACKAGE.rglob("*.py")) for one in _told(path)]
    for where, wording, facts in some(told):
        assert facts == known[wording].facts, (where, wording)


def _told(path: Path) -> Iterator[tuple[str, tuple[str, str], frozenset[str]]]:
    """Yield where a module tells which wording with which facts; calls that pass facts on are left out."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    names = {
        alias.asname or alias.name: (node.module, alias.name)
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and node.module in MODULES
        for alias in node.names
        if alias.name.isupper()
    }
    rules = {key for key in names.values() if isinstance(getattr(import_module(key[0]), key[1]), Rule)}
    for call in ast.walk(tree):
        if not isinstance(call, ast.Call) or any(keyword.arg is None for keyword in call.keywords):
            continue
        attribute = call.func if isinstance(call.func, ast.Attribute) else None
        if attribute is None or attribute.attr not in ("at", "tell", "finding"):
            continue
        said = attribute.value if attribute.attr == "at" else next(iter(call.args), None)
        if isinstance(said, ast.Name) and said.id in names and names[said.id] not in rules:
            facts = {str(keyword.arg) for keyword in call.keywords} - {"near"}
            if attribute.attr == "finding":
                facts.add("clause")  # a finding about a paragraph says of itself which clause it is about
            yield f"{path.name}:{call.lineno}", names[said.id], frozenset(facts)


FROM_WHAT_WAS_KEPT = {"diagnostic_rules.py", "child.py", "copying.py", "store.py"}
"""Modules that make diagnostics: the one of rules, and three that read back what another process told."""


def test_no_other_module_words_a_diagnostic() -> None:
    """Codes and English stand in the catalogues alone: whoever finds a mistake tells a sentence of theirs."""
    makers = {
        path.name
        for path in PACKAGE.rglob("*.py")
        for call in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id == "Diagnostic"
    }
    assert makers == FROM_WHAT_WAS_KEPT


def test_every_rule_is_shown_by_a_test() -> None:
    """Some test expects each rule, by its code, its name or its words, so that no rule is there that nothing tells."""
    folder = Path(__file__).parent
    files = [path for path in folder.rglob("*") if path.suffix in (".expected", ".py", ".csv", ".toml")]
    shown = "\n".join(path.read_text(encoding="utf-8", errors="replace") for path in files)
    names = {found.code: name for one in MODULES for name, found in vars(import_module(one)).items() if _is_rule(found)}
    words: dict[str, set[str]] = {}
    for one in _wordings().values():
        longest = max((text for text, _, _, _ in Formatter().parse(one.message)), key=len)
        words.setdefault(one.rule.code, set()).add(longest)
    silent = [code for code in all_rules() if code not in shown and f"{names[code]}.code" not in shown]
    unheard = [code for code in silent if not any(text in shown for text in words[code] if len(text) > 9)]
    assert set(unheard) <= {one.code for one in TOLD_BY_NO_TEST}


def _is_rule(found: object) -> TypeGuard[Rule]:
    return isinstance(found, Rule)


def test_a_wording_is_told_with_its_place_and_its_facts() -> None:
    """Facts stand where the braces are; a known name that was probably meant takes the place of the help."""
    said = Rule("L999", "title", "Words.", Severity.WARNING).says("`{name}` is not known", "write {{x}}")
    place = Place("a.clauses", 1, 2, 3)
    told = Diagnostic("L999", Severity.WARNING, "`{odd}` is not known", place, "write {x}", "the line")
    assert said.at(place, "the line", name="{odd}") == told
    assert said.at(place, near="old", name="odd").help == "did you mean `old`?"
    assert said.weighing(Severity.NOTE).at(place, name="odd").severity is Severity.NOTE
