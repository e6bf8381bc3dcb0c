"""Strategies for syntax trees of the clause language, their text, and other layouts of a text.

Trees hold only what can be written: a sum stands left of what is added to it, names of values have no marks.
"""

from __future__ import annotations

from hypothesis import strategies as st

from speccheck.language.core import UncheckedReason
from speccheck.language.syntax.parsing import clause_parser
from speccheck.language.syntax.tree import (
    Adjustment,
    AmountSyntax,
    AskedIfSyntax,
    AssumptionSyntax,
    BandSyntax,
    CalculationSyntax,
    CellWords,
    ChoiceSyntax,
    ClauseSyntax,
    Compared,
    ConditionPart,
    ConditionSyntax,
    DefinitionSyntax,
    DocumentSyntax,
    ExamplePart,
    FileSyntax,
    Heading,
    Including,
    Item,
    Joined,
    Measure,
    Not,
    OrEqualSyntax,
    Part,
    ReadAsSyntax,
    RelationSyntax,
    RulesetSyntax,
    ScopeSyntax,
    SourcePart,
    Stated,
    StatementSyntax,
    TableRow,
    TableSyntax,
    TermSyntax,
    TextPart,
    UncheckedSyntax,
    VocabularySyntax,
    Words,
)

# Words of the trade, words of the language that a name may hold in quotation marks, and what looks like a size.
WORDS = [
    "jacket",
    "steam",
    "vapor-stop",
    "pipe/duct",
    "o'clock",
    "A&B",
    "é",
    "R",
    "over",
    "to",
    "is",
    "note",
    "none",
    "DN",
]
PLAIN_WORDS = ["jacket", "steam", "vapor-stop", "pipe/duct", "o'clock", "none", "over", "is", "steel"]
QUANTITIES = [
    "1 in",
    '1-1/2"',
    "75 F",
    "-20 °C",
    "0.27 Btu.in/(h.ft2.F)",
    "NPS 2",
    "DN 50",
    "R-6",
    "5",
    "½ in",
    "1,200 ft",
]
SIZES = ["1 in", "NPS 2", "3 in", "DN 100", "6 in"]

texts = st.lists(
    st.sampled_from(["Insulate", "1½″", "--", "clause", "(all)", "pipes,", "where", "a|b", "é"]), max_size=30
)
strings = texts.map(lambda words: Words(" ".join(words)))
names = st.lists(st.sampled_from([*WORDS, "2nd", "a.b", "R-6"]), min_size=1, max_size=3).map(
    lambda words: Words(" ".join(words))
)
plain_names = st.lists(st.sampled_from(PLAIN_WORDS), min_size=1, max_size=3).map(lambda words: Words(" ".join(words)))
measures = st.builds(Measure, st.sampled_from(QUANTITIES), st.booleans())
shares = st.builds(Measure, st.sampled_from(["10 %", "5 percent", "0.5", "5 F", "1/4 in"]))
readings = st.tuples(names, names | measures.filter(lambda one: not one.difference))
read_as = st.builds(ReadAsSyntax, names, st.lists(readings, min_size=1, max_size=3).map(tuple))
options = st.lists(names | measures, min_size=1, max_size=12).map(tuple)


# ---- amounts and conditions --------------------------------------------------------------------------------------


def _calculation(
    operations: list[str], left: st.SearchStrategy[AmountSyntax], right: st.SearchStrategy[AmountSyntax]
) -> st.SearchStrategy[AmountSyntax]:
    return st.builds(CalculationSyntax, st.sampled_from(operations), left, right)


@st.composite
def simple_amounts(draw: st.DrawFn, depth: int = 1) -> AmountSyntax:
    """Draw an amount that needs no parentheses anywhere: a name, a quantity, the larger or smaller of two."""
    if not depth or draw(st.integers(0, 3)):
        return draw(names | measures | read_as)
    inner = simple_amounts(depth - 1)
    return draw(_calculation(["larger of", "smaller of"], inner, inner))


@st.composite
def amounts(draw: st.DrawFn) -> AmountSyntax:
    """Draw an amount: products of simple or adjusted amounts, and sums of those."""
    simple = simple_amounts()
    factors = simple | simple | st.builds(Adjustment, simple, simple, simple, simple)
    products = factors | _calculation(["times", "divided by"], factors, factors)
    return draw(products | _calculation(["plus", "minus"], products, products))


ONE = ["is", "is not", "is at least", "is at most", "is less than", "is more than"]
TWO = ["is between", "is from to under", "is over to"]
compared = st.one_of(
    st.builds(Compared, amounts(), st.sampled_from(ONE), st.tuples(amounts())),
    st.builds(Compared, amounts(), st.sampled_from(TWO), st.tuples(simple_amounts(), simple_amounts())),
    st.builds(Compared, amounts(), st.sampled_from(["is within", "is not within"]), st.tuples(shares, amounts())),
    st.builds(Compared, amounts(), st.sampled_from(["is one of", "is not one of"]), options),
    st.builds(Compared, names, st.sampled_from(["is given", "is not given"]), st.just(())),
)
statements: st.SearchStrategy[ConditionSyntax] = st.one_of(
    compared,
    st.builds(Stated, names),
    st.builds(Including, names, st.sampled_from(["include", "include any of", "exclude"]), options),
)


@st.composite
def conditions(draw: st.DrawFn, depth: int = 3) -> ConditionSyntax:
    """Draw a condition, joined and negated to some depth."""
    forms = ["stated", "stated", "not", "and", "or", "or by another reading"]
    form = draw(st.sampled_from(forms)) if depth else "stated"
    if form == "stated":
        return draw(statements)
    if form == "not":
        return Not(draw(conditions(depth - 1)))
    return Joined(form, tuple(draw(st.lists(conditions(depth - 1), min_size=2, max_size=3))))


@st.composite
def requirements(draw: st.DrawFn) -> ConditionSyntax:
    """Draw what is asked, with a condition of its own or not."""
    asked = draw(conditions())
    if not draw(st.integers(0, 4)):
        return OrEqualSyntax(draw(statements))
    if draw(st.booleans()):
        return asked
    return AskedIfSyntax(asked, draw(conditions()), draw(requirements()) if draw(st.booleans()) else None)


# ---- parts -------------------------------------------------------------------------------------------------------

CONFIDENCES = ["", "seen", "second hand", "from memory", "common practice", "computed"]
VERDICTS = ["complies", "complies against advice", "fails", "does not apply", "cannot tell"]
DATA = [
    "service steam",
    "thickness 1-1/2 in",
    "pipe size 2 in to 4 in",
    "vapor stop locations valves and flanges",
    "mark TBD",
]


def _text_parts(*keywords: str) -> st.SearchStrategy[Part]:
    return st.builds(TextPart, st.sampled_from(keywords), st.tuples(strings))


sources: st.SearchStrategy[Part] = st.builds(SourcePart, strings, st.sampled_from(CONFIDENCES))
examples = st.builds(
    ExamplePart,
    strings,
    st.sampled_from(VERDICTS),
    st.lists(st.sampled_from(DATA).map(Words), min_size=1, max_size=6).map(tuple),
)
replaced = st.tuples(st.just(Words("6.8.3-a"))) | st.tuples(st.just(Words("2.1")), strings)
clause_parts: st.SearchStrategy[Part] = st.one_of(
    sources,
    examples,
    _text_parts("wording", "reason", "caution", "note", "todo"),
    st.just(TextPart("draft", ())),
    st.builds(TextPart, st.just("subject"), st.tuples(names)),
    st.builds(TextPart, st.just("replaces"), replaced),
    st.builds(ConditionPart, st.just("where"), conditions()),
    st.builds(ConditionPart, st.sampled_from(["shall", "should"]), requirements()),
    st.builds(ConditionPart, st.just("except"), conditions(), st.none() | strings),
)
header_parts: st.SearchStrategy[Part] = st.one_of(
    _text_parts(
        "taken from",
        "edition",
        "jurisdiction",
        "verified against",
        "builds on",
        "covers",
        "leaves out",
        "caution",
        "note",
    ),
    st.builds(TextPart, st.just("speaks"), st.lists(names, min_size=1, max_size=3).map(tuple)),
    st.builds(TextPart, st.just("units"), st.tuples(st.sampled_from(["inch-pound", "metric"]).map(Words))),
    st.just(TextPart("tolerance", (Words("0.1 %"),))),
    st.just(TextPart("nominal metric", ())),
)
remarks: st.SearchStrategy[Part] = sources | _text_parts("caution", "note")

document_parts: st.SearchStrategy[Part] = st.one_of(
    remarks,
    _text_parts("wording", "reason"),
    st.builds(TextPart, st.just("submit"), st.lists(names, min_size=1, max_size=3).map(tuple)),
    st.builds(TextPart, st.just("dated within"), st.tuples(st.sampled_from(["24 months", "1 year"]).map(Words))),
    st.builds(ConditionPart, st.just("where"), conditions()),
    st.builds(ConditionPart, st.just("except"), conditions(), st.none() | strings),
)

# ---- items -------------------------------------------------------------------------------------------------------

relation_parts: st.SearchStrategy[Part] = st.one_of(
    remarks,
    _text_parts("wording", "reason"),
    st.builds(TextPart, st.just("alike in"), st.lists(names, min_size=1, max_size=3).map(tuple)),
    st.builds(TextPart, st.just("shall have the same"), st.lists(names, min_size=1, max_size=3).map(tuple)),
    st.just(TextPart("shall have a line", ())),
    st.builds(ConditionPart, st.sampled_from(["where", "beside where", "shall total"]), conditions()),
    st.builds(ConditionPart, st.just("except"), conditions(), st.none() | strings),
)

relations = st.builds(
    RelationSyntax,
    st.sampled_from(["1.3.A", "1"]).map(Words),
    strings,
    st.lists(relation_parts, max_size=5).map(tuple),
)
documents = st.builds(
    DocumentSyntax,
    st.sampled_from(["1.3.A", "1"]).map(Words),
    strings,
    st.lists(document_parts, max_size=5).map(tuple),
)
clauses = st.builds(
    ClauseSyntax,
    st.sampled_from(["2.1.A", "6.8.3(b)", "1"]).map(Words),
    strings,
    st.lists(clause_parts, max_size=6).map(tuple),
)


@st.composite
def definitions(draw: st.DrawFn) -> DefinitionSyntax:
    """Draw a definition of a condition or of an amount."""
    is_amount = draw(st.booleans())
    parts = tuple(draw(st.lists(remarks, max_size=2)))
    return DefinitionSyntax(draw(names), parts, draw(amounts() if is_amount else conditions()), is_amount)


@st.composite
def bands(draw: st.DrawFn) -> BandSyntax:
    """Draw a heading of a row or a column."""
    low, high = draw(st.sampled_from(SIZES)), draw(st.sampled_from(SIZES))
    written = {
        "under": f"under {high}",
        "up to": f"up to {high}",
        "only": high,
        "to": f"{low} to {high}",
        "to under": f"{low} to under {high}",
        "over to": f"over {low} to {high}",
        "over to under": f"over {low} to under {high}",
        "and over": f"{low} and over",
        "over": f"over {low}",
    }
    form = draw(st.sampled_from([*written, "choices"]))
    if form == "choices":
        choices = draw(st.lists(st.sampled_from(["steam", "chilled water", "PVC"]), min_size=1, max_size=3))
        return BandSyntax(form, tuple(map(Words, choices)), ", ".join(choices))
    values = [low, high] if " to" in f" {form}" and form != "up to" else [low if form in ("and over", "over") else high]
    return BandSyntax(form, tuple(map(Measure, values)), written[form])


@st.composite
def tables(draw: st.DrawFn) -> TableSyntax:
    """Draw a table with one axis or more; its cells are quantities, names, words or dashes."""
    unit, of = draw(st.sampled_from([(None, None), (Words("in"), None), (None, Words("jacket"))]))
    columns = tuple(draw(st.lists(bands(), max_size=4)))
    words = st.sampled_from(["not permitted", "nothing required"]).map(CellWords)
    cell = st.none() | names | st.sampled_from(QUANTITIES).map(Measure) | words
    width = len(columns) or 1
    axes = tuple(map(Words, draw(st.lists(st.sampled_from(["service", "pipe size"]), min_size=1, max_size=4))))
    headings = st.tuples(*[bands()] * max(1, len(axes) - 1))
    rows = draw(st.lists(st.builds(TableRow, headings, st.tuples(*[cell] * width)), min_size=1, max_size=5))
    replacing = st.builds(TextPart, st.sampled_from(["replaces the table of", "replaces cells of"]), st.tuples(strings))
    parts = tuple(draw(st.lists(remarks | replacing, max_size=2)))
    return TableSyntax(draw(names), unit, of, parts, axes, columns, tuple(rows))


choices = st.builds(ChoiceSyntax, plain_names, st.lists(strings, max_size=8).map(tuple), st.none() | strings)
term_parts: st.SearchStrategy[Part] = st.one_of(
    st.builds(TextPart, st.just("also"), st.lists(strings, min_size=1, max_size=9).map(tuple)),
    _text_parts("means"),
    st.just(TextPart("shown in", (Words("ft"), Words("m")))),
    st.sampled_from(["0 in", "unlimited"]).map(lambda text: TextPart("none is", (Words(text),))),
    st.just(TextPart("computed", ())),
)


@st.composite
def terms(draw: st.DrawFn) -> TermSyntax:
    """Draw a term with a kind at the end of its name, yes or no, or with choices."""
    form = draw(st.sampled_from(["", "yes or no", "one of", "any of"]))
    listed = tuple(draw(st.lists(choices, min_size=1, max_size=5))) if form.endswith("of") else ()
    name = draw(names)
    kind = draw(st.sampled_from(["length", "nominal size", "temperature difference", "text"]))
    name = name if form else Words(f"{name.text} {kind}")
    return TermSyntax(name, form, tuple(draw(st.lists(term_parts, max_size=4))), listed)


assumptions = st.builds(
    AssumptionSyntax,
    names,
    names | measures,
    st.lists(remarks | st.builds(ConditionPart, st.just("where"), conditions()), max_size=3).map(tuple),
)
scopes = st.builds(
    ScopeSyntax,
    names,
    st.lists(
        remarks
        | st.builds(ConditionPart, st.just("where"), conditions())
        | st.builds(ConditionPart, st.just("except"), conditions(), st.none() | strings),
        max_size=3,
    ).map(tuple),
)


@st.composite
def writer_statements(draw: st.DrawFn) -> StatementSyntax:
    """Draw a statement of each form."""
    form = draw(st.sampled_from(["falls", "rises", "looser as", "stricter as", "looser where", "stricter where"]))
    where = st.builds(ConditionPart, st.just("where"), conditions())
    subject = st.builds(lambda name: TextPart("subject", (name,)), names)
    parts = tuple(draw(st.lists(remarks | where | subject, max_size=3)))
    if form.endswith("where"):
        return StatementSyntax(draw(strings), parts, form, (draw(conditions()), draw(conditions())))
    before = () if form.endswith("as") else (draw(amounts()),)
    return StatementSyntax(draw(strings), parts, form, (*before, draw(names)))


unchecked = st.builds(
    UncheckedSyntax,
    st.sampled_from(["1.2.B", "3.4.A.1"]).map(Words),
    strings,
    st.sampled_from([reason.value for reason in UncheckedReason]).map(Words),
    st.none() | strings,
    st.none() | strings,
)
items: st.SearchStrategy[Item] = (
    clauses | documents | relations | definitions() | assumptions | scopes | writer_statements() | tables() | unchecked
)
rulesets = st.builds(
    RulesetSyntax, strings, st.lists(header_parts, max_size=4).map(tuple), st.lists(items, max_size=4).map(tuple)
)
vocabularies = st.builds(
    VocabularySyntax,
    strings,
    st.lists(_text_parts("edition", "covers", "caution", "note"), max_size=3).map(tuple),
    st.lists(terms() | st.builds(Heading, strings), max_size=4).map(tuple),
)
files: st.SearchStrategy[FileSyntax] = rulesets | vocabularies

# ---- layouts -----------------------------------------------------------------------------------------------------

SPACES = [" ", "  ", "\n", "\n\n    ", " -- a remark\n", "\n-- a line of its own\n", "\n   -- indented\n\n", "\t"]
# Behind a quantity a word could be its unit; rows and data stand on their lines; a name does not begin a line.
ON_ONE_LINE = ("WORD", "QUANTITY", "UNIT", "AXES", "ROW", "EXAMPLE_DATA", "CLAUSE_NAME")


@st.composite
def other_layouts(draw: st.DrawFn, text: str) -> str:
    """Draw another layout of a text in house style, with comments at random between its words."""
    tokens = list(clause_parser().parse_interactive(text, start="start").iter_parse())
    out, end = "", 0
    for before, token in zip([None, *tokens], tokens, strict=False):
        gap = text[end : token.start_pos]
        kept = before is None or token.type in ON_ONE_LINE or before.type in ON_ONE_LINE
        out += gap if kept or not gap else draw(st.sampled_from(SPACES))
        out += str(token)
        end = (token.start_pos or 0) + len(token)
    return out + draw(st.sampled_from(["", "\n", " -- the end", "\n\n-- the end\n"]))
