"""Lines of a schedule from the texts of their cells, for tests that judge them."""

from __future__ import annotations

from collections.abc import Mapping

from speccheck.language.core import Ruleset
from speccheck.language.core.review_days import DAY_OF_REVIEW
from speccheck.language.vocabulary.values import BareUnits, read_value
from speccheck.quantities import Misread
from speccheck.schedule.lines import Datum, Line


def stated_line(texts: Mapping[str, str], ruleset: Ruleset) -> Line:
    """Return the line that cells make, by the names of their terms, read as those of a schedule are."""
    data = {}
    for name, text in texts.items():
        term = DAY_OF_REVIEW if name == DAY_OF_REVIEW.name else ruleset.vocabulary.terms[name]
        value = read_value(text, term, BareUnits(system=ruleset.units))
        assert not isinstance(value, Misread), value
        data[name] = Datum(value, text)
    return Line("1", data)
