"""Kinds: what sort of value a term has, and so what it may be compared with."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Form(StrEnum):
    """The shape of a value."""

    QUANTITY = "quantity"
    SIZE = "nominal size"
    CHOICE = "one of"
    SET = "any of"
    YES_NO = "yes or no"
    COUNT = "count"
    NUMBER = "number"
    TEXT = "text"


@dataclass(frozen=True, slots=True)
class Kind:
    """A form and, for a physical quantity, the name of its dimension ("length", "temperature difference", ...)."""

    form: Form
    dimension: str = ""

    def __str__(self) -> str:
        return self.dimension or str(self.form)

    @property
    def described(self) -> str:
        """The kind with its article, as a sentence needs it."""
        phrases = {Form.CHOICE: "a choice from a list", Form.SET: "a set of choices", Form.YES_NO: "a yes or no"}
        name = str(self)
        return phrases.get(self.form, f"{'an' if name[0] in 'aeiou' else 'a'} {name}")

    @property
    def ordered(self) -> bool:
        """Whether values of this kind can be more or less than one another."""
        return self.form in (Form.QUANTITY, Form.SIZE, Form.COUNT, Form.NUMBER)


SIZE = Kind(Form.SIZE)
CHOICE = Kind(Form.CHOICE)
SET = Kind(Form.SET)
YES_NO = Kind(Form.YES_NO)
COUNT = Kind(Form.COUNT)
NUMBER = Kind(Form.NUMBER)
TEXT = Kind(Form.TEXT)


def quantity_kind(dimension: str) -> Kind:
    """Return the kind of physical quantities of `dimension`."""
    return Kind(Form.QUANTITY, dimension)
