"""What two lines for one system state differently."""

from __future__ import annotations

from collections.abc import Iterator

from speccheck.engine.comparing import Rules
from speccheck.language.kinds import Form
from speccheck.language.values import NotGiven
from speccheck.review.line_wording import Wording
from speccheck.review.same_values import same
from speccheck.submittal.lines import Line


def disagreeing(one: Line, other: Line, wording: Wording, rules: Rules) -> Iterator[str]:
    """Yield the terms that both lines state and that differ, in the order of the vocabulary.

    What tells systems apart is left out, and so are words, and names and remarks, which are never compared.
    """
    for name, term in wording.vocabulary.terms.items():
        first, second = one.data.get(name), other.data.get(name)
        if first is None or second is None or term.kind.form is Form.TEXT or not wording.terms.is_compared(name):
            continue
        if isinstance(first.value, NotGiven) or isinstance(second.value, NotGiven):
            continue
        if not same(first.value, second.value, term, rules):
            yield name
