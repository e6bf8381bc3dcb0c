"""What is said of lines beside the design list, and beside product data."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule
from speccheck.language.diagnostics import Severity

NOT_COVERED = Rule(
    "V101",
    "system that no line covers",
    "The design list has a system for which no line of the schedule stands: no line with the same "
    "service, location, material and whatever else the list states, at any of its sizes and temperatures.",
    Severity.WARNING,
)
NO_LINE_COVERS = NOT_COVERED.says(
    "no line of the schedule covers design system {system}",
    "ask the contractor for a line, or take the system out of the design list",
)
NO_LINE_MISSES_BY_ONE = NOT_COVERED.says(
    "no line of the schedule covers design system {system}", "{near_lines} {has} another {term}: {values}"
)

PARTLY_COVERED = Rule(
    "V102",
    "system covered in part",
    "Lines of the schedule stand for some sizes or temperatures of a system of the design list and not "
    "for all. The message names the nominal sizes, and the temperatures where these matter, for which no "
    "line stands.",
    Severity.WARNING,
)
REST_COVERED = PARTLY_COVERED.says(
    "nothing covers design system {system} at {gaps}; {lines} {cover} the rest",
    "ask the contractor for a line, or take the system out of the design list",
)
REST_COVERED_NEAR_MISS = PARTLY_COVERED.says(
    "nothing covers design system {system} at {gaps}; {lines} {cover} the rest",
    "{near_lines} {has} another {term}: {values}",
)

PERHAPS_COVERED = Rule(
    "V103",
    "system covered perhaps",
    "Whether a line stands for a system of the design list cannot be determined: the line leaves open "
    "what the list states: its location is to be determined, for example. Ask for what is missing.",
    Severity.WARNING,
)
LINE_LEAVES_OPEN = PERHAPS_COVERED.says(
    "whether {lines} covers design system {system}{at} cannot be determined: it leaves {missing} open",
    "ask for what is left open",
)
LINES_LEAVE_OPEN = PERHAPS_COVERED.says(
    "whether {lines} cover design system {system}{at} cannot be determined: they leave {missing} open",
    "ask for what is left open",
)

NOT_IN_DESIGN = Rule(
    "V104",
    "line for which the design has nothing",
    "No system of the design list is what this line stands for. Either the list is not complete, or the "
    "line states a wrong service, size, location or temperature.",
    Severity.NOTE,
)
NOTHING_IN_DESIGN = NOT_IN_DESIGN.says("the design has nothing for line `{line}` ({system})", "")
ONE_SYSTEM_NEAR = NOT_IN_DESIGN.says(
    "the design has nothing for line `{line}` ({system})", "design system {systems} differs in {terms} alone"
)
SYSTEMS_NEAR = NOT_IN_DESIGN.says(
    "the design has nothing for line `{line}` ({system})", "design systems {systems} differ in {terms} alone"
)

LINES_CLASH = Rule(
    "V105",
    "two lines for one system that disagree",
    "Two lines of the schedule stand for the same system, at the sizes that the message names, and "
    "propose different things for it. Which one will be built is not known.",
    Severity.WARNING,
)
LINES_DISAGREE = LINES_CLASH.says(
    "lines `{first}` and `{second}` both stand for one system{sizes} and disagree: {differences}",
    "ask which of the two is meant, or what tells the systems apart",
)

DESIGN_CLASH = Rule(
    "V106",
    "line that disagrees with the design list",
    "The line stands for a system of the design list and states another value than the list, of the "
    "ambient temperature for example. The clauses were judged by what the line states.",
    Severity.WARNING,
)
LINE_DIFFERS_FROM_DESIGN = DESIGN_CLASH.says(
    "line `{line}` and design system `{system}` differ: {differences}", "settle which of the two holds"
)

NO_SYSTEM = Rule(
    "V107",
    "design line that says nothing of a system",
    "A line of the design list states none of the terms that tell systems apart, such as service, size "
    "or location, so that nothing can be checked against it.",
    Severity.WARNING,
)
SYSTEM_SAYS_NOTHING = NO_SYSTEM.says(
    "design line `{system}` says nothing that tells it from other systems",
    "state its service, size, location and temperature",
)

NO_PRODUCT = Rule(
    "V201",
    "line that names no product",
    "Product data were given, and the line proposes insulation without naming a product, so that nothing "
    "shows what it states.",
    Severity.WARNING,
)
LINES_NAME_NO_PRODUCT = NO_PRODUCT.says(
    "{lines} {agree} no product", "ask which product is proposed, so that its data can be checked against the schedule"
)

PRODUCT_UNKNOWN = Rule(
    "V202",
    "product without product data",
    "The line names a product that the product data do not have. Names are compared without regard to "
    "case, hyphens and full stops.",
    Severity.WARNING,
)
NO_PRODUCT_DATA = PRODUCT_UNKNOWN.says(
    "there are no product data for `{product}`, which {lines} {name}", "ask for its product data"
)
NEAR_PRODUCT = PRODUCT_UNKNOWN.says(
    "there are no product data for `{product}`, which {lines} {name}", "did they mean `{known}`?"
)

PRODUCT_DIFFERS = Rule(
    "V203",
    "schedule and product data differ",
    "The schedule and the product data state different values for the same property of the same product. "
    "The clauses were judged by the schedule; the message says which verdicts would be others by the "
    "product data.",
    Severity.WARNING,
)
DATA_DIFFER = PRODUCT_DIFFERS.says(
    "{lines_state} {term} {stated}, and the product data of `{product}` {found}{page}", "ask which of the two holds"
)
DATA_DIFFER_AND_FAIL = PRODUCT_DIFFERS.says(
    "{lines_state} {term} {stated}, and the product data of `{product}` {found}{page}; by the product "
    "data {clauses} {verb} not met",
    "ask which of the two holds",
)

NOT_SHOWN = Rule(
    "V204",
    "stated on the schedule, not shown in product data",
    "The schedule states a property of the product that its product data do not show, or show at another "
    "mean temperature only.",
    Severity.WARNING,
)
NOT_SHOWN_BY_DATA = NOT_SHOWN.says(
    "{lines_state} {term} {value}, which the product data of `{product}` do not show", "ask for evidence of `{term}`"
)
SHOWN_AT_OTHER = NOT_SHOWN.says(
    "{lines_state} {term} {value} at a {condition} of {at}, which the product data of `{product}` do not show",
    "the data have it at {found}",
)
SHOWN_AT_NONE = NOT_SHOWN.says(
    "{lines_state} {term} {value} at a {condition} of {at}, which the product data of `{product}` do not show",
    "the data have it at no stated {condition}",
)

NO_REPORT_DATE = Rule(
    "V205",
    "test without a report date",
    "The product data state what a test found and not the date of its report.",
    Severity.WARNING,
)
STATED_WITHOUT_DATE = NO_REPORT_DATE.says(
    "the product data of `{product}` state {properties} and no {date}", "ask for the report"
)

REPORT_DATE = Rule(
    "V206",
    "report date in doubt",
    "The date of a report lies after the day of the review, or is no date: dates are written as year, "
    "month, day, such as 2024-05-17.",
    Severity.WARNING,
)
NO_DATE = REPORT_DATE.says(
    "the {date} of `{product}`, `{stated}`, is no date written as 2024-05-17", "ask for the report"
)
DATE_AFTER_REVIEW = REPORT_DATE.says(
    "the {date} of `{product}`, `{stated}`, lies after the day of the review, {day}", "ask for the report"
)

PRODUCT_SETTLES = Rule(
    "V207",
    "product data say what the schedule leaves open",
    "A clause cannot be judged because the schedule does not state a property, and the product data do. "
    "The value is not taken over: the schedule is what the contractor proposes, so ask for it to be "
    "stated there.",
    Severity.NOTE,
)
STATED_BY_PRODUCT_DATA = PRODUCT_SETTLES.says(
    "line `{line}` does not state {term}; the product data of `{product}` say {value}",
    "ask for it to be stated on the schedule; {clauses} {agree}",
)

PRODUCT_NAMELESS = Rule(
    "V208",
    "product data without a product",
    "A row of the product data names no product, so that no line can point to it.",
    Severity.WARNING,
)
ROW_NAMES_NO_PRODUCT = PRODUCT_NAMELESS.says(
    "row `{row}` of the product data names no product", "name the product that it is about"
)

PRODUCTS_DISAGREE = Rule(
    "V209",
    "product data that disagree",
    "Several rows of the product data are about one product and state different values for one property. "
    "None of them counts as shown.",
    Severity.WARNING,
)
PRODUCT_DATA_DISAGREE = PRODUCTS_DISAGREE.says(
    "the product data of `{product}` disagree: {term} {values}", "ask which of the two holds"
)

PRODUCT_SHOWN = Rule(
    "V210",
    "a data sheet shows what lines state",
    "The value that lines state was found on the data sheet of their product, beside the words of the "
    "property, on the page that is named. Nothing has to be done.",
    Severity.NOTE,
)
SHOWN_ON_PAGE = PRODUCT_SHOWN.says("{lines_state} {value}, shown {page}", "")
