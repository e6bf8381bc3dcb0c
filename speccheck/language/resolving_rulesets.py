"""Rulesets resolved: definitions, tables and clauses put together with those of the rulesets that they build on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from speccheck.language.clause_names import labelled
from speccheck.language.core import Assumption, Clause, Ruleset, Statement, SubjectScope
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.names import Names
from speccheck.language.reading_files import SourceText
from speccheck.language.resolving_assumptions import resolve_assumption
from speccheck.language.resolving_clauses import resolve_clause
from speccheck.language.resolving_definitions import Definitions
from speccheck.language.resolving_headers import bare_units_of, put_together
from speccheck.language.resolving_scopes import resolve_scope
from speccheck.language.resolving_statements import resolve_statement
from speccheck.language.resolving_tables import resolve_table
from speccheck.language.suggestions import nearest
from speccheck.language.syntax import (
    AssumptionSyntax,
    ClauseSyntax,
    DefinitionSyntax,
    RulesetSyntax,
    ScopeSyntax,
    StatementSyntax,
    TableSyntax,
    TextPart,
)
from speccheck.language.vocabulary import Vocabulary, fold


class RulesetResolver:
    """Resolves one ruleset file; `bases` are the rulesets that it builds on, with the names it gives them."""

    def __init__(
        self, syntax: RulesetSyntax, source: SourceText, vocabulary: Vocabulary, bases: Sequence[tuple[str, Ruleset]]
    ) -> None:
        self.syntax = syntax
        self.bases = bases
        self.names = Names(source, vocabulary, broken={fold(name) for name in syntax.left_out})
        written = [item for item in syntax.items if isinstance(item, DefinitionSyntax)]
        self.definitions = Definitions(self.names, written, [base for _, base in bases])

    def resolve(self) -> tuple[Ruleset, tuple[Diagnostic, ...]]:
        """Return the ruleset and the diagnostics; what has errors is left out."""
        self._check_bases()
        for _, base in self.bases:
            self.names.tables.update({fold(table.name): table for table in base.tables.values()})
        for item in self.syntax.items:
            if isinstance(item, TableSyntax):
                self._take_table(item)
        definitions = self.definitions.resolve_all()
        own = self._own_clauses()
        clauses = labelled((*self._kept(own), *own))
        if not clauses and not self.syntax.left_out:
            message = "the ruleset has no clause and judges nothing"
            help = "add a clause, or build on a ruleset that has some"
            self.names.report(self.names.source.error("L308", message, self.syntax.place, help))
        bases = [base for _, base in self.bases]
        ruleset = put_together(self.names, self.syntax, bases, definitions, own, clauses)
        assumed = [assumption for base in bases for assumption in base.assumptions]
        inherited = [scope for base in bases for scope in base.scopes]
        ruleset = replace(
            ruleset,
            assumptions=(*self._assumptions(), *assumed),
            scopes=(*self._scopes(), *inherited),
            statements=self._statements(),
        )
        return ruleset, tuple(self.names.diagnostics)

    def _check_bases(self) -> None:
        """Report names to which two of the rulesets that this one builds on give different meanings."""
        taken: dict[str, tuple[object, str]] = {}
        for path, base in self.bases:
            tables = {name: replace(table, ruleset="") for name, table in base.tables.items()}
            for name, meaning in {**base.definitions, **tables}.items():
                other, where = taken.setdefault(fold(name), (meaning, path))
                if other != meaning:
                    message = f"`{where}` and `{path}` give the name `{name}` two meanings"
                    help = "build on one of them, or rename it in one"
                    self.names.report(self.names.source.error("L301", message, self._place_of_base(path), help))

    def _place_of_base(self, path: str) -> Place:
        parts = [part for part in self.syntax.parts if isinstance(part, TextPart) and part.keyword == "builds on"]
        return next(part.place for part in parts if part.words[0].text == path)

    def _take_table(self, item: TableSyntax) -> None:
        key = fold(item.name.text)
        taken = key in self.names.tables or key in self.names.definition_names
        if taken or self.names.term(item.name.text) is not None:
            message = f"the name `{item.name.text}` is taken already"
            self.names.error("L301", message, item.name, "give the table another name")
            return
        table = resolve_table(self.names, item, self.syntax.name.text)
        if table is None:
            self.names.broken.add(key)
        else:
            self.names.tables[key] = table

    def _assumptions(self) -> tuple[Assumption, ...]:
        items = (item for item in self.syntax.items if isinstance(item, AssumptionSyntax))
        found = (resolve_assumption(self.names, item, self.syntax.name.text) for item in items)
        return tuple(assumption for assumption in found if assumption is not None)

    def _scopes(self) -> tuple[SubjectScope, ...]:
        items = (item for item in self.syntax.items if isinstance(item, ScopeSyntax))
        return tuple(resolve_scope(self.names, item, self.syntax.name.text) for item in items)

    def _statements(self) -> tuple[Statement, ...]:
        items = (item for item in self.syntax.items if isinstance(item, StatementSyntax))
        found = (resolve_statement(self.names, item, self.syntax.name.text) for item in items)
        return tuple(statement for statement in found if statement is not None)

    def _own_clauses(self) -> tuple[Clause, ...]:
        bare = bare_units_of(self.syntax)
        found: dict[str, Clause] = {}
        for item in self.syntax.items:
            if not isinstance(item, ClauseSyntax):
                continue
            clause = resolve_clause(self.names, item, self.syntax.name.text, bare)
            if clause.name in found:
                message = f"clause `{clause.name}` stands twice"
                self.names.error("L301", message, item.name, "give one of them another number")
                continue
            found[clause.name] = clause
        return tuple(found.values())

    def _kept(self, own: Sequence[Clause]) -> tuple[Clause, ...]:
        """Return the clauses of the bases, without those that a clause of this ruleset replaces."""
        inherited: dict[tuple[str, str], Clause] = {}
        for path, base in self.bases:
            for clause in base.clauses:
                inherited.setdefault((clause.ruleset, clause.name), replace(clause, called=clause.called or path))
        for clause in own:
            if clause.replaces is not None:
                matching = self._matching(clause.replaces, list(inherited))
                if len(matching) != 1:
                    self._report_replaced(clause, [name for _, name in inherited], len(matching))
                for key in matching[:1]:
                    del inherited[key]
        return tuple(inherited.values())

    def _report_replaced(self, clause: Clause, known: list[str], matches: int) -> None:
        assert clause.replaces is not None
        name, of = clause.replaces
        bases = [called for path, base in self.bases for called in (path, base.name)]
        if matches:
            message, help = f"`{name}` is the number of {matches} clauses", 'say which: `replaces ... of "..."`'
        elif of and of not in bases:
            message, close = f"this ruleset does not build on `{of}`", nearest(of, bases)
            help = f"did you mean `{close}`?" if close else "name a ruleset as `builds on` does"
        else:
            message, close = f"no ruleset that this one builds on has a clause `{name}`", nearest(name, known)
            help = f"did you mean `{close}`?" if close else "check the number and `builds on`"
        self.names.report(self.names.source.error("L305", message, self._place_of_replaces(clause), help))

    def _place_of_replaces(self, clause: Clause) -> Place:
        syntax = next(item for item in self.syntax.items if item.place == clause.place)
        assert isinstance(syntax, ClauseSyntax)
        return next(p.place for p in syntax.parts if isinstance(p, TextPart) and p.keyword == "replaces")

    def _matching(self, replaces: tuple[str, str], inherited: list[tuple[str, str]]) -> list[tuple[str, str]]:
        """Return the inherited clauses, by ruleset and name, that a `replaces` part can mean."""
        name, of = replaces
        rulesets = {base.name for path, base in self.bases if of in (path, base.name)}
        return [key for key in inherited if key[1] == name and (not of or key[0] in {of, *rulesets})]
