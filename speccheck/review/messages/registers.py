"""What is said of registers, notes and weather files, and of sums over a year."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule
from speccheck.language.diagnostics import Severity

BAD_REGISTER = Rule(
    "V301",
    "register of deviations not readable",
    "A register is a TOML file in UTF-8 with a table [[deviation]] for each deviation that was accepted.",
)

REGISTER_ENTRY = Rule(
    "V302",
    "entry of the register not usable",
    "A deviation has the keys name, clause, lines, reason and reference, and may have until, a date. "
    "Each of them is a text that says something, names are not used twice, and there are no other keys.",
)
DEVIATIONS_OF_ONE_NAME = REGISTER_ENTRY.says("two deviations are called `{deviation}`", "give one of them another name")

REGISTER_CONDITION = Rule(
    "V303",
    "condition of a deviation not usable",
    "The key lines of a deviation holds a condition in the clause language, as after `where` in a "
    "clause. It is checked with the terms and definitions of the ruleset before any line is judged.",
)
NOT_ONE_CONDITION = REGISTER_CONDITION.says(
    "`{condition}` is not one condition", "write what would follow `where` in a clause"
)

DEVIATION_CLAUSE = Rule(
    "V304",
    "deviation from a clause that is not there",
    "The ruleset has no clause of this number, or the clause only advises, so that there is nothing to deviate from.",
)
DEVIATION_OF_NO_CLAUSE = DEVIATION_CLAUSE.says(
    "the ruleset has no clause `{clause}` that asks for anything", "name a clause by its number in the matrix"
)

DEVIATION_UNUSED = Rule(
    "V305",
    "deviation that no line needs",
    "No line to which the deviation applies breaks the clause. Take it out of the register, or check its "
    "condition, before it excuses something that nobody looked at.",
    Severity.WARNING,
)
NO_LINE_NEEDS_DEVIATION = DEVIATION_UNUSED.says(
    "no line needs {deviation}", "take it out of the register, or check its condition"
)

DEVIATION_EXPIRED = Rule(
    "V306",
    "deviation that has ended",
    "The day of the review lies after the last day on which the deviation holds, so the lines count as "
    "not complying. The day is stated with `--on`; the clock is never asked.",
    Severity.WARNING,
)
NEEDED_DEVIATION_EXPIRED = DEVIATION_EXPIRED.says(
    "{deviation} held until {until}, which is before {day}{touched}", "have it renewed, or have the lines corrected"
)
UNNEEDED_DEVIATION_EXPIRED = DEVIATION_EXPIRED.says(
    "{deviation} held until {until}, which is before {day}{touched}", "take it out of the register", Severity.NOTE
)

DEVIATION_UNDATED = Rule(
    "V307",
    "day of the review not stated",
    "The deviation holds until a date, and nothing says on which day the review is made. It was not "
    "applied. State the day with `--on`.",
    Severity.WARNING,
)
DEVIATION_ON_NO_DAY = DEVIATION_UNDATED.says(
    "{deviation} holds until {until}, and the day of the review is not stated{touched}", "state the day with `--on`"
)

DEVIATION_WIDE = Rule(
    "V308",
    "deviation that is too wide",
    "The condition of the deviation also holds for lines that comply with the clause without it. If one "
    "of these gets worse in a later round, nobody will see it. Narrow the condition to the lines that "
    "were accepted.",
    Severity.WARNING,
)
DEVIATION_TOO_WIDE = DEVIATION_WIDE.says(
    "{deviation} is too wide: it also excuses {lines}, which {comply} without it",
    "narrow its condition to the lines that were accepted",
)

DEVIATION_NARROW = Rule(
    "V309",
    "deviation that covers a line in part",
    "The line fails at sizes or temperatures for which the condition of the deviation does not hold, so "
    "it counts as not complying.",
    Severity.WARNING,
)
DEVIATION_COVERS_PART = DEVIATION_NARROW.says(
    "{deviation} covers line `{line}` for a part of its sizes or temperatures only",
    "split the line, or have the deviation widened",
)

DEVIATION_OPEN = Rule(
    "V310",
    "deviation that cannot be determined to apply",
    "The line lacks a datum that the condition of the deviation asks for, so it counts as not complying.",
    Severity.WARNING,
)
DEVIATION_NOT_DETERMINED = DEVIATION_OPEN.says(
    "whether {deviation} covers line `{line}` cannot be determined", "have the line state what the condition asks for"
)

BAD_NOTES = Rule(
    "V401",
    "file of notes not readable",
    "The reviewer's notes are a TOML file in UTF-8 with a table [[note]] for each note and, if wanted, a "
    "table [transmittal] that says what the reply is about, who sends it and to whom.",
)

NOTE_ENTRY = Rule(
    "V402",
    "note not usable",
    "A note says which line it is for by what that line states (service, size, place), and has a text; "
    "it may name a clause and the round in which it was written. All of them are texts.",
)
NOTE_OF_NO_CLAUSE = NOTE_ENTRY.says("the ruleset has no clause `{clause}`", "name a clause by its number in the matrix")
NOTE_OF_NO_TERM = NOTE_ENTRY.says(
    "the vocabulary has no term `{term}`", "name a term of the vocabulary: `speccheck terms`"
)
NOTE_NOT_READ = NOTE_ENTRY.says("{sentence}", "{advice}")

BAD_RECEIVED = Rule(
    "V701",
    "register of what was received that cannot be used",
    "A register of what was received is a TOML file with a table [[received]] for each thing that came, "
    "or a CSV file with a row for each, whose first row names the columns: document, name, dated, lines, "
    "and terms.",
)
RECEIVED_NOT_READ = BAD_RECEIVED.says("`{file}` cannot be read: {problem}", "")
NO_COLUMN_OF_DOCUMENTS = BAD_RECEIVED.says(
    "`{file}` has no column `document`", "name the columns in the first row: {columns}, and terms"
)

RECEIVED_ENTRY = Rule(
    "V702",
    "entry of the register of what was received",
    "An entry says what sort of document came, what it is of by terms of the vocabulary and their "
    "values, for which lines, and of which date. Nothing of it is guessed: a word that is not understood "
    "is an error.",
)
NO_KIND_RECEIVED = RECEIVED_ENTRY.says("`{words}` is no kind of document", "write one of {kinds}")
RECEIVED_ON_NO_DATE = RECEIVED_ENTRY.says("`{words}` is no date", "write it as 2026-03-04")
RECEIVED_OF_NO_TERM = RECEIVED_ENTRY.says("`{words}` is no term of the vocabulary", "name a term of the vocabulary")
RECEIVED_OF_NO_VALUE = RECEIVED_ENTRY.says(
    "`{words}` is no value of `{term}`", "write one value, as a schedule states it"
)

RECEIVED_UNUSED = Rule(
    "V703",
    "document that nothing asks for",
    "What was received is neither of a kind nor of a material that any document of the ruleset asks for "
    "on any line of the schedule, or names a line that the schedule does not have.",
    Severity.NOTE,
)
NOTHING_ASKS_FOR_IT = RECEIVED_UNUSED.says("`{entry}` was received, and nothing asks for a {kind}", "")
FOR_UNKNOWN_LINES = RECEIVED_UNUSED.says(
    "`{entry}` is for {lines}, which the schedule does not have", "write the names of lines as the schedule has them"
)

BAD_WEATHER = Rule(
    "V801",
    "weather file that cannot be used",
    "A weather file is in the open EPW format: eight lines about the place, then a line for each hour of "
    "a year, with month, dry-bulb temperature, dew point and relative humidity in columns 2, 7, 8 and 9. "
    "Hours that are missing are never filled in, and a file that lacks more than a day of them is no "
    "year.",
)
WEATHER_FILE_UNUSABLE = BAD_WEATHER.says(
    "the weather file `{file}` cannot be used: {why}",
    "use a file in the EPW format with a line for each hour of a year",
)

YEARLY_SUM = Rule(
    "V901",
    "yearly cost and carbon of the lines that do not comply",
    "Where the schedule or the ruleset states a price of energy or a carbon factor, operating hours and "
    "the energy efficiency, the heat of the lines that do not comply is added up over a year: as "
    "proposed, bare, and with the greatest of the thicknesses that clauses ask at least of them. No "
    "price, factor, hours or efficiency are known to the program. Lines that cover a range of sizes have "
    "no such sum.",
    Severity.NOTE,
)
COMES_TO_IN_A_YEAR = YEARLY_SUM.says("{sums}", "{whence}")
