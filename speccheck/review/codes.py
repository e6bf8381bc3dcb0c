"""The codes of what a review finds beside the verdicts: a title and what a reviewer needs to know about each.

The hundreds have one subject each on all of this floor: 1 the design list, 2 product data, 3 the register of
deviations, 4 the notes of a reviewer, 5 portfolios and 6 sweeps (in their own packages), 7 the register of what was
received, 8 weather files, 9 sums over a year. A code stands in one table alone; `report/all_codes.py` has those of all
floors.
"""

from __future__ import annotations

from collections.abc import Mapping

NOT_COVERED = "V101"
PARTLY_COVERED = "V102"
PERHAPS_COVERED = "V103"
NOT_IN_DESIGN = "V104"
LINES_CLASH = "V105"
DESIGN_CLASH = "V106"
NO_SYSTEM = "V107"
NO_PRODUCT = "V201"
PRODUCT_UNKNOWN = "V202"
PRODUCT_DIFFERS = "V203"
NOT_SHOWN = "V204"
NO_REPORT_DATE = "V205"
REPORT_DATE = "V206"
PRODUCT_SETTLES = "V207"
PRODUCT_NAMELESS = "V208"
PRODUCTS_DISAGREE = "V209"
PRODUCT_SHOWN = "V210"
BAD_REGISTER = "V301"
REGISTER_ENTRY = "V302"
REGISTER_CONDITION = "V303"
DEVIATION_CLAUSE = "V304"
DEVIATION_UNUSED = "V305"
DEVIATION_EXPIRED = "V306"
DEVIATION_UNDATED = "V307"
DEVIATION_WIDE = "V308"
DEVIATION_NARROW = "V309"
DEVIATION_OPEN = "V310"
BAD_NOTES = "V401"
NOTE_ENTRY = "V402"
BAD_RECEIVED = "V701"
RECEIVED_ENTRY = "V702"
RECEIVED_UNUSED = "V703"
BAD_WEATHER = "V801"
YEARLY_SUM = "V901"


DIAGNOSTICS: Mapping[str, tuple[str, str]] = {
    YEARLY_SUM: (
        "yearly cost and carbon of the lines that do not comply",
        "Where the schedule or the ruleset states a price of energy or a carbon factor, operating hours and the energy "
        "efficiency, the heat of the lines that do not comply is added up over a year: as proposed, bare, and with the "
        "greatest of the thicknesses that clauses ask at least of them. No price, factor, hours or efficiency are "
        "known to the program. Lines that cover a range of sizes have no such sum.",
    ),
    BAD_WEATHER: (
        "weather file that cannot be used",
        "A weather file is in the open EPW format: eight lines about the place, then a line for each hour of a year, "
        "with month, dry-bulb temperature, dew point and relative humidity in columns 2, 7, 8 and 9. "
        "Hours that are missing are never filled in, and a file that lacks more than a day of them is no year.",
    ),
    BAD_RECEIVED: (
        "register of what was received that cannot be used",
        "A register of what was received is a TOML file with a table [[received]] for each thing that came, or a CSV "
        "file with a row for each, whose first row names the columns: document, name, dated, lines, and terms.",
    ),
    RECEIVED_ENTRY: (
        "entry of the register of what was received",
        "An entry says what sort of document came, what it is of by terms of the vocabulary and their values, for "
        "which lines, and of which date. Nothing of it is guessed: a word that is not understood is an error.",
    ),
    RECEIVED_UNUSED: (
        "document that nothing asks for",
        "What was received is neither of a kind nor of a material that any document of the ruleset asks for on any "
        "line of the schedule, or names a line that the schedule does not have.",
    ),
    NOT_COVERED: (
        "system that no line covers",
        "The design list has a system for which no line of the schedule stands: no line with the same service, "
        "location, material and whatever else the list states, at any of its sizes and temperatures.",
    ),
    PARTLY_COVERED: (
        "system covered in part",
        "Lines of the schedule stand for some sizes or temperatures of a system of the design list and not for all. "
        "The message names the nominal sizes, and the temperatures where these matter, for which no line stands.",
    ),
    PERHAPS_COVERED: (
        "system covered perhaps",
        "Whether a line stands for a system of the design list cannot be determined: the line leaves open what the "
        "list states: its location is to be determined, for example. Ask for what is missing.",
    ),
    NOT_IN_DESIGN: (
        "line for which the design has nothing",
        "No system of the design list is what this line stands for. Either the list is not complete, or the line "
        "states a wrong service, size, location or temperature.",
    ),
    LINES_CLASH: (
        "two lines for one system that disagree",
        "Two lines of the schedule stand for the same system, at the sizes that the message names, and propose "
        "different things for it. Which one will be built is not known.",
    ),
    DESIGN_CLASH: (
        "line that disagrees with the design list",
        "The line stands for a system of the design list and states another value than the list, of the ambient "
        "temperature for example. The clauses were judged by what the line states.",
    ),
    NO_SYSTEM: (
        "design line that says nothing of a system",
        "A line of the design list states none of the terms that tell systems apart, such as service, size or "
        "location, so that nothing can be checked against it.",
    ),
    NO_PRODUCT: (
        "line that names no product",
        "Product data were given, and the line proposes insulation without naming a product, so that nothing shows "
        "what it states.",
    ),
    PRODUCT_UNKNOWN: (
        "product without product data",
        "The line names a product that the product data do not have. Names are compared without regard to case, "
        "hyphens and full stops.",
    ),
    PRODUCT_DIFFERS: (
        "schedule and product data differ",
        "The schedule and the product data state different values for the same property of the same product. The "
        "clauses were judged by the schedule; the message says which verdicts would be others by the product data.",
    ),
    NOT_SHOWN: (
        "stated on the schedule, not shown in product data",
        "The schedule states a property of the product that its product data do not show, or show at another mean "
        "temperature only.",
    ),
    NO_REPORT_DATE: (
        "test without a report date",
        "The product data state what a test found and not the date of its report.",
    ),
    REPORT_DATE: (
        "report date in doubt",
        "The date of a report lies after the day of the review, or is no date: dates are written as year, month, day, "
        "such as 2024-05-17.",
    ),
    PRODUCT_SETTLES: (
        "product data say what the schedule leaves open",
        "A clause cannot be judged because the schedule does not state a property, and the product data do. The value "
        "is not taken over: the schedule is what the contractor proposes, so ask for it to be stated there.",
    ),
    PRODUCT_NAMELESS: (
        "product data without a product",
        "A row of the product data names no product, so that no line can point to it.",
    ),
    PRODUCT_SHOWN: (
        "a data sheet shows what lines state",
        "The value that lines state was found on the data sheet of their product, beside the words of the property, on "
        "the page that is named. Nothing has to be done.",
    ),
    PRODUCTS_DISAGREE: (
        "product data that disagree",
        "Several rows of the product data are about one product and state different values for one property. None of "
        "them counts as shown.",
    ),
    BAD_REGISTER: (
        "register of deviations not readable",
        "A register is a TOML file in UTF-8 with a table [[deviation]] for each deviation that was accepted.",
    ),
    REGISTER_ENTRY: (
        "entry of the register not usable",
        "A deviation has the keys name, clause, lines, reason and reference, and may have until, a date. Each of them "
        "is a text that says something, names are not used twice, and there are no other keys.",
    ),
    REGISTER_CONDITION: (
        "condition of a deviation not usable",
        "The key lines of a deviation holds a condition in the clause language, as after `where` in a clause. It is "
        "checked with the terms and definitions of the ruleset before any line is judged.",
    ),
    DEVIATION_CLAUSE: (
        "deviation from a clause that is not there",
        "The ruleset has no clause of this number, or the clause only advises, so that there is nothing to deviate "
        "from.",
    ),
    DEVIATION_UNUSED: (
        "deviation that no line needs",
        "No line to which the deviation applies breaks the clause. Take it out of the register, or check its "
        "condition, before it excuses something that nobody looked at.",
    ),
    DEVIATION_EXPIRED: (
        "deviation that has ended",
        "The day of the review lies after the last day on which the deviation holds, so the lines count as not "
        "complying. The day is stated with `--on`; the clock is never asked.",
    ),
    DEVIATION_UNDATED: (
        "day of the review not stated",
        "The deviation holds until a date, and nothing says on which day the review is made. It was not applied. "
        "State the day with `--on`.",
    ),
    DEVIATION_WIDE: (
        "deviation that is too wide",
        "The condition of the deviation also holds for lines that comply with the clause without it. If one of these "
        "gets worse in a later round, nobody will see it. Narrow the condition to the lines that were accepted.",
    ),
    DEVIATION_NARROW: (
        "deviation that covers a line in part",
        "The line fails at sizes or temperatures for which the condition of the deviation does not hold, so it counts "
        "as not complying.",
    ),
    DEVIATION_OPEN: (
        "deviation that cannot be determined to apply",
        "The line lacks a datum that the condition of the deviation asks for, so it counts as not complying.",
    ),
    BAD_NOTES: (
        "file of notes not readable",
        "The reviewer's notes are a TOML file in UTF-8 with a table [[note]] for each note and, if wanted, a table "
        "[transmittal] that says what the reply is about, who sends it and to whom.",
    ),
    NOTE_ENTRY: (
        "note not usable",
        "A note says which line it is for by what that line states (service, size, place), and has a text; it may name "
        "a clause and the round in which it was written. All of them are texts.",
    ),
}
