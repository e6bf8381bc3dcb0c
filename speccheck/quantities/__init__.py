"""Units, fractions, nominal sizes and ranges: text to value and back. Knows no rules and no vocabulary.

In: a text as the trade writes it, such as `1-1/2"`, "DN 40", "2 in & smaller" or "0.27 BTU.in/hr.ft2.F".
Out: a `Quantity` (SI inside, with the unit to show), a `NominalSize`, a number, an `Interval` of these, or a `Misread`
that says what is wrong with the text. Nothing here raises for a text that a user wrote.

    text --marks.plain--> plain text --read--> Reading --as_quantity / as_size / as_number--> value --str--> text

Files:

    dimensions        the dimensions, their SI unit and their usual units
    units             the trade's units and how people spell them, as tables
    conversion        a spelling to its canonical unit, its dimensions and its conversion
    conversions.json  factor and offset of every listed unit, made from pint by make_conversions
    pint_units        pint, for units that the tables do not hold; imported late
    writing           numbers as a person writes them
    sizes             nominal pipe sizes, NPS and DN
    values            Quantity, Interval, Misread
    marks             typographic marks made plain, and places turned back
    amounts           Reading: what a text says before a kind is asked of it
    notation          tokens of grammar/quantity.lark to amounts
    reading           text to Reading
    advice            what to write instead of a text that is no quantity
    ends              one value or an interval of values, of any kind
    meaning           Reading to quantity or number
    size_reading      Reading to nominal size
"""

from speccheck.quantities.amounts import Reading
from speccheck.quantities.conversion import canonical_unit, convert, listed_unit, unit_dimensions
from speccheck.quantities.meaning import as_number, as_quantity, quantity
from speccheck.quantities.reading import read
from speccheck.quantities.size_reading import as_size
from speccheck.quantities.sizes import NOMINAL_SIZES, NominalSize, sizes_in
from speccheck.quantities.units import DIMENSIONS, Dimension
from speccheck.quantities.values import Interval, Misread, Quantity
from speccheck.quantities.writing import write_fraction

__all__ = [
    "DIMENSIONS",
    "NOMINAL_SIZES",
    "Dimension",
    "Interval",
    "Misread",
    "NominalSize",
    "Quantity",
    "Reading",
    "as_number",
    "as_quantity",
    "as_size",
    "canonical_unit",
    "convert",
    "listed_unit",
    "quantity",
    "read",
    "sizes_in",
    "unit_dimensions",
    "write_fraction",
]
