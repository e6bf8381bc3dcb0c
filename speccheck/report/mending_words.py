"""What would comply, in words: the changes of a proposal as a reviewer would write them, and why there is none."""

from __future__ import annotations

from speccheck.english import listed
from speccheck.language.vocabulary.terms import Form
from speccheck.language.vocabulary.values import NotGiven, Value, write_value
from speccheck.report.wording import clause_label
from speccheck.review.corrections import Clash, Mending, Proposal, ProposedChange
from speccheck.review.corrections.amounts import number_of

BROKEN_OFF = "the search was broken off, so that cheaper changes may have been missed"


def change_text(change: ProposedChange, system: str) -> str:
    """Return a change: "revise thickness from 1-1/2 in to 2 in or more", or what would comply where none is given."""
    allowed = allowed_text(change, system)
    if not change.is_given:
        assert isinstance(change.before, NotGiven)
        why = f" ({change.before.text})" if change.before.text else ""
        if change.lost_with_owner:
            return f"show {change.term.name} of the new {change.term.of}: {allowed} would comply"
        return f"state {change.term.name}, which is not given{why}: {allowed} would comply"
    before = write_value(change.before, change.term, system)
    if change.is_of_another_product:
        product = f"another {change.term.of or 'product'}"
        return f"propose {product} with {change.term.name} {_bound_text(change, system)} (submitted: {before})"
    if change.term.kind.form is Form.SET:
        return f"revise {change.term.name} from {before} to {_added_and_left(change) or allowed}"
    return f"revise {change.term.name} from {before} to {allowed}"


def _added_and_left(change: ProposedChange) -> str:
    """Return a set with what the present one lacks and has too much set apart."""
    before, after = change.before, change.after
    assert isinstance(after, frozenset), after
    if not isinstance(before, frozenset):
        return ""
    order = [choice.name for choice in change.term.choices]
    added = [name for name in order if name in after - before]
    left = [name for name in order if name in before - after]
    parts = [f"include {listed(added)}"] if added else []
    parts += [f"leave out {listed(left)}"] if left else []
    return f"{listed(name for name in order if name in after) or 'none'} ({' and '.join(parts)})"


def allowed_text(change: ProposedChange, system: str) -> str:
    """Return all that complies in the place of a term, the rest of the proposal being as it is: "2 in or more"."""
    good = (change.after, *change.also)
    if change.term.kind.ordered:
        return _range_text(change, system)
    if change.term.kind.form is Form.CHOICE:
        return listed((write_value(value, change.term, system) for value in good), "or")
    return write_value(change.after, change.term, system)


def _bound_text(change: ProposedChange, system: str) -> str:
    """Return what complies in the place of a property: "of at most 50"."""
    if not change.term.kind.ordered:
        return f"of {allowed_text(change, system)}"
    low, high = _ends(change, system)
    match low, high:
        case "", "":
            return f"of {write_value(change.after, change.term, system)}"
        case "", _:
            return f"of at most {high}"
        case _, "":
            return f"of at least {low}"
        case _:
            return f"of {low} to {high}"


def _range_text(change: ProposedChange, system: str) -> str:
    """Return the run of tried amounts around the proposed one that all comply."""
    low, high = _ends(change, system)
    match low, high:
        case "", "":
            return write_value(change.after, change.term, system)
        case "", _:
            return f"{high} or less"
        case _, "":
            return f"{low} or more"
        case _:
            return f"{low} to {high}"


def _ends(change: ProposedChange, system: str) -> tuple[str, str]:
    """Return the ends of the run of tried amounts around the proposed one that all comply.

    "" for an end up to which everything that was tried complies; both are where the proposed amount alone does.
    """
    good = (change.after, *change.also)
    present = [] if isinstance(change.before, NotGiven) else [change.before]
    tried: list[Value] = sorted({*change.tried, *present}, key=lambda value: number_of(value) or 0.0)
    position = tried.index(change.after)
    first = last = position
    while first > 0 and tried[first - 1] in good:
        first -= 1
    while last + 1 < len(tried) and tried[last + 1] in good:
        last += 1
    low, high = (write_value(tried[end], change.term, system) for end in (first, last))
    if last + 1 == len(tried) and first > 0:
        return low, ""
    if first == 0 and last + 1 < len(tried):
        return "", high
    if first == last or (first == 0 and last + 1 == len(tried)):
        return "", ""
    return low, high


def proposal_texts(proposal: Proposal, system: str) -> tuple[str, ...]:
    """Return the changes of a proposal, then what it leaves open and which advice it does not follow."""
    texts = [change_text(change, system) for change in proposal.changes]
    if proposal.undecided:
        labels = listed(clause_label(clause) for clause in proposal.undecided)
        without = f" without {listed(proposal.waits_for)}" if proposal.waits_for else ""
        texts.append(f"whether it then complies with {labels} cannot be determined{without}")
    if proposal.against_advice:
        labels = listed(clause_label(clause) for clause in proposal.against_advice)
        texts.append(f"goes against the advice of {labels}")
    return tuple(texts)


def clash_text(clash: Clash) -> str:
    """Return why nothing that may be changed makes a line comply."""
    labels = listed(clause_label(clause) for clause in clash.clauses)
    if not clash.terms:
        return f"nothing that may be changed bears on clause {labels}"
    terms = listed((term.name for term in clash.terms), "or")
    if len(clash.clauses) == 1:
        return f"no change of {terms} complies with clause {labels}"
    return f"no change of {terms} complies with clauses {labels} together"


def none_text(mending: Mending) -> str:
    """Return why a line has no proposal."""
    return BROKEN_OFF if mending.clash is None else clash_text(mending.clash)
