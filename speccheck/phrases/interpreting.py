"""What the tree of a phrase says: one function for each rule of `grammar/phrases.lark`.

Facts are noted from left to right, so that an amount knows which terms have a value already. What a whole cell says of
its parts, such as that a remark answers a question, `weighing` settles afterwards.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import Value
from speccheck.phrases.facts import Fact, OpenWords
from speccheck.phrases.lexicon import Meaning
from speccheck.phrases.owners import AmountStanding, amount_of
from speccheck.phrases.parsing import Node
from speccheck.phrases.sharing import shared_head, shared_tail
from speccheck.phrases.terminals import Source, Terminal, meaning_of
from speccheck.phrases.words import JOINING, Word

_ALONE = AmountStanding()
_SHARE_WORDS = (["AND"], ["SLASH"])


@dataclass
class Said:
    """What was read of a text so far: facts, questions, the words left over, and where brackets are."""

    source: Source
    facts: list[Fact] = field(default_factory=list)
    questions: list[OpenWords] = field(default_factory=list)
    left: list[Word] = field(default_factory=list)
    remarks: list[tuple[int, int]] = field(default_factory=list)
    alternatives: bool = False
    _shared: dict[int, tuple[Meaning, ...]] = field(default_factory=dict)

    def in_remark(self, place: int) -> bool:
        """Whether a place of the text is within brackets."""
        return any(start <= place < end for start, end in self.remarks)

    def leave(self, start: int, end: int) -> None:
        """Leave over the words between two places of the text."""
        words = {word for word in self.source.words if start <= word.start < end}
        self.left = sorted({*self.left, *words}, key=lambda word: word.start)

    def cell(self, cell: Node, first: AmountStanding = _ALONE) -> None:
        """Read chains of words with links between them; `first` says how an amount at the beginning stands."""
        link: list[str] = []
        for at, part in enumerate(cell.nodes):
            if part.rule == "link":
                link = [terminal.type for terminal in part.terminals]
                self.alternatives |= "OR" in link
                continue
            if at > 1 and link in _SHARE_WORDS:
                self._share(part.first, shared_head(self.source, part.first, self.facts))
            self._share_with_the_next(cell.nodes[at : at + 3])
            self.chain(part, AmountStanding(measured_at=True) if link[-1:] == ["SLASH"] else first)
            first = _ALONE

    def _share_with_the_next(self, parts: tuple[Node, ...]) -> None:
        """Give the last word of a chain the words that it shares with the chain behind the link."""
        if len(parts) == 3 and [terminal.type for terminal in parts[1].terminals] in _SHARE_WORDS:
            self._share(parts[0].last, shared_tail(self.source, parts[0].last, parts[2].first))

    def _share(self, terminal: Terminal, meanings: tuple[Meaning, ...]) -> None:
        if meanings:
            self._shared[terminal.first] = meanings

    def chain(self, chain: Node, first: AmountStanding) -> None:
        """Read what stands side by side."""
        for element in chain.nodes:
            getattr(self, element.rule)(element, first)
            first = _ALONE

    def measured(self, measured: Node, standing: AmountStanding) -> None:
        """Read an amount right before the value that it is of."""
        (amount, *_thick), (described,) = measured.terminals, measured.nodes
        self._amount(amount, standing._replace(beside=_term(described)))
        self.described(described, _ALONE)

    def described(self, described: Node, _: AmountStanding) -> None:
        """Read a value with the amount, what it was measured at, or the remark, behind it."""
        beside = _term(described)
        for part in described.nodes:
            getattr(self, part.rule)(part, AmountStanding(beside=beside, measured_at=True))
        for amount in described.terminals:
            self._amount(amount, AmountStanding(beside=beside))

    def thing(self, thing: Node, _: AmountStanding) -> None:
        """Note what words name: a fact, or a question where they stand for several values.

        A place is left over that may be what a system serves, and not where it runs: the garage of "garage exhaust".
        """
        (terminal,) = thing.terminals
        if self._is_shared(terminal):
            return
        if terminal.type == "PLACE":
            self.leave(*self._ends(terminal))
        else:
            self._take(terminal.meanings, terminal)

    def within(self, within: Node, _: AmountStanding) -> None:
        """Note a place that a system runs in."""
        where, *_article, place = within.terminals
        if self.source.words[where.first].folded not in JOINING:
            self.leave(*self._ends(where))
        self._take(place.meanings, place)

    def named(self, named: Node, _: AmountStanding) -> None:
        """Read an amount behind the name of its term."""
        (name,), (quantity,) = named.terminals, named.nodes
        if not self.quantity(quantity, AmountStanding(named=name.named)):
            self.leave(*self._ends(name))

    def quantity(self, quantity: Node, standing: AmountStanding) -> bool:
        """Read an amount and what it was measured at; say whether it is a value of any term."""
        understood = self._amount(quantity.terminals[0], standing)
        for part in quantity.nodes:
            getattr(self, part.rule)(part, AmountStanding(measured_at=True))
        return understood

    def condition(self, condition: Node, standing: AmountStanding) -> None:
        """Read an amount at which what stands before it was measured."""
        standing = standing._replace(measured_at=True)
        for amount in condition.terminals[1:]:
            self._amount(amount, standing)
        for measured in condition.nodes:
            self.measured(measured, standing)

    def layers(self, layers: Node, _: AmountStanding) -> None:
        """Note a thickness in layers."""
        (terminal,) = layers.terminals
        if terminal.layers is not None:
            start = self._ends(terminal)[0]
            end = start + terminal.layers.length
            self.facts += [Fact(term, value, start, end) for term, value in terminal.layers.values]

    def remark(self, remark: Node, first: AmountStanding) -> None:
        """Read what stands in brackets."""
        opening, closing = remark.terminals
        self.remarks.append((self._ends(opening)[0], self.source.words[closing.end - 1].end))
        self.cell(remark.nodes[0], first._replace(measured_at=True))

    def standard(self, _node: Node, _: AmountStanding) -> None:
        """Pass over a standard: it says how something is made."""

    def filler(self, filler: Node, _: AmountStanding) -> None:
        """Pass over a word that joins others, unless it shares words with its neighbor."""
        self._is_shared(filler.terminals[0])

    def unknown(self, unknown: Node, _: AmountStanding) -> None:
        """Leave over a word that nobody knows, unless it shares words with its neighbor."""
        (terminal,) = unknown.terminals
        if not self._is_shared(terminal):
            self.leave(*self._ends(terminal))

    def _is_shared(self, terminal: Terminal) -> bool:
        """Note what words name together with those of their neighbor, if they do."""
        meanings = self._shared.get(terminal.first)
        if meanings:
            self._take(meanings, terminal)
        return bool(meanings)

    def _amount(self, terminal: Terminal, standing: AmountStanding) -> bool:
        """Note the term that an amount is a value of; where there is none its words are left over."""
        source, stated = self.source, {fact.term.name for fact in self.facts}
        written = terminal.amount
        found = amount_of(written, standing, source.lexicon, source.bare, stated) if written is not None else None
        if found is None:
            self.leave(*self._ends(terminal))
        else:
            self.facts.append(Fact(found.term, found.value, *self._ends(terminal)))
        return found is not None

    def _take(self, meanings: tuple[Meaning, ...], terminal: Terminal) -> None:
        meaning = meaning_of(meanings, self.source.lexicon)
        start, end = self._ends(terminal)
        if len(meaning.values) > 1:
            self.questions.append(OpenWords(meaning.term, meaning.values, start, end))
        else:
            self.facts.append(Fact(meaning.term, value_of(meaning), start, end))

    def _ends(self, terminal: Terminal) -> tuple[int, int]:
        return self.source.words[terminal.first].start, self.source.words[terminal.end - 1].end


def _term(described: Node) -> Term:
    """Return the term of the value that is described."""
    return described.first.meanings[0].term


def value_of(meaning: Meaning) -> Value:
    """Return the one value that words name, in the form of its term."""
    (name,) = meaning.values
    match meaning.term.kind.form:
        case Form.SET:
            return frozenset({name})
        case Form.YES_NO:
            return name == "yes"
        case _:
            return name
