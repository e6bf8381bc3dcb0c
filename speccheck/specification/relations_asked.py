"""Paragraphs that hold lines against one another: "Cover valves with the same jacket as the adjoining pipe."

A handful of forms in which sections say it, each to the end of its sentence. Which lines belong together is said by the
terms of `alike in`: a valve and its adjoining pipe by service and size, lines of one room by their room.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from speccheck.language.vocabulary.terms import Form, Vocabulary
from speccheck.phrases.worded_amounts import amounts_in
from speccheck.specification.conditions import conditions_in


@dataclass(frozen=True, slots=True)
class RelationAsked:
    """What a paragraph asks of lines together: the lines of each `relation`, and what was not understood."""

    relations: tuple[tuple[str, ...], ...]
    doubts: tuple[str, ...] = ()


_BESIDE = (
    r"(?:(?:the|their|its)\s+)?(?:adjoining|adjacent|connected|connecting|associated)\s+"
    r"(?P<run>piping|pipes?|duct(?:s|work)?)"
)
_THAT_OF = r"(?:(?:that|those)\s+(?:of|on)\s+|on\s+|of\s+|for\s+|used\s+on\s+|specified\s+for\s+)?"
_COVER = r"(?:insulate|cover|finish|jacket|wrap|provide|furnish)"
_ONE = r"(?:one|each|every|any|any\s+one|a|the\s+same)"
_FORMS = (
    rf"{_COVER}\s+(?P<parts>.+?)\s+(?:with|by|to|at|in)\s+the\s+same\s+(?P<same>.+?)\s+as\s+{_THAT_OF}{_BESIDE}",
    rf"{_COVER}\s+(?P<parts>.+?)\s+(?:with|by|to|at|in)\s+the\s+(?P<same>.+?)\s+(?:of|on|used\s+on|specified\s+for)\s+{_BESIDE}",
    rf"(?P<parts>.+?)\s+(?:shall|must)\s+(?:have|receive|be\s+(?:insulated|covered|finished)\s+(?:with|to|in))\s+the\s+same"
    rf"\s+(?P<same>.+?)\s+as\s+{_THAT_OF}{_BESIDE}",
    rf"(?P<same>.+?)\s+(?:of|on|for|at)\s+(?P<parts>.+?)\s+(?:shall|must)\s+(?:match|equal|be\s+(?:the\s+same\s+as|equal\s+to))"
    rf"\s+{_THAT_OF}{_BESIDE}",
    rf"{_COVER}\s+(?P<parts>.+?)\s+(?:as|like|to\s+match|the\s+same\s+as)\s+{_THAT_OF}{_BESIDE}",
    rf"(?P<flow>supply\s+and\s+return)\s+(?P<lines>.*?)(?:\s*\bof\s+{_ONE}\s+system)?\s+(?:shall|must)\s+have\s+the\s+same"
    r"\s+(?P<same>.+)",
    r"(?:use|provide|install)\s+the\s+same\s+(?P<same>.+?)\s+(?:for|on)\s+(?P<flow>supply\s+and\s+return)\s+(?P<lines>.+)",
    rf"(?:(?:use|provide|install)\s+(?:the\s+same|one)\s+(?P<same>.+?)|all\s+(?P<lines>.+?)\s+(?P<in>in\s+{_ONE}\s+)"
    rf"(?P<room_before>(?:[\w-]+\s+)?rooms?)\s+(?:shall|must)\s+have\s+the\s+same\s+(?P<same_behind>.+?))"
    rf"(?:\s+(?:throughout|within|in)\s+{_ONE}\s+(?P<room>(?:[\w-]+\s+)?rooms?))?",
    rf"(?:schedule|list|show)\s+(?:each|every|all)\s+(?P<scheduled>.+?)(?:\s+of\s+(?:{_ONE}\s+)?(?:line|pipe|system))?,?\s+or"
    r"\s+include\s+(?:it|them)\s+in\s+(?:that|the|its|their)\s+(?:line|pipe)s?(?:\s+of\s+(?:its|the|their)\s+pipes?)?",
    r"(?:each|every|all)\s+(?P<scheduled>.+?)(?:\s+of\s+a\s+(?:line|pipe|system))?\s+(?:shall|must)\s+be\s+(?:scheduled|listed)"
    r",?\s+or\s+(?:be\s+)?included\s+in\s+(?:it|(?:the|its|their|that)\s+(?:line|pipe)s?(?:\s+of\s+(?:its|the|their)\s+pipes?)?)",
    rf"(?:the\s+)?total\s+(?P<total>.+?)\s+of\s+(?P<lines>.+?)(?:\s+in\s+{_ONE}\s+(?P<room>rooms?))?\s+(?:shall|must)\s+"
    r"(?P<limit>(?:not\s+exceed|be\s+(?:not\s+(?:more|less)\s+than|at\s+(?:most|least)))\s+.+)",
)
_PATTERNS = tuple(re.compile(form, re.IGNORECASE) for form in _FORMS)
_SAID = {"material": "insulation", "insulation material": "insulation", "manufacturer": "insulation manufacturer"}
_SAID |= {"jacketing": "jacket", "insulation thickness": "thickness", "length": "run length"}
_WHAT = ("insulation", "thickness", "jacket")


def relation_asked(text: str, vocabulary: Vocabulary) -> RelationAsked | None:
    """Return what a sentence asks of lines together, None where it is in none of the forms."""
    plain = " ".join(text.strip(" .").split())
    found = next((one for pattern in _PATTERNS if (one := pattern.fullmatch(plain)) is not None), None)
    if found is None:
        return None
    said = {name: words for name, words in found.groupdict().items() if words}
    return _Reading(said, vocabulary).read()


class _Reading:
    """The words of one form turned into relations; what is not understood of them is a doubt."""

    def __init__(self, said: dict[str, str], vocabulary: Vocabulary) -> None:
        self.said = said
        self.vocabulary = vocabulary
        self.doubts: list[str] = []

    def read(self) -> RelationAsked | None:
        """Return the relations, None where the words speak of no lines that belong together."""
        said = self.said
        if "parts" in said:
            found = [self._as_adjoining()]
        elif "flow" in said:
            lines = ["where flow is supply", *self._conditions(said["lines"]), "beside where flow is return"]
            found = [(*lines, "alike in service, pipe size", self._same())]
        elif "scheduled" in said:
            found = self._scheduled()
        elif "total" in said:
            found = [self._total()]
        elif "room" in said or "room_before" in said:
            found = [self._in_one_room()]
        else:
            return None
        return RelationAsked(tuple(found), tuple(dict.fromkeys(self.doubts)))

    def _as_adjoining(self) -> tuple[str, ...]:
        run = "duct" if self.said["run"].casefold().startswith("duct") else "pipe"
        alike = "service, pipe size" if run == "pipe" else "service"
        lines = [*self._conditions(self.said["parts"]), f"beside where component is {run}"]
        return (*lines, f"alike in {alike}", self._same())

    def _in_one_room(self) -> tuple[str, ...]:
        room = self.said.get("room") or self.said["room_before"]
        conditions = [] if room.casefold() in ("room", "rooms") else self._conditions(room)
        conditions += self._conditions(self.said["lines"]) if "lines" in self.said else []
        return (*conditions, "alike in room", self._same())

    def _scheduled(self) -> list[tuple[str, ...]]:
        found = []
        for condition in self._conditions(self.said["scheduled"]):
            term, _, values = condition.removeprefix("where ").partition(" is ")
            if term != "component":
                self.doubts.append(f"`{self.said['scheduled']}` was not understood")
            for value in values.removeprefix("one of ").split(", "):
                lines = ["where component is pipe", f"beside where component is {value}", "alike in service, pipe size"]
                covered = 'except where fitting insulation is given because "the line includes them"'
                found.append((*lines, "shall have a line", covered))
        return found

    def _total(self) -> tuple[str, ...]:
        term = self._term(self.said["total"])
        alike = "service, room" if "room" in self.said else "service"
        amounts = amounts_in(self.said["limit"])
        if len(amounts) != 1 or not amounts[0].relation:
            self.doubts.append(f"`{self.said['limit']}` was not understood")
            return (*self._conditions(self.said["lines"]), f"alike in {alike}")
        limit = f"{amounts[0].relation} {amounts[0].text}"
        return (*self._conditions(self.said["lines"]), f"alike in {alike}", f"shall total {term} be {limit}")

    def _same(self) -> str:
        """Return what lines have to have in common; where a section leaves it open, what it most likely means."""
        words = self.said.get("same") or self.said.get("same_behind")
        if words is None:
            self.doubts.append(f"the section does not say what has to be the same; written are {', '.join(_WHAT)}")
            return f"shall have the same {', '.join(_WHAT)}"
        terms = [self._term(one) for one in re.split(r"\s*,\s*(?:and\s+)?|\s+and\s+", words)]
        return f"shall have the same {', '.join(dict.fromkeys(filter(None, terms)))}"

    def _term(self, words: str) -> str:
        plain = re.sub(r"^(?:the|their)\s+", "", words.strip(), flags=re.IGNORECASE)
        name = _SAID.get(plain.casefold(), plain)
        term = self.vocabulary.find(name) or self.vocabulary.find(name.removesuffix("s"))
        if term is None or term.kind.form is Form.SET:
            self.doubts.append(f"`{words}` was not understood")
            return ""
        return term.name

    def _conditions(self, words: str) -> list[str]:
        piece = conditions_in(words, self.vocabulary)
        self.doubts += [f"`{left}` was not understood" for left in piece.left_over]
        self.doubts += piece.doubts
        return [f"where {condition}" for condition in piece.texts]
