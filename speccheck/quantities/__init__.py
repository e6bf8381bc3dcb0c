"""Units, fractions, nominal sizes and ranges: text to value and back. Knows no rules and no vocabulary.

In: a text as the trade writes it, such as `1-1/2"`, "DN 40", "2 in & smaller" or "0.27 BTU.in/hr.ft2.F".
Out: a `Quantity` (SI inside, with the unit to show), a `NominalSize`, a number, an `Interval` of these, or a `Misread`
that says what is wrong with the text. Nothing here raises for a text that a user wrote.

    text --marks.plain--> plain text --read--> Reading --as_quantity / as_size / as_number--> value --str--> text

Files:

    amounts           what a text says before a kind is asked of it: one amount, or a range of amounts, as written
    conversion        from the spelling of a unit to its canonical name, its dimensions and its conversion to SI; pint
                      comes late, for rare units
    dates             days of the calendar as values
    ends              one value or a range of values, whatever their kind: the ends made one by one, then compared with
                      each other
    marks             typographic marks made plain, and the way back from a place in the plain text to the place in
                      what was written
    meaning           from a Reading to a value of the kind that is asked for: a quantity, a nominal size, a number
    notation          from the tokens of `grammar/quantity.lark` to a Reading, and what can be wrong with a number
    reading           from text to a Reading, the one door for every number of a rule and of a schedule; or what to
                      write instead
    size_reading      from a Reading to a nominal pipe size, in inches or DN, whichever was meant
    sizes             one size under two names, NPS (inches) and DN (millimetres)
    units             the trade's units and the physical dimensions that they measure: how each is spelled, and how it
                      is written in pint
    values            the values that a text can have, and the answer where it has none
    writing           numbers as a person writes them: fractions of an inch where they are sixteenths, otherwise a
                      short plain decimal
"""

from speccheck.quantities.amounts import Reading
from speccheck.quantities.conversion import canonical_unit, convert, listed_unit, unit_dimensions
from speccheck.quantities.dates import Day, read_day
from speccheck.quantities.meaning import as_number, as_quantity, quantity
from speccheck.quantities.reading import read
from speccheck.quantities.size_reading import as_size
from speccheck.quantities.sizes import ALL_SIZES, NOMINAL_SIZES, SYSTEMS, NominalSize, sizes_in
from speccheck.quantities.units import DIMENSIONS, Dimension
from speccheck.quantities.values import TOLERANCE, Interval, Misread, Quantity
from speccheck.quantities.writing import write_fraction

__all__ = [
    "ALL_SIZES",
    "DIMENSIONS",
    "NOMINAL_SIZES",
    "SYSTEMS",
    "TOLERANCE",
    "Day",
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
    "read_day",
    "sizes_in",
    "unit_dimensions",
    "write_fraction",
]
