"""Rulesets resolved: definitions, tables and clauses put together with those of the rulesets that they build on."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from speccheck.language.core import Amount, Clause, Condition, Literal, Ruleset
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.kinds import quantity_kind
from speccheck.language.literals import resolve_literal
from speccheck.language.names import Names
from speccheck.language.reading_files import SourceText
from speccheck.language.resolving_amounts import resolve_amount
from speccheck.language.resolving_clauses import check_once, resolve_clause
from speccheck.language.resolving_conditions import resolve_condition
from speccheck.language.resolving_tables import amount_of, resolve_table, texts_of
from speccheck.language.suggestions import nearest
from speccheck.language.syntax import ClauseSyntax, DefinitionSyntax, Measure, RulesetSyntax, TableSyntax, TextPart
from speccheck.language.values import BareUnits
from speccheck.language.vocabulary import Vocabulary, fold

DEFAULT_TOLERANCE = 1e-6


class RulesetResolver:
    """Resolves one ruleset file; `bases` are the rulesets that it builds on, with the names it gives them."""

    def __init__(
        self, syntax: RulesetSyntax, source: SourceText, vocabulary: Vocabulary, bases: Sequence[tuple[str, Ruleset]]
    ) -> None:
        self.syntax = syntax
        self.bases = bases
        self.names = Names(source, vocabulary, definition=self._definition, broken={fold(n) for n in syntax.left_out})
        self._meanings: dict[str, Condition | Amount | None] = {}
        self._open: list[str] = []
        self._written = {fold(i.name.text): i for i in syntax.items if isinstance(i, DefinitionSyntax)}

    def resolve(self) -> tuple[Ruleset, tuple[Diagnostic, ...]]:
        """Return the ruleset and the diagnostics; what has errors is left out."""
        self._take_names_of_bases()
        self._take_own_definitions()
        for item in self.syntax.items:
            if isinstance(item, TableSyntax):
                self._take_table(item)
        for name in self._written:
            self._definition(name)
        own = self._own_clauses()
        clauses = _labelled((*self._kept(own), *own))
        if not clauses and not self.syntax.left_out:
            message = "the ruleset has no clause and judges nothing"
            self._error("L308", message, self.syntax.place, "add a clause, or build on a ruleset that has some")
        return self._ruleset(clauses), tuple(self.names.diagnostics)

    def _error(self, code: str, message: str, place: object, help: str) -> None:
        self.names.report(self.names.source.error(code, message, place, help))  # type: ignore[arg-type]

    # ---- names -----------------------------------------------------------------------------------

    def _take_names_of_bases(self) -> None:
        for _, base in self.bases:
            for table in base.tables.values():
                self.names.tables[fold(table.name)] = table
            for name, meaning in base.definitions.items():
                self.names.definition_names[fold(name)] = name
                self._meanings[fold(name)] = meaning

    def _take_own_definitions(self) -> None:
        for item in self.syntax.items:
            if not isinstance(item, DefinitionSyntax):
                continue
            key = fold(item.name.text)
            if key in self.names.definition_names or self.names.term(item.name.text) is not None:
                message = f"the name `{item.name.text}` is taken already"
                self._error("L301", message, item.name.place, "give the definition another name")
                continue
            self.names.definition_names[key] = item.name.text

    def _take_table(self, item: TableSyntax) -> None:
        key = fold(item.name.text)
        taken = key in self.names.tables or key in self.names.definition_names
        if taken or self.names.term(item.name.text) is not None:
            message = f"the name `{item.name.text}` is taken already"
            self._error("L301", message, item.name.place, "give the table another name")
            return
        table = resolve_table(self.names, item, self.syntax.name.text)
        if table is None:
            self.names.broken.add(key)
        else:
            self.names.tables[key] = table

    def _definition(self, name: str) -> Condition | Amount | None:
        """Return the meaning of a definition, resolving it at its first use; circles are reported and mean nothing."""
        key = fold(name)
        if key in self._open:
            circle = [*self._open[self._open.index(key) :], key]
            written = " -> ".join(f"`{self.names.definition_names[one]}`" for one in circle)
            item = self._written[circle[0]]
            self._error("L302", f"the definitions go round in a circle: {written}", item.name.place, "break the circle")
            return None
        if key not in self._meanings:
            self._open.append(key)
            self._meanings[key] = self._resolve_definition(self._written[key])
            self._open.pop()
        return self._meanings[key]

    def _resolve_definition(self, item: DefinitionSyntax) -> Condition | Amount | None:
        if item.is_amount:
            return resolve_amount(self.names, item.meaning)  # type: ignore[arg-type]
        return resolve_condition(self.names, item.meaning)  # type: ignore[arg-type]

    # ---- clauses ---------------------------------------------------------------------------------

    def _own_clauses(self) -> tuple[Clause, ...]:
        bare = BareUnits(system=self._text("units") or "inch-pound")
        found: dict[str, Clause] = {}
        for item in self.syntax.items:
            if not isinstance(item, ClauseSyntax):
                continue
            clause = resolve_clause(self.names, item, self.syntax.name.text, bare)
            if clause.name in found:
                message = f"clause `{clause.name}` stands twice"
                self._error("L301", message, item.name.place, "give one of them another number")
                continue
            found[clause.name] = clause
        return tuple(found.values())

    def _kept(self, own: tuple[Clause, ...]) -> tuple[Clause, ...]:
        """Return the clauses of the bases, without those that a clause of this ruleset replaces."""
        inherited: dict[tuple[str, str], Clause] = {}
        for _, base in self.bases:
            for clause in base.clauses:
                inherited.setdefault((clause.ruleset, clause.name), clause)
        for clause in own:
            if clause.replaces is None:
                continue
            name, of = clause.replaces
            rulesets = {base.name for path, base in self.bases if of in ("", path, base.name)}
            matching = [key for key in inherited if key[1] == name and (not of or key[0] in rulesets)]
            if len(matching) != 1:
                self._report_replaced(clause, [key[1] for key in inherited], len(matching))
            for key in matching[:1]:
                del inherited[key]
        return tuple(inherited.values())

    def _report_replaced(self, clause: Clause, known: list[str], matches: int) -> None:
        assert clause.replaces is not None
        name = clause.replaces[0]
        if matches:
            message, help = f"`{name}` is the number of {matches} clauses", 'say which: `replaces ... of "..."`'
        else:
            close = nearest(name, known)
            message = f"no ruleset that this one builds on has a clause `{name}`"
            help = f"did you mean `{close}`?" if close else "check the number and `builds on`"
        self._error("L305", message, clause.place, help)

    # ---- header ----------------------------------------------------------------------------------

    def _text(self, keyword: str) -> str:
        return "".join(texts_of(self.syntax.parts, keyword)[:1])

    def _tolerance(self) -> float:
        part = next((p for p in self.syntax.parts if isinstance(p, TextPart) and p.keyword == "tolerance"), None)
        if part is None:
            return DEFAULT_TOLERANCE
        words = part.words[0]
        literal = resolve_literal(Measure(words.text, False, words.place), quantity_kind("ratio"), self.names.source)
        if isinstance(literal, Literal):
            return amount_of(literal.value)
        self.names.report(literal)
        return DEFAULT_TOLERANCE

    def _ruleset(self, clauses: tuple[Clause, ...]) -> Ruleset:
        check_once(self.names, self.syntax.parts)
        parts = self.syntax.parts
        definitions = {
            self.names.definition_names[key]: meaning for key, meaning in self._meanings.items() if meaning is not None
        }
        gone = tuple(f"{clause.replaces[0]} by {clause.name}" for clause in clauses if clause.replaces)
        return Ruleset(
            name=self.syntax.name.text,
            vocabulary=self.names.vocabulary,
            clauses=clauses,
            tables={table.name: table for table in self.names.tables.values()},
            definitions=definitions,
            edition=self._text("edition"),
            units=self._text("units") or "inch-pound",
            tolerance=self._tolerance(),
            nominal_metric=any(isinstance(p, TextPart) and p.keyword == "nominal metric" for p in parts),
            covers=self._text("covers"),
            leaves_out=self._text("leaves out"),
            cautions=tuple(
                dict.fromkeys([*(c for _, b in self.bases for c in b.cautions), *texts_of(parts, "caution")])
            ),
            notes=texts_of(parts, "note"),
            builds_on=tuple(base.name for _, base in self.bases),
            replaced=(*(one for _, base in self.bases for one in base.replaced), *gone),
        )


def _labelled(clauses: tuple[Clause, ...]) -> tuple[Clause, ...]:
    """Return the clauses with labels that tell them apart where two rulesets use one number."""
    count = Counter(clause.name for clause in clauses)
    return tuple(
        replace(clause, label=f"{clause.name} ({clause.ruleset})" if count[clause.name] > 1 else clause.name)
        for clause in clauses
    )
