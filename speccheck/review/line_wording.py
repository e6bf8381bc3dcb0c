"""What observations say of systems, sizes and values, in the trade's words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

from speccheck.english import first_of, listed
from speccheck.language.core import Ruleset
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.language.vocabulary.values import NotGiven, Value, write_value
from speccheck.quantities import NOMINAL_SIZES, Interval, NominalSize, Quantity
from speccheck.quantities.sizes import System
from speccheck.review.coverage import Gap
from speccheck.review.intervals import EVERYTHING, NumberSpan, span_text
from speccheck.review.system_extent import Extent, SystemTerms
from speccheck.schedule.lines import Datum, Line

MOST_NAMED = 8
# What a person names first of a system.
SERVICE = "service"


def named(names: Iterable[str]) -> str:
    """Return names of lines, products or clauses as they are quoted in a message; of many, the first and how many."""
    several = [f"`{name}`" for name in names]
    return first_of(several, MOST_NAMED)


@dataclass(frozen=True)
class LineWording:
    """Words for values in the terms of a vocabulary, nominal sizes in one system of units."""

    vocabulary: Vocabulary
    system: System

    @cached_property
    def terms(self) -> SystemTerms:
        """The terms that tell systems apart."""
        return SystemTerms.of(self.vocabulary)

    @classmethod
    def of(cls, ruleset: Ruleset) -> LineWording:
        """Return the wording for reports by a ruleset."""
        return cls(ruleset.vocabulary, "metric" if ruleset.units == "metric" else "inch-pound")

    def value(self, value: Value | NotGiven, term: str) -> str:
        """Return a value as a person would write it; what is not given is said so, with the words in its place."""
        if isinstance(value, NotGiven):
            return f"not given (`{value.text}`)" if value.text else "not given"
        if term not in self.vocabulary.terms:
            return str(value)
        return write_value(value, self.vocabulary.terms[term], self.system)

    def datum(self, datum: Datum | None, term: str) -> str:
        """Return what a line says about a term, None being no word about it."""
        return "not given" if datum is None else self.value(datum.value, term)

    def system_of(self, line: Line) -> str:
        """Return the system that a line stands for: "chilled water, pipe, outdoor, 2 in through 4 in, 44 F"."""
        order = dict.fromkeys((SERVICE, *self.terms.names))
        stated = [(name, line.data[name].value) for name in order if name in line.data]
        return ", ".join(self._part(name, value) for name, value in stated if not isinstance(value, NotGiven))

    def _part(self, name: str, value: Value) -> str:
        if isinstance(value, bool):
            return name if value else f"not {name}"
        return self.value(value, name)

    def sizes(self, sizes: Sequence[NominalSize]) -> str:
        """Return nominal sizes; three or more that follow one another are a range: "2 in through 4 in and 6 in"."""
        runs: list[list[NominalSize]] = []
        for size in sizes:
            if runs and not any(runs[-1][-1] < between < size for between in NOMINAL_SIZES):
                runs[-1].append(size)
            else:
                runs.append([size])
        return listed(part for run in runs for part in self._run(run))

    def _run(self, run: Sequence[NominalSize]) -> list[str]:
        texts = [size.written(self.system) for size in run]
        return [f"{texts[0]} through {texts[-1]}"] if len(texts) > 2 else texts

    def gaps(self, gaps: Sequence[Gap], design: Extent) -> str:
        """Return gaps: sizes that lack the same temperatures together, "3 in and 4 in at 40 F to under 42 F"."""
        together: dict[tuple[NumberSpan, ...], list[NominalSize]] = {}
        for gap in gaps:
            together.setdefault(gap.spans, []).extend([gap.size] if gap.size is not None else [])
        return "; ".join(self._gap(sizes, spans, design) for spans, sizes in together.items())

    def _gap(self, sizes: Sequence[NominalSize], spans: Sequence[NumberSpan], design: Extent) -> str:
        whole = design.span or EVERYTHING
        at = "" if tuple(spans) == (whole,) else " or ".join(_temperatures(span, design) for span in spans)
        return " at ".join(filter(None, (self.sizes(sizes) if sizes else "", at)))


def _temperatures(span: NumberSpan, design: Extent) -> str:
    """Return temperatures in the unit of the line that they come from."""
    value = design.line.data[design.terms.temperature].value
    ends = (value.low, value.high) if isinstance(value, Interval) else (value,)
    unit = next(end.unit for end in ends if isinstance(end, Quantity))
    return span_text(span, unit, "temperature")
