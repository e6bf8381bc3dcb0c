"""Definitions resolved: each at its first use, so that they may stand in any order; circles are found on the way."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from speccheck.language.core import Amount, Condition, Ruleset
from speccheck.language.names import Names
from speccheck.language.resolving_amounts import resolve_amount
from speccheck.language.resolving_conditions import resolve_condition
from speccheck.language.syntax import DefinitionSyntax
from speccheck.language.vocabulary import fold


class Definitions:
    """The definitions of one ruleset, with those of the rulesets that it builds on."""

    def __init__(self, names: Names, written: Iterable[DefinitionSyntax], bases: Iterable[Ruleset]) -> None:
        self.names = names
        self._meanings: dict[str, Condition | Amount | None] = {}
        self._written: dict[str, DefinitionSyntax] = {}
        self._open: list[str] = []
        for base in bases:
            for name, meaning in base.definitions.items():
                names.definition_names[fold(name)] = name
                self._meanings[fold(name)] = meaning
        for item in written:
            self._take(item)
        names.definition = self.meaning

    def _take(self, item: DefinitionSyntax) -> None:
        """Take a definition under its name, if nothing else has it."""
        key = fold(item.name.text)
        if key in self.names.definition_names or self.names.term(item.name.text) is not None:
            message = f"the name `{item.name.text}` is taken already"
            self.names.error("L301", message, item.name, "give the definition another name")
            return
        self.names.definition_names[key] = item.name.text
        self._written[key] = item

    def resolve_all(self) -> Mapping[str, Condition | Amount]:
        """Return the meanings of all definitions that have one, used or not."""
        for key in self._written:
            self.meaning(key)
        return {
            self.names.definition_names[key]: meaning for key, meaning in self._meanings.items() if meaning is not None
        }

    def meaning(self, name: str) -> Condition | Amount | None:
        """Return the meaning of a definition, resolving it at its first use; circles are reported and mean nothing."""
        key = fold(name)
        if key in self._open:
            self._report_circle([*self._open[self._open.index(key) :], key])
            return None
        if key not in self._meanings:
            self._open.append(key)
            self._meanings[key] = self._resolve(self._written[key])
            self._open.pop()
        return self._meanings[key]

    def _resolve(self, item: DefinitionSyntax) -> Condition | Amount | None:
        if item.is_amount:
            return resolve_amount(self.names, item.meaning)  # type: ignore[arg-type]
        return resolve_condition(self.names, item.meaning)  # type: ignore[arg-type]

    def _report_circle(self, circle: list[str]) -> None:
        written = " -> ".join(f"`{self.names.definition_names[one]}`" for one in circle)
        message = f"the definitions go round in a circle: {written}"
        self.names.error("L302", message, self._written[circle[0]].name, "say one of them without the others")
