"""What a vocabulary says of doubtful words and amounts is resolved, checked and written in the house style."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

from speccheck.language.format.house_style import format_text
from speccheck.language.loading import load_vocabulary
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.vocabulary.terms import Either, Inferred, Vocabulary
from speccheck.language.vocabulary.values import read_value
from speccheck.quantities import NominalSize

TEXT = """vocabulary "doubts"

term service
  either   "HWS", "hot water" is heating or domestic
  together heating, chilled water
  one of heating, domestic, chilled water

term component
  inferred pipe where service is heating, domestic and temperature is stated
  inferred duct where service is chilled water
  one of pipe, duct

term temperature  temperature
  beside   service
  sensible 30 F to 75 F where service is chilled water
"""


def test_statements_are_resolved(tmp_path: Path) -> None:
    """Words of several values, groups, neighbors and ranges stand on their terms."""
    file = tmp_path / "doubts.clauses"
    file.write_text(TEXT, encoding="utf-8")
    loaded = load_vocabulary(file)
    assert loaded.diagnostics == ()
    service, component, temperature = loaded.vocabulary.terms.values()
    assert component.inferred == (
        Inferred("pipe", "service", ("heating", "domestic"), "temperature"),
        Inferred("duct", "service", ("chilled water",)),
    )
    assert service.either == (Either(("hws", "hot water"), ("heating", "domestic")),)
    assert service.together == (("heating", "chilled water"),)
    assert temperature.beside == ("service",)
    sensible = temperature.sensible[0]
    assert (str(sensible.range), sensible.where, sensible.values) == (
        "30 F through 75 F",
        "service",
        ("chilled water",),
    )


CHOICES = """vocabulary "doubts"

term service
  one of steam, supply air, flue

term component
  sensible not duct where service is steam
  one of pipe, duct

term concealed  yes or no
  sensible yes where component is duct

term pipe size  nominal size
  sensible up to 8 in where service is steam
"""


def test_lists_answers_and_sizes_can_be_sensible(tmp_path: Path) -> None:
    """What goes together is said of choices, of yes and no and of sizes as it is of amounts."""
    file = tmp_path / "doubts.clauses"
    file.write_text(CHOICES, encoding="utf-8")
    loaded = load_vocabulary(file)
    assert loaded.diagnostics == ()
    _, component, concealed, size = (term.sensible for term in loaded.vocabulary.terms.values())
    assert [component[0].allows(value) for value in ("pipe", "duct")] == [True, False]
    assert [concealed[0].allows(value) for value in (True, False)] == [True, False]
    assert [size[0].allows(NominalSize(Fraction(inches))) for inches in (8, 10)] == [True, False]
    assert format_text(SourceText("doubts.clauses", CHOICES)) == CHOICES


def test_unknown_values_of_a_list_are_told(tmp_path: Path) -> None:
    """A value that the term does not have is an error with its place, and so is a value of a yes-or-no term."""
    file = tmp_path / "doubts.clauses"
    wrong = CHOICES.replace("not duct", "not dukt").replace("sensible yes", "sensible pipe")
    file.write_text(wrong, encoding="utf-8")
    found = [(each.code, each.message, each.help) for each in load_vocabulary(file).diagnostics]
    assert found == [
        ("L202", "`dukt` is no value of `component`", "did you mean `duct`?"),
        ("L202", "`pipe` is no value of `concealed`", "write yes or no"),
    ]


def test_unknown_names_are_told(tmp_path: Path) -> None:
    """A value or a term that the vocabulary does not have is an error with its place."""
    file = tmp_path / "doubts.clauses"
    file.write_text(TEXT.replace("is chilled water", "is chiled water").replace("or domestic", "or domestik"), "utf-8")
    found = [(each.code, each.message, each.help) for each in load_vocabulary(file).diagnostics]
    assert found == [
        ("L202", "`domestik` is no value of `service`", "did you mean `domestic`?"),
        ("L202", "`chiled water` is no value of `service`", "did you mean `chilled water`?"),
        ("L202", "`chiled water` is no value of `service`", "did you mean `chilled water`?"),
    ]


def test_an_inference_names_what_there_is(tmp_path: Path) -> None:
    """The value has to be one of the term's, and both other names those of terms."""
    file = tmp_path / "doubts.clauses"
    file.write_text(TEXT.replace("inferred duct where service", "inferred ducts where servise"), "utf-8")
    found = [(each.code, each.message, each.help) for each in load_vocabulary(file).diagnostics]
    assert found == [
        ("L202", "`ducts` is no value of `component`", "did you mean `duct`?"),
        ("L201", "`servise` is no term of this vocabulary", "did you mean `service`?"),
    ]


ANSWERS = """vocabulary "answers"

term concealed  yes or no
  yes also "concealed", "hidden from view"
  no also "exposed"

term count  count
  yes also "some"
"""


def test_words_that_answer_yes_and_no(tmp_path: Path) -> None:
    """Words of a term of yes or no are read as its answers, the house style keeps them, and no other term has any."""
    file = tmp_path / "answers.clauses"
    file.write_text(ANSWERS, encoding="utf-8")
    loaded = load_vocabulary(file)
    assert [str(found) for found in loaded.diagnostics] == [
        "error[L202]: `count` is of the kind count, to which nothing answers yes or no\n"
        f"  at {file.name}:8:3\n"
        '  |   yes also "some"\n'
        "  |   ^^^^^^^^^^^^^^^\n"
        "  help: leave it out, or make the term one of yes or no"
    ]
    good = ANSWERS.partition("term count")[0]
    assert format_text(SourceText(file.name, good)) == good.strip() + "\n"
    concealed = load_text(good, tmp_path).terms["concealed"]
    read = [read_value(text, concealed) for text in ("Concealed", "hidden from view", "EXPOSED", "yes", "no")]
    assert read == [True, True, False, True, False]


def load_text(text: str, folder: Path) -> Vocabulary:
    """Return the vocabulary of a text without faults."""
    file = folder / "good.clauses"
    file.write_text(text, encoding="utf-8")
    found = load_vocabulary(file)
    assert found.diagnostics == ()
    assert found.vocabulary is not None
    return found.vocabulary


def test_numbers_without_a_unit_have_a_range_of_their_own(tmp_path: Path) -> None:
    """The range is kept apart, written in the house style, and asked only where nothing states a unit."""
    text = (
        'vocabulary "doubts"\n\nterm thickness  length\n  sensible up to 10 in\n  sensible 3 mm to 5 in without unit\n'
    )
    file = tmp_path / "doubts.clauses"
    file.write_text(text, encoding="utf-8")
    loaded = load_vocabulary(file)
    assert loaded.diagnostics == ()
    (thickness,) = loaded.vocabulary.terms.values()
    assert [str(each.range) for each in thickness.sensible] == ["10 in and under"]
    assert [str(each.range) for each in thickness.sensible_numbers] == ["3 mm through 5 in"]
    assert format_text(SourceText("doubts.clauses", text)) == text


def test_a_list_has_no_unit_to_leave_out(tmp_path: Path) -> None:
    """Only amounts can be written without a unit."""
    file = tmp_path / "doubts.clauses"
    file.write_text(
        'vocabulary "doubts"\n\nterm component\n  sensible not duct without unit\n  one of pipe, duct\n',
        encoding="utf-8",
    )
    (found,) = load_vocabulary(file).diagnostics
    assert (found.code, found.place.line, found.place.column) == ("L205", 4, 12)
    assert found.message == "`sensible not duct without unit` is a list, and only amounts have units"
    assert found.help == "write a range, such as 3 mm to 5 in, or leave it out"
