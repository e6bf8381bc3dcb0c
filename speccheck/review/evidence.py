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
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.vocabulary.choices import not_given
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import NotGiven
from speccheck.quantities import Day
from speccheck.review.line_wording import LineWording, named
from speccheck.review.matrix import Matrix
from speccheck.review.messages.evidence import (
    DATA_DIFFER,
    DATA_DIFFER_AND_FAIL,
    DATE_AFTER_REVIEW,
    LINES_NAME_NO_PRODUCT,
    NEAR_PRODUCT,
    NO_DATE,
    NO_PRODUCT_DATA,
    NOT_SHOWN_BY_DATA,
    PRODUCT_DATA_DISAGREE,
    ROW_NAMES_NO_PRODUCT,
    SHOWN_AT_NONE,
    SHOWN_AT_OTHER,
    SHOWN_ON_PAGE,
    STATED_BY_PRODUCT_DATA,
    STATED_WITHOUT_DATE,
)
from speccheck.review.observations import Observation, observed
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
            yield observed(ROW_NAMES_NO_PRODUCT.at(nameless.place, row=nameless.name))
        for product in self.data.products:
            yield from self._about_product(product)
        yield from self._without_product()
        yield from self._about_lines()
        yield from self._about_missing()

    # ---- the data themselves -------------------------------------------------------------------------------------

    def _about_product(self, product: Product) -> Iterator[Observation]:
        for term, first, second in product.disagreements(self.wording.vocabulary, self.rules):
            said = " and ".join(self.wording.datum(datum, term) for datum in (first, second))
            yield observed(PRODUCT_DATA_DISAGREE.at(second.place, product=product.name, term=term, values=said))
        for date in self.wording.vocabulary.terms.values():
            yield from self._about_report(product, date.name, date.dates)

    def _about_report(self, product: Product, date: str, dated: Iterable[str]) -> Iterator[Observation]:
        stated = [term for term in dated if product.shown(term)]
        if not stated:
            return
        written = [row.data[date] for row in product.rows if date in row.data]
        shown = [datum for datum in written if not_given(datum.text) is None]
        if not shown:
            yield observed(
                STATED_WITHOUT_DATE.at(
                    product.rows[0].place, product=product.name, properties=listed(stated), date=date
                )
            )
        for datum in shown:
            told = self._date_problem(datum, date, product)
            if told is not None:
                yield observed(told)

    def _date_problem(self, datum: Datum, date: str, product: Product) -> Diagnostic | None:
        facts = {"date": date, "product": product.name, "stated": datum.text}
        if not isinstance(datum.value, Day):
            return NO_DATE.at(datum.place, **facts)
        late = self.on is not None and datum.value.date > self.on
        return DATE_AFTER_REVIEW.at(datum.place, day=str(self.on), **facts) if late else None

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
            names = [line.name for line in lines]
            facts = {"product": name, "lines": named(names), "name": agree(len(lines), "names", "name")}
            place = lines[0].place
            said = NEAR_PRODUCT.at(place, known=near, **facts) if near else NO_PRODUCT_DATA.at(place, **facts)
            yield observed(said, names)
        if nameless:
            names = [line.name for line in nameless]
            yield observed(
                LINES_NAME_NO_PRODUCT.at(
                    nameless[0].place, lines=named(names), agree=agree(len(names), "names", "name")
                ),
                names,
            )

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
        return observed(
            SHOWN_ON_PAGE.at(claim.stated.place, lines_state=_lines_state(lines), value=words, page=claim.page),
            [line.name for line in lines],
        )

    def _not_shown(self, lines: Sequence[Line], claim: _Claim) -> Observation:
        """Return that product data do not show what lines state, or show it at other conditions only."""
        product, term, at = claim.product, claim.term.name, claim.term.stated_at
        facts = {"lines_state": _lines_state(lines), "product": product.name, "term": term}
        facts["value"] = self.wording.datum(claim.stated, term)
        place, names = claim.stated.place, [line.name for line in lines]
        if not product.shown(term):
            return observed(NOT_SHOWN_BY_DATA.at(place, **facts), names)
        condition = at.removeprefix(f"{term} ")
        facts |= {"condition": condition, "at": self.wording.datum(claim.at, at)}
        found = listed(self.wording.datum(one, at) for one in product.shown(at))
        said = SHOWN_AT_OTHER.at(place, found=found, **facts) if found else SHOWN_AT_NONE.at(place, **facts)
        return observed(said, names)

    def _differs(self, lines: Sequence[Line], claim: _Claim) -> Observation:
        """Return that product data show another value, with the clauses that would not be met by it."""
        product, term = claim.product, claim.term.name
        stated, found = (self.wording.datum(datum, term) for datum in (claim.stated, claim.shown[0]))
        page = _on_data_sheet(claim.shown[0])
        facts = {"lines_state": _lines_state(lines), "term": term, "stated": stated, "product": product.name}
        facts |= {"found": found, "page": f" ({page})" if page else ""}
        worse = dict.fromkeys(label for line in lines for label in self._not_met_by(line, {term: claim.shown[0]}))
        names, place = [line.name for line in lines], claim.stated.place
        if not worse:
            return observed(DATA_DIFFER.at(place, **facts), names, worse)
        verb = agree(len(worse), "is", "are")
        return observed(DATA_DIFFER_AND_FAIL.at(place, clauses=named(worse), verb=verb, **facts), names, worse)

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
        stated = line.data.get(term)
        place = stated.place if stated is not None else line.place
        yield observed(
            STATED_BY_PRODUCT_DATA.at(
                place,
                line=line.name,
                term=term,
                product=product.name,
                value=found,
                clauses=named(waiting),
                agree=agree(len(waiting), "waits", "wait"),
            ),
            [line.name],
            waiting,
        )


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
