"""The schedule checked against product data: what is shown, what differs, and what nothing shows.

In: a matrix, whose lines point to products by name, and product data read by the same reader. Out: observations.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from speccheck.english import agree, listed, nearest
from speccheck.judge import Judge
from speccheck.judge.judgement import Verdict
from speccheck.judge.operations import Rules
from speccheck.language.vocabulary.choices import not_given
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import NotGiven
from speccheck.quantities import Day
from speccheck.review import codes
from speccheck.review.line_wording import LineWording, named
from speccheck.review.matrix import Matrix
from speccheck.review.observations import Observation, note, warning
from speccheck.review.products import (
    FROM_PRODUCT_DATA,
    Product,
    ProductData,
    lies_in,
    product_data,
    product_name,
    properties,
    same,
)
from speccheck.schedule.data_sheets.reading import READ_ON_DATA_SHEET
from speccheck.schedule.lines import Datum, Line, Schedule


def check_against_products(matrix: Matrix, sheet: Schedule, on: datetime.date | None = None) -> tuple[Observation, ...]:
    """Return what product data have to say of the lines, and what is wrong with the data themselves.

    `on` is the day of the review, after which no report can be dated; None where it is not stated.
    """
    return tuple(_Evidence(matrix, product_data(sheet), on).observations())


@dataclass
class _Evidence:
    """The work of holding one set of product data against one matrix."""

    matrix: Matrix
    data: ProductData
    on: datetime.date | None
    judge: Judge = field(init=False)
    wording: LineWording = field(init=False)
    rules: Rules = field(init=False)
    _properties: tuple[Term, ...] = field(init=False)
    _conditions: frozenset[str] = field(init=False)

    def __post_init__(self) -> None:
        ruleset = self.matrix.ruleset
        self.judge = Judge(ruleset)
        self.wording = LineWording.of(ruleset)
        self.rules = self.judge.rules
        self._properties = properties(ruleset.vocabulary)
        self._conditions = frozenset(term.stated_at for term in self._properties)

    def observations(self) -> Iterator[Observation]:
        """Yield all observations: on the data themselves, then on the lines."""
        for nameless in self.data.nameless:
            message = f"row `{nameless.name}` of the product data names no product"
            yield warning(codes.PRODUCT_NAMELESS, message, nameless.place, "name the product that it is about")
        for product in self.data.products:
            yield from self._about_product(product)
        yield from self._without_product()
        yield from self._about_lines()
        yield from self._about_missing()

    # ---- the data themselves -------------------------------------------------------------------------------------

    def _about_product(self, product: Product) -> Iterator[Observation]:
        for term, first, second in product.disagreements(self.wording.vocabulary, self.rules):
            said = " and ".join(self.wording.datum(datum, term) for datum in (first, second))
            message = f"the product data of `{product.name}` disagree: {term} {said}"
            yield warning(codes.PRODUCTS_DISAGREE, message, second.place, "ask which of the two holds")
        for date in self.wording.vocabulary.terms.values():
            yield from self._about_report(product, date.name, date.dates)

    def _about_report(self, product: Product, date: str, dated: Iterable[str]) -> Iterator[Observation]:
        stated = [term for term in dated if product.shown(term)]
        if not stated:
            return
        written = [row.data[date] for row in product.rows if date in row.data]
        shown = [datum for datum in written if not_given(datum.text) is None]
        if not shown:
            message = f"the product data of `{product.name}` state {listed(stated)} and no {date}"
            yield warning(codes.NO_REPORT_DATE, message, product.rows[0].place, "ask for the report")
        for datum in shown:
            problem = self._date_problem(datum)
            if problem:
                message = f"the {date} of `{product.name}`, `{datum.text}`, {problem}"
                yield warning(codes.REPORT_DATE, message, datum.place, "ask for the report")

    def _date_problem(self, datum: Datum) -> str:
        if not isinstance(datum.value, Day):
            return "is no date written as 2024-05-17"
        late = self.on is not None and datum.value.date > self.on
        return f"lies after the day of the review, {self.on}" if late else ""

    # ---- lines and their products --------------------------------------------------------------------------------

    def _without_product(self) -> Iterator[Observation]:
        """Yield the lines with insulation whose product is not named or not among the data, alike ones together."""
        nameless, unknown = [], dict[str, list[Line]]()
        for line in self.matrix.schedule.lines:
            name = product_name(line)
            if name and self.data.find(name) is None:
                unknown.setdefault(name, []).append(line)
            elif not name and _has_insulation(line):
                nameless.append(line)
        for name, lines in unknown.items():
            near = nearest(name, [product.name for product in self.data.products])
            help = f"did they mean `{near}`?" if near else "ask for its product data"
            names = [line.name for line in lines]
            message = f"there are no product data for `{name}`, which {named(names)} "
            message += agree(len(lines), "names", "name")
            yield warning(codes.PRODUCT_UNKNOWN, message, lines[0].place, help, names)
        if nameless:
            names = [line.name for line in nameless]
            message = f"{named(names)} {agree(len(names), 'names', 'name')} no product"
            help = "ask which product is proposed, so that its data can be checked against the schedule"
            yield warning(codes.NO_PRODUCT, message, nameless[0].place, help, names)

    def _about_lines(self) -> Iterator[Observation]:
        """Yield what differs between lines and their products and what is not shown, lines alike in that together."""
        found: dict[tuple[str, ...], list[tuple[Line, _Claim]]] = {}
        for line in self.matrix.schedule.lines:
            for claim in self._claims(line):
                if not claim.borne_out or claim.page:
                    found.setdefault(self._alike(claim), []).append((line, claim))
        for several in found.values():
            lines, claims = zip(*several, strict=True)
            tell = self._shown if claims[0].borne_out else self._differs if claims[0].shown else self._not_shown
            yield tell(lines, claims[0])

    def _claims(self, line: Line) -> Iterator[_Claim]:
        """Yield the properties that a line states of its product, each with what product data show of it."""
        product = self.data.find(product_name(line))
        for term in self._properties if product is not None else ():
            stated = line.data.get(term.name)
            if product is None or term.name in self._conditions or stated is None or isinstance(stated.value, NotGiven):
                continue
            if stated.note.startswith(FROM_PRODUCT_DATA):
                continue
            at = line.data.get(term.stated_at)
            shown = product.shown_at(term, at, self.rules)
            agreeing = [datum for datum in shown if self._agree(stated, datum, term)]
            page = next((words for datum in agreeing if (words := _on_data_sheet(datum))), "")
            yield _Claim(product, term, stated, at, shown, bool(agreeing), page)

    def _alike(self, claim: _Claim) -> tuple[str, ...]:
        """Return what two claims have in common that are told together: product, property and value."""
        name = claim.term.name
        data = (claim.stated, claim.at, *claim.shown)
        return (claim.product.name, name, *(self.wording.datum(datum, name) for datum in data))

    def _agree(self, stated: Datum, shown: Datum, term: Term) -> bool:
        if isinstance(stated.value, NotGiven) or isinstance(shown.value, NotGiven):
            return False
        return same(stated.value, shown.value, term, self.rules) or lies_in(stated.value, shown.value)

    def _shown(self, lines: Sequence[Line], claim: _Claim) -> Observation:
        """Return that a data sheet shows what lines state, and on which page."""
        words = f"{claim.term.name} {self.wording.datum(claim.stated, claim.term.name)}"
        message = f"{_lines_state(lines)} {words}, shown {claim.page}"
        return note(codes.PRODUCT_SHOWN, message, claim.stated.place, "", [line.name for line in lines])

    def _not_shown(self, lines: Sequence[Line], claim: _Claim) -> Observation:
        """Return that product data do not show what lines state, or show it at other conditions only."""
        product, term, at = claim.product, claim.term.name, claim.term.stated_at
        words = f"{term} {self.wording.datum(claim.stated, term)}"
        help = f"ask for evidence of `{term}`"
        if product.shown(term):
            condition = at.removeprefix(f"{term} ")
            words += f" at a {condition} of {self.wording.datum(claim.at, at)}"
            found = listed(self.wording.datum(one, at) for one in product.shown(at))
            help = f"the data have it at {found or f'no stated {condition}'}"
        message = f"{_lines_state(lines)} {words}, which the product data of `{product.name}` do not show"
        return warning(codes.NOT_SHOWN, message, claim.stated.place, help, [line.name for line in lines])

    def _differs(self, lines: Sequence[Line], claim: _Claim) -> Observation:
        """Return that product data show another value, with the clauses that would not be met by it."""
        product, term = claim.product, claim.term.name
        stated, found = (self.wording.datum(datum, term) for datum in (claim.stated, claim.shown[0]))
        message = f"{_lines_state(lines)} {term} {stated}, and the product data of `{product.name}` {found}"
        page = _on_data_sheet(claim.shown[0])
        message += f" ({page})" if page else ""
        worse = dict.fromkeys(label for line in lines for label in self._not_met_by(line, {term: claim.shown[0]}))
        if worse:
            message += f"; by the product data {named(worse)} {agree(len(worse), 'is', 'are')} not met"
        names = [line.name for line in lines]
        return warning(codes.PRODUCT_DIFFERS, message, claim.stated.place, "ask which of the two holds", names, worse)

    def _not_met_by(self, line: Line, shown: dict[str, Datum]) -> Iterator[str]:
        """Yield the labels of the clauses that a line meets as it stands, and not by what product data show."""
        before = self.judge.row(line)
        after = self.judge.row(replace(line, data={**line.data, **shown}))
        for clause, was, now in zip(self.matrix.ruleset.clauses, before, after, strict=True):
            if now.verdict is Verdict.FAILS and was.verdict is not Verdict.FAILS and was.mandatory:
                yield clause.label

    # ---- what would be settled -----------------------------------------------------------------------------------

    def _about_missing(self) -> Iterator[Observation]:
        """Yield what product data say of properties that clauses wait for."""
        for row, line in enumerate(self.matrix.schedule.lines):
            product = self.data.find(product_name(line))
            for term in self._properties if product is not None else ():
                if product is not None and self._waiting(row, term.name):
                    shown = product.shown_at(term, line.data.get(term.stated_at), self.rules)
                    yield from self._settled(row, line, product, term.name, shown)

    def _waiting(self, row: int, term: str) -> list[str]:
        """Return the labels of the clauses that cannot be judged on a line without a term."""
        pairs = zip(self.matrix.ruleset.clauses, self.matrix.told[row], strict=True)
        return [
            clause.label
            for clause, cell in pairs
            if cell.mandatory and cell.verdict is Verdict.CANNOT_TELL and term in cell.missing
        ]

    def _settled(
        self, row: int, line: Line, product: Product, term: str, shown: tuple[Datum, ...]
    ) -> Iterator[Observation]:
        if not shown:
            return
        waiting = self._waiting(row, term)
        found = self.wording.datum(shown[0], term)
        message = f"line `{line.name}` does not state {term}; the product data of `{product.name}` say {found}"
        help = f"ask for it to be stated on the schedule; {named(waiting)} {agree(len(waiting), 'waits', 'wait')}"
        stated = line.data.get(term)
        place = stated.place if stated is not None else line.place
        yield note(codes.PRODUCT_SETTLES, message, place, help, [line.name], waiting)


@dataclass(frozen=True)
class _Claim:
    """A property that a line states of its product, what product data show of it, and whether they bear it out.

    `at` is the condition at which the line states it, where there is one; `page` the page of a data sheet that bears
    it out, in words, "" where none does.
    """

    product: Product
    term: Term
    stated: Datum
    at: Datum | None
    shown: tuple[Datum, ...]
    borne_out: bool
    page: str = ""


def _on_data_sheet(datum: Datum) -> str:
    """Return where on a data sheet a datum stands, as "on page 2 of foam.pdf"; "" where it is from a table."""
    if datum.note != READ_ON_DATA_SHEET:
        return ""
    page = re.match(r"(?:page \d+|table \d+)", datum.place.sheet)
    where = f"{'on' if page[0].startswith('page') else 'in'} {page[0]}" if page else "in the text"
    return f"{where} of {datum.place.file}"


def _lines_state(lines: Sequence[Line]) -> str:
    names = named(line.name for line in lines)
    return agree(len(lines), f"line {names} states", f"lines {names} state")


def _has_insulation(line: Line) -> bool:
    datum = line.data.get("insulation")
    return datum is not None and not isinstance(datum.value, NotGiven) and datum.value != "none"
