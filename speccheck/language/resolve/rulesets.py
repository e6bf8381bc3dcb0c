"""Rulesets resolved: their headers, definitions, tables and clauses put together with those of their bases."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from speccheck.english import nearest
from speccheck.language.clause_names import labelled
from speccheck.language.core import (
    Amount,
    Assumption,
    Clause,
    Condition,
    Literal,
    Ruleset,
    Statement,
    SubjectScope,
    Table,
    UncheckedParagraph,
    UncheckedReason,
)
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.messages.meaning import NO_TOLERANCE
from speccheck.language.messages.rulesets import (
    BASES_CLASH,
    CLAUSE_TWICE,
    NOTHING_TO_JUDGE,
    PARAGRAPH_TWICE,
    REPLACED_HEADING_NOT_FOUND,
    REPLACED_TABLE_NOT_FOUND,
    REPLACES_NO_CLAUSE,
    REPLACES_OF_NO_BASE,
    REPLACES_SEVERAL,
    TABLE_CANNOT_REPLACE,
    TABLE_NAME_TAKEN,
)
from speccheck.language.resolve.clauses import check_once, resolve_clause, texts_of
from speccheck.language.resolve.declarations import (
    Definitions,
    resolve_assumption,
    resolve_cheapest_first,
    resolve_scope,
    resolve_stocked,
)
from speccheck.language.resolve.documents import resolve_documents
from speccheck.language.resolve.line_relations import resolve_relations
from speccheck.language.resolve.literals import amount_of, resolve_literal
from speccheck.language.resolve.names import Names
from speccheck.language.resolve.replaced_tables import cuts, with_cells, with_tables
from speccheck.language.resolve.statements import resolve_statement
from speccheck.language.resolve.tables import resolve_table
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import (
    AssumptionSyntax,
    ClauseSyntax,
    DefinitionSyntax,
    Measure,
    RulesetSyntax,
    ScopeSyntax,
    StatementSyntax,
    TableSyntax,
    TextPart,
    UncheckedSyntax,
)
from speccheck.language.vocabulary.terms import Vocabulary, fold, quantity_kind
from speccheck.language.vocabulary.values import BareUnits

DEFAULT_TOLERANCE = 1e-6
REPLACING = ("replaces the table of", "replaces cells of")


def units_of(syntax: RulesetSyntax) -> str:
    """Return the system of units in which bare numbers of the ruleset's examples are read."""
    return "".join(texts_of(syntax.parts, "units")[:1]) or "inch-pound"


def bare_units_of(syntax: RulesetSyntax) -> BareUnits:
    """Return what a number without a unit is in."""
    return BareUnits(system=units_of(syntax))


def put_together(
    names: Names,
    syntax: RulesetSyntax,
    bases: Sequence[Ruleset],
    definitions: Mapping[str, Condition | Amount],
    own: Sequence[Clause],
    clauses: tuple[Clause, ...],
) -> Ruleset:
    """Return the ruleset of a file: its header, its `own` clauses and all `clauses`, names and definitions resolved."""
    check_once(names, syntax.parts)
    parts, taken = syntax.parts, {clause.name for clause in own}
    replaced = [f"{clause.replaces[0]} by {clause.name}" for clause in own if clause.replaces]
    cautions = [*(caution for base in bases for caution in base.cautions), *texts_of(parts, "caution")]
    return Ruleset(
        name=syntax.name.text,
        vocabulary=names.vocabulary,
        clauses=clauses,
        tables={table.name: table for table in names.tables.values()},
        definitions=definitions,
        document="".join(texts_of(parts, "taken from")[:1]),
        edition="".join(texts_of(parts, "edition")[:1]),
        jurisdiction="".join(texts_of(parts, "jurisdiction")[:1]),
        verified="".join(texts_of(parts, "verified against")[:1]),
        units=units_of(syntax),
        tolerance=_tolerance(names, syntax),
        nominal_metric=any(isinstance(part, TextPart) and part.keyword == "nominal metric" for part in parts),
        stocked=resolve_stocked(names, syntax, bases),
        cheapest_first=resolve_cheapest_first(names, syntax, bases),
        covers="".join(texts_of(parts, "covers")[:1]),
        leaves_out="".join(texts_of(parts, "leaves out")[:1]),
        cautions=tuple(dict.fromkeys(cautions)),
        notes=texts_of(parts, "note"),
        builds_on=tuple(base.name for base in bases),
        documents=resolve_documents(names, syntax.items, syntax.name.text, bases, taken),
        relations=resolve_relations(names, syntax.items, syntax.name.text, bases, taken),
        unchecked=_unchecked(names, syntax, bases, taken),
        replaced=tuple(dict.fromkeys([*(one for base in bases for one in base.replaced), *replaced])),
    )


def _unchecked(
    names: Names, syntax: RulesetSyntax, bases: Sequence[Ruleset], taken: set[str]
) -> tuple[UncheckedParagraph, ...]:
    """Return the paragraphs that no clause checks; one that has a clause, or stands twice, is an error."""
    found: dict[tuple[str, str], UncheckedParagraph] = {(p.ruleset, p.name): p for b in bases for p in b.unchecked}
    for item in syntax.items:
        if not isinstance(item, UncheckedSyntax):
            continue
        if item.name.text in taken:
            names.tell(PARAGRAPH_TWICE, item.name.place, paragraph=item.name.text)
            continue
        taken.add(item.name.text)
        because, wording = (words.text if words else "" for words in (item.because, item.wording))
        reason = UncheckedReason(" ".join(item.reason.text.split()))
        paragraph = UncheckedParagraph(
            item.name.text, item.title.text, syntax.name.text, reason, because, wording, item.place
        )
        found[paragraph.ruleset, paragraph.name] = paragraph
    return tuple(found.values())


def _tolerance(names: Names, syntax: RulesetSyntax) -> float:
    part = next((p for p in syntax.parts if isinstance(p, TextPart) and p.keyword == "tolerance"), None)
    if part is None:
        return DEFAULT_TOLERANCE
    words = part.words[0]
    literal = resolve_literal(Measure(words.text, False, words.place), quantity_kind("ratio"), names.source)
    if not isinstance(literal, Literal):
        names.report(literal)
        return DEFAULT_TOLERANCE
    share = amount_of(literal.value)
    if not 0 <= share < 1:
        names.tell(NO_TOLERANCE, words.place, words=words.text)
        return DEFAULT_TOLERANCE
    return share


class RulesetResolver:
    """Resolves one ruleset file; `bases` are the rulesets that it builds on, with the names it gives them."""

    def __init__(
        self, syntax: RulesetSyntax, source: SourceText, vocabulary: Vocabulary, bases: Sequence[tuple[str, Ruleset]]
    ) -> None:
        self.syntax = syntax
        self.bases = bases
        self.names = Names(source, vocabulary, broken={fold(name) for name in syntax.left_out})
        self.replaced: dict[Table, Table] = {}

    def resolve(self) -> tuple[Ruleset, tuple[Diagnostic, ...]]:
        """Return the ruleset and the diagnostics; what has errors is left out."""
        self._check_bases()
        for _, base in self.bases:
            self.names.tables.update({fold(table.name): table for table in base.tables.values()})
        for item in self.syntax.items:
            if isinstance(item, TableSyntax):
                self._take_table(item)
        self.bases = [(path, with_tables(base, self.replaced)) for path, base in self.bases]
        written = [item for item in self.syntax.items if isinstance(item, DefinitionSyntax)]
        definitions = Definitions(self.names, written, [base for _, base in self.bases]).resolve_all()
        own = self._own_clauses()
        clauses = labelled((*self._kept(own), *own))
        bases = [base for _, base in self.bases]
        ruleset = put_together(self.names, self.syntax, bases, definitions, own, clauses)
        if not (clauses or ruleset.documents or ruleset.relations) and not self.syntax.left_out:
            self.names.tell(NOTHING_TO_JUDGE, self.syntax.place)
        assumed = [assumption for base in bases for assumption in base.assumptions]
        inherited = [scope for base in bases for scope in base.scopes]
        ruleset = replace(
            ruleset,
            assumptions=(*self._assumptions(), *assumed),
            scopes=(*self._scopes(), *inherited),
            statements=self._statements(),
            replaced=(*ruleset.replaced, *(f"table {old.name} by {self.syntax.name.text}" for old in self.replaced)),
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
                    self.names.tell(BASES_CLASH, self._place_of_base(path), first=where, second=path, name=name)

    def _place_of_base(self, path: str) -> Place:
        parts = [part for part in self.syntax.parts if isinstance(part, TextPart) and part.keyword == "builds on"]
        return next(part.place for part in parts if part.words[0].text == path)

    def _take_table(self, item: TableSyntax) -> None:
        key = fold(item.name.text)
        part = next((p for p in item.parts if isinstance(p, TextPart) and p.keyword in REPLACING), None)
        if part is not None:
            self._replace_table(item, part)
            return
        taken = key in self.names.tables or key in self._names_of_definitions()
        if taken or self.names.term(item.name.text) is not None:
            self.names.tell(TABLE_NAME_TAKEN, item.name.place, name=item.name.text)
            return
        table = resolve_table(self.names, item, self.syntax.name.text)
        if table is None:
            self.names.broken.add(key)
        else:
            self.names.tables[key] = table

    def _names_of_definitions(self) -> set[str]:
        own = {fold(item.name.text) for item in self.syntax.items if isinstance(item, DefinitionSyntax)}
        return own | {fold(name) for _, base in self.bases for name in base.definitions}

    def _replace_table(self, item: TableSyntax, part: TextPart) -> None:
        """Take a table, or cells of it, for that of a ruleset built on."""
        of, key = part.words[0], fold(item.name.text)
        base = next((base for path, base in self.bases if of.text in (path, base.name)), None)
        old = None if base is None else next((one for one in base.tables.values() if fold(one.name) == key), None)
        if base is None or old is None:
            known = [name for path, base in self.bases for name in (path, base.name)]
            self.names.tell(
                REPLACED_TABLE_NOT_FOUND, of.place, near=nearest(of.text, known), ruleset=of.text, table=item.name.text
            )
            return
        table: Table | str | None = resolve_table(self.names, item, self.syntax.name.text)
        if isinstance(table, Table) and part.keyword == "replaces cells of":
            table = with_cells(old, table)
        if isinstance(table, str):
            self.names.tell(REPLACED_HEADING_NOT_FOUND, item.name.place, table=old.name, ruleset=of.text, heading=table)
        elif table is not None and (table.kind != old.kind or cuts(base, old)):
            self.names.tell(TABLE_CANNOT_REPLACE, item.name.place, table=old.name, ruleset=of.text)
        elif table is not None:
            self.names.tables[key] = self.replaced[old] = table

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
                self.names.tell(CLAUSE_TWICE, item.name.place, clause=clause.name)
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
        bases = [called for path, base in self.bases for called in _names_of(path, base)]
        place = self._place_of_replaces(clause)
        if matches:
            self.names.tell(REPLACES_SEVERAL, place, clause=name, number=matches)
        elif of and of not in bases:
            self.names.tell(REPLACES_OF_NO_BASE, place, near=nearest(of, bases), ruleset=of)
        else:
            self.names.tell(REPLACES_NO_CLAUSE, place, near=nearest(name, known), clause=name)

    def _place_of_replaces(self, clause: Clause) -> Place:
        syntax = next(item for item in self.syntax.items if item.place == clause.place)
        assert isinstance(syntax, ClauseSyntax)
        return next(p.place for p in syntax.parts if isinstance(p, TextPart) and p.keyword == "replaces")

    def _matching(self, replaces: tuple[str, str], inherited: list[tuple[str, str]]) -> list[tuple[str, str]]:
        """Return the inherited clauses, by ruleset and name, that a `replaces` part can mean."""
        name, of = replaces
        rulesets = {base.name for path, base in self.bases if of in _names_of(path, base)}
        return [key for key in inherited if key[1] == name and (not of or key[0] in {of, *rulesets})]


def _names_of(path: str, base: Ruleset) -> tuple[str, ...]:
    """Return what a ruleset built on may be called: as `builds on` has it, by its file where an edition is named, or by
    its title.
    """
    return (path.replace(" ", "-"), path, base.name) if " " in path else (path, base.name)
