"""What a vocabulary says of doubtful words and amounts is resolved, checked and written in the house style."""

from __future__ import annotations

from pathlib import Path

from speccheck.language.loading import load_vocabulary
from speccheck.language.vocabulary.terms import Either

TEXT = """vocabulary "doubts"

term service
  either   "HWS", "hot water" is heating or domestic
  together heating, chilled water
  one of heating, domestic, chilled water

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
    service, temperature = loaded.vocabulary.terms.values()
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
    ]
