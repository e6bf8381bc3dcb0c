"""What a vocabulary says of doubtful words and amounts is resolved, checked and written in the house style."""

from __future__ import annotations

from pathlib import Path

from speccheck.language.loading import load_vocabulary
from speccheck.language.vocabulary.terms import Either, Inferred

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
