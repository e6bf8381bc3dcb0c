"""What writers of sections write: exact synonyms that the formatter turns into the house words, or the house word.

The words are those that misled first-time writers. How many errors stand between a ruleset of thirty clauses, written
by somebody who has read the guide once, and one that parses, is counted in `mistakes/first-writer.expected`: 25 before
these words were known, 8 now, and each of the 8 says what to write.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.language import load_ruleset, parse_ruleset
from speccheck.language.core import Clause, OrEqual, Some
from speccheck.language.format.house_style import format_text
from speccheck.language.syntax.source_text import SourceText
from tests.some import some

HEAD = 'ruleset "x"\n  speaks mechanical insulation\n\nclause 1 "x"\n  '
SYNONYMS = [
    ("thickness be not less than 1 in", "thickness be at least 1 in"),
    ("thickness be no less than 1 in", "thickness be at least 1 in"),
    ("thickness be not thinner than 1 in", "thickness be at least 1 in"),
    ("flame spread be not more than 25", "flame spread be at most 25"),
    ("flame spread be no more than 25", "flame spread be at most 25"),
    ("flame spread be not greater than 25", "flame spread be at most 25"),
    ("pipe size is larger than 2 in", "pipe size be more than 2 in"),
    ("pipe size is greater than 2 in", "pipe size be more than 2 in"),
    ("pipe size is smaller than 2 in", "pipe size be less than 2 in"),
    ("pipe size is up to 2 in", "pipe size be at most 2 in"),
    ("operating temperature is below 60 F", "operating temperature be less than 60 F"),
    ("operating temperature is above 60 F", "operating temperature be more than 60 F"),
    ("operating temperature is over 60 degrees F", "operating temperature be over 60 F"),
    ("operating temperature is lower than 60 deg. F", "operating temperature be less than 60 F"),
    ("operating temperature is higher than dew point", "operating temperature be more than dew point"),
    ("thickness be not below 1 in", "thickness be at least 1 in"),
    ("thickness be not under 1 in", "thickness be at least 1 in"),
    ("thickness be greater than or equal to 1 in", "thickness be at least 1 in"),
    ("flame spread be not above 25", "flame spread be at most 25"),
    ("flame spread be not over 25", "flame spread be at most 25"),
    ("flame spread be less than or equal to 25", "flame spread be at most 25"),
    ("thickness be exactly 1 in", "thickness be 1 in"),
    ("thickness be equal to 1 in", "thickness be 1 in"),
]

# What a writer who had read the guide once tried, and what the help must say: never the opposite of what was meant.
ANSWERS = [
    ("shall jacket not be PVC", "`be` cannot stand here", "write `be not`, as in `shall jacket be not PVC`"),
    (
        "shall pipe size be 2 in or larger",
        "`or larger` cannot stand behind an amount",
        "write `at least` before the amount",
    ),
    (
        "shall pipe size be 2 in and smaller",
        "`and smaller` cannot stand behind an amount",
        "write `at most` before the amount",
    ),
    ("shall pipe size be 2 in to 6 in", "`to` cannot stand here", "write `from` before the first of the two amounts"),
    ("shall pipe size 2 in", "`2` cannot stand here", "write `is` before `2`"),
    ("shall thickness equal 1 in", "`equal` cannot stand here", "write `is` or `be`"),
    (
        "shall thickness be 1 in thick",
        "`thick` cannot stand here",
        "leave out `thick` and what follows: the term says what is measured",
    ),
    ("shall layers be at least two", "`two` is not known", "write the number in figures: `2`"),
    (
        "shall operating temperature be above dew point",
        "`above dew point` is not known",
        "write `more than dew point`",
    ),
    (
        "shall operating temperature be not below dew point",
        "`below dew point` is not known",
        "write `less than dew point`",
    ),
    (
        "shall flame spread be 25 max",
        "`25 max` is a range where one value is needed",
        "write `at most` before the amount, and leave out `max`",
    ),
    ("shall outdoor", "`outdoor` is not known", "`outdoor` is a value of `location`: write `location is outdoor`"),
    (
        "shall location outdoor",
        "`location outdoor` is not known",
        "`outdoor` is a value of `location`: write `location is outdoor`",
    ),
    (
        "shall vapor retarder be provided",
        "`provided` is not a value of `vapor retarder`",
        "write `be not none`",
    ),
    ("if service is steam", "`if` cannot stand here", "write `where`"),
    (
        "may jacket be PVC",
        "`may` cannot stand here",
        "write `should` for what is recommended; what is only permitted needs no clause",
    ),
]
NEWCOMERS = [
    (
        "vapor retarder be given and not none",
        "`none` is a value, not a condition",
        "write `vapor retarder is not none`",
    ),
    (
        "air velocity be at most 4000 fpm",
        "`air velocity` is another name of the term `wind speed`",
        "write `wind speed`, or `duct air velocity` if that is meant",
    ),
    (
        "insulation be noncombustible",
        "`noncombustible` is yes or no and is not compared",
        "write `noncombustible` or `not noncombustible`",
    ),
    ("not none", "`none` is not known", "write the term before it, as in `jacket is none`"),
    (
        "fitting insulation be removable pad",
        "`removable pad` is not a value of `fitting insulation`",
        "it is a name of the term `removable cover`: write `removable cover`",
    ),
    (
        "component be strainer",
        "`strainer` is not a value of `component`",
        "it is a value of `fitting kind`: write `fitting kind is strainer`",
    ),
    (
        "seam closure be sealed",
        "`sealed` is not a value of `seam closure`",
        "its values are factory adhesive, contact adhesive, self-sealing lap, tape, staples, bands and 4 more; "
        '`speccheck terms --about "seam closure"` tells more, and a vocabulary of your own can add one',
    ),
    (
        "insulation be elastomric foam",
        "`elastomric foam` is not a value of `insulation`",
        "did you mean `elastomeric foam`?",
    ),
    (
        "joints sealed",
        "`joints sealed` is not known",
        "terms with `joint` are `staggered joints`, `joint tape` and `joint gap`; `speccheck terms --about joint` "
        "lists all; one that is not there goes into a vocabulary of your own",
    ),
    (
        "surface temperature be at least dew point plus 1 K",
        "a temperature plus a temperature has no meaning",
        "write a difference as `1 K difference`",
    ),
    (
        "jacket thickness be at least 26 gauge",
        "`26 gauge` is a gauge number, and its thickness depends on the metal",
        "write the thickness itself, such as `0.016 in` or `0.4 mm`",
    ),
    (
        "operating temperature be within 10 % of 75 F",
        "a temperature has no shares, so that `within 10 % of` has no meaning",
        "write how many degrees, as in `within 5 F of 75 F`, or `is between A and B`",
    ),
]
EQUALS = [
    "insulation be mineral wool or insulation be calcium silicate or approved equal",
    "either jacket be PVC or jacket be aluminum and jacket thickness be at least 0.016 in or approved equal",
    "jacket be PVC or approved equal",
    "(jacket be PVC or approved equal) or jacket be aluminum",
    "not (jacket be PVC or approved equal)",
    "(jacket be PVC or by another reading jacket be aluminum) or approved equal",
]
AMOUNTS = ["2 in", "½ in", "1-1/2 in", "DN 50", "DN50", "NPS 2", "NPS-2", "-40 F", "−40 F"]
RELATIONS = [
    ("above", "more than"),
    ("below", "less than"),
    ("not above", "at most"),
    ("not over", "at most"),
    ("not exceeding", "at most"),
    ("not below", "at least"),
    ("not under", "at least"),
    ("exactly", ""),
    ("up to", "at most"),
    ("larger than", "more than"),
]
BANDS = [
    ("below 2 in", "under 2 in"),
    ("below DN 50", "under 2 in"),
    ("above NPS 2", "over 2 in"),
    ("2 in and smaller", "up to 2 in"),
    ("above 2 in", "over 2 in"),
    ("2 in and larger", "2 in and over"),
]


def clause(text: str) -> Clause:
    """The clause that asks this."""
    loaded = parse_ruleset(f"{HEAD}shall {text}\n")
    assert loaded.usable, loaded.diagnostics
    assert loaded.ruleset is not None
    return loaded.ruleset.clauses[0]


@pytest.mark.parametrize(("written", "house"), SYNONYMS, ids=[written for written, _ in SYNONYMS])
def test_words_of_sections_mean_the_house_words_and_become_them(written: str, house: str) -> None:
    """The two mean the same, and the formatter writes the second."""
    assert clause(written).shall == clause(house).shall
    formatted = format_text(SourceText("x", f"{HEAD}shall {written}\n"))
    assert isinstance(formatted, str)
    assert formatted.splitlines()[-1].split() == ["shall", *house.replace("be over", "be more than").split()]


@pytest.mark.parametrize("amount", AMOUNTS)
@pytest.mark.parametrize(("relation", "house"), RELATIONS)
def test_every_relation_stands_before_every_form_of_an_amount(relation: str, house: str, amount: str) -> None:
    """A size by its name, a fraction and a number below nothing follow each synonym as they follow the house word."""
    term = "operating temperature" if amount.endswith("F") else "pipe size"
    assert clause(f"{term} be {relation} {amount}").shall == clause(f"{term} be {house} {amount}").shall


@pytest.mark.parametrize(("written", "message", "help"), ANSWERS, ids=[written for written, *_ in ANSWERS])
def test_other_words_of_sections_are_answered_with_the_house_word(written: str, message: str, help: str) -> None:
    """What cannot be taken for a synonym is answered with what to write, so that the help alone is enough."""
    found = [one for one in parse_ruleset(f"{HEAD}{written}\n").diagnostics if one.code != "L307"]
    assert [(one.message, one.help) for one in found] == [(message, help)]


@pytest.mark.parametrize(("written", "message", "help"), NEWCOMERS, ids=[written for written, *_ in NEWCOMERS])
def test_what_newcomers_wrote_is_answered_with_what_they_meant(written: str, message: str, help: str) -> None:
    """No foreign word, no name that only looks alike, and nothing that would be another rule."""
    found = [one for one in parse_ruleset(f"{HEAD}shall {written}\n").diagnostics if one.code != "L307"]
    assert [(one.message, one.help) for one in found] == [(message, help)]


@pytest.mark.parametrize("written", EQUALS)
def test_an_equal_may_stand_behind_several_alternatives(written: str) -> None:
    """It is of all of them, with `either` and without, and the formatter keeps what belongs to what."""
    formatted = format_text(SourceText("x", f"{HEAD}shall {written}\n"))
    assert isinstance(formatted, str)
    loaded = parse_ruleset(formatted)
    assert loaded.ruleset is not None, loaded.diagnostics
    assert loaded.ruleset.clauses[0].shall == clause(written).shall


def test_an_equal_behind_alternatives_is_of_all_of_them() -> None:
    """`A or B or approved equal` is what `one of A, B or approved equal` is."""
    (either,) = clause(EQUALS[0]).shall
    assert isinstance(either, OrEqual)
    assert isinstance(either.part, Some)
    assert len(either.part.parts) == 2


@pytest.mark.parametrize(("written", "house"), BANDS, ids=[written for written, _ in BANDS])
def test_bands_of_tables_in_the_words_of_sections(written: str, house: str) -> None:
    """A heading of a table may say what conditions may."""
    assert table_band(written) == table_band(house)


def table_band(text: str) -> object:
    """The band over the one column of a table."""
    written = f"table sizes in inches\n  by service, pipe size\n           | {text}\n  steam    | 2\n\n"
    loaded = parse_ruleset(
        f'ruleset "x"\n  speaks mechanical insulation\n\n{written}clause 1 "x"\n  shall thickness be at least sizes\n'
    )
    assert loaded.usable, loaded.diagnostics
    assert loaded.ruleset is not None
    (band,) = loaded.ruleset.tables["sizes"].axes[1].bands
    return band.interval


@pytest.mark.parametrize("name", ["below ambient", "above ceiling", "up front", "no frost", "higher range"])
def test_names_may_still_begin_with_such_words(name: str) -> None:
    """Only "below" and "above" before a number, and the others before "than" or "to", are words of the language."""
    defined = f'define {name}\n  as pipe size is at most 2 in\n\nclause 1 "x"\n  where {name}\n  shall not {name}\n'
    loaded = parse_ruleset(f'ruleset "x"\n  speaks mechanical insulation\n\n{defined}')
    assert loaded.usable, loaded.diagnostics


def test_values_that_begin_with_such_words_are_values() -> None:
    """`lower side` and "below grade" are values of the vocabulary."""
    clause("longitudinal seam location be lower side")
    clause("location is below grade")


def test_a_document_is_no_ruleset(tmp_path: Path) -> None:
    """A section named where a ruleset is meant is answered with the command that drafts from it."""
    path = tmp_path / "section.docx"
    path.write_bytes(b"PK\x03\x04")
    (found,) = load_ruleset(path).diagnostics
    assert (found.code, found.message, found.help) == (
        "L104",
        "`section.docx` is a document and no ruleset",
        "draft clauses from it: `speccheck draft section.docx --into project.clauses`",
    )


HOUSE_WORDS = [
    (
        "jacket be aluminum or PVC",
        "L201",
        "`PVC` is a value, not a condition",
        "write `jacket is one of aluminum, PVC`",
    ),
    (
        "jacket be either aluminum or PVC",
        "L201",
        "`PVC` is a value, not a condition",
        "write `jacket is one of aluminum, PVC`",
    ),
    (
        "location be penthouse",
        "L202",
        "`penthouse` is not one value of `location`",
        "it stands for several: write `one of mechanical room, outdoor`, or the one that is meant",
    ),
    (
        "thickness be at least 1 in unless concealed",
        "L101",
        "`unless` cannot stand here",
        "write `except where` on a line of its own",
    ),
    (
        "jacket be PVC unless concealed",
        "L202",
        "`PVC unless concealed` is not a value of `jacket`",
        "write `except where` on a line of its own",
    ),
    (
        "service is steam, location is outdoor",
        "L101",
        "`,` cannot stand here",
        "a name has no comma: join conditions by `and`, and write several values as `is one of A, B`",
    ),
    ("thickness be minimum 1 in", "L101", "`minimum` cannot stand here", "write `at least` before the amount"),
    ("thickness be 1 in maximum", "L101", "`maximum` cannot stand here", "write `at most` before the amount"),
    ("thickness be 1 in or more", "L201", "`more` is not known", "write `at least` before the amount"),
    ("thickness be 1 in or less", "L201", "`less` is not known", "write `at most` before the amount"),
    ("thickness not exceed 2 in", "L101", "`exceed` cannot stand here", "write `be at most`"),
    ("pipe size exceeds 2 in", "L101", "`exceeds` cannot stand here", "write `is more than`"),
]


@pytest.mark.parametrize(("written", "code", "message", "help"), HOUSE_WORDS, ids=[one[0] for one in HOUSE_WORDS])
def test_other_words_are_answered_with_the_house_word(written: str, code: str, message: str, help: str) -> None:
    """One diagnostic, at the word, with what to write instead."""
    (found,) = parse_ruleset(f"{HEAD}shall {written}\n").diagnostics
    assert (found.code, found.message, found.help) == (code, message, help)


def test_engine_exhaust_is_known() -> None:
    """The flue of an engine goes by that name."""
    assert clause("service is engine exhaust").shall == clause("service is flue").shall


def test_few_errors_stand_between_a_first_ruleset_and_one_that_parses() -> None:
    """Thirty clauses from the guide alone: 8 errors, where there were 25; each says what to write instead."""
    path = Path(__file__).parent / "mistakes" / "first-writer.clauses"
    found = load_ruleset(path).diagnostics
    assert path.read_text(encoding="utf-8").count("\nclause ") == 30
    assert len(found) <= 8
    assert all("write " in one.help and "`" in one.help for one in some(found))


def test_a_term_answers_to_the_name_that_it_had_formerly() -> None:
    """Rulesets that were written before a term had its trade name mean what they meant; other synonyms do not count."""
    assert clause("installed resistance be at least R-6").shall == clause("installed R-value be at least R-6").shall
    loaded = parse_ruleset(f"{HEAD}shall RSI be at least R-6\n")
    (found,) = (one for one in loaded.diagnostics if one.code == "L201")
    assert (found.message, found.help) == (
        "`RSI` is another name of the term `installed R-value`",
        "write `installed R-value`",
    )
