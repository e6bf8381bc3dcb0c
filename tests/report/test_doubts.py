"""What was in doubt in a schedule: errors first, like diagnostics together, nothing said twice."""

from __future__ import annotations

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.report.doubts import doubts, places_words, remarks_by_row, silent_columns
from speccheck.schedule.lines import Column, Remark, Schedule


def found(code: str, severity: Severity, message: str, cell: str, help: str = "") -> Diagnostic:
    """Return a diagnostic at a cell of the sheet "P"."""
    return Diagnostic(code, severity, message, Place("s.xlsx", sheet="P", cell=cell), help)


def test_like_diagnostics_are_put_together() -> None:
    """One message at several places is told once with all of them, and the help of a group once."""
    given = [
        found("S209", Severity.NOTE, "`ICE WATER` was read as a heading", "A3", "say it on each line"),
        found("S301", Severity.WARNING, "`HHWS/R` is not a value of `service`", "B9", "did you mean `HWS/R`?"),
        found("S301", Severity.WARNING, "`HHWS/R` is not a value of `service`", "B7", "did you mean `HWS/R`?"),
        found("S209", Severity.NOTE, "`STEAM` was read as a heading", "A8", "say it on each line"),
    ]
    assert [(one.severity, one.code, one.help, one.messages) for one in doubts(given)] == [
        (
            Severity.WARNING,
            "S301",
            "did you mean `HWS/R`?",
            (("sheet P, B7, B9", "`HHWS/R` is not a value of `service`"),),
        ),
        (
            Severity.NOTE,
            "S209",
            "say it on each line",
            (
                ("sheet P, A3", "`ICE WATER` was read as a heading"),
                ("sheet P, A8", "`STEAM` was read as a heading"),
            ),
        ),
    ]


def test_places_name_each_sheet_once() -> None:
    """Cells are listed under their sheet; places in a text file are lines."""
    places = [Place("s", sheet="P", cell="B4"), Place("s", sheet="Q", cell="A1"), Place("s", sheet="P", cell="B7")]
    assert places_words(places) == "sheet P, B4, B7; sheet Q, A1"
    cells = ["AA1", "B10", "B8", "Z3", "B9", "B12"]
    in_columns = "sheet P, B8 through B10, B12, Z3, AA1"
    assert places_words([Place("s", sheet="P", cell=cell) for cell in cells]) == in_columns
    assert places_words([Place("s.csv", line=9)]) == "line 9"
    assert places_words([Place("s.csv")]) == ""


def test_cells_of_a_row_are_told_together() -> None:
    """Text that belongs to no line is told row by row, in the order in which it stands."""
    texts = [("A1", "Insulation schedule"), ("A2", "Jacket"), ("C2", "Seam"), ("A3", "NOTES:")]
    remarks = [Remark(text, Place("s.xlsx", sheet="P", cell=cell)) for cell, text in texts]
    assert remarks_by_row([*remarks, Remark("end", Place("s.csv", line=2))]) == (
        ("sheet P, A1", "Insulation schedule"),
        ("sheet P, A2", "Jacket | Seam"),
        ("sheet P, A3", "NOTES:"),
        ("line 2", "end"),
    )


def test_a_column_that_became_no_term_is_told_once() -> None:
    """A column of which a diagnostic speaks is left to the diagnostic; another one is not passed over."""
    spoken, silent, known = (Place("s.xlsx", sheet="P", cell=cell) for cell in ("A1", "B1", "C1"))
    schedule = Schedule(
        "s.xlsx",
        (),
        (Column(spoken, "Rev."), Column(silent, "Mark", note="names of the lines"), Column(known, "Svc", "service")),
        diagnostics=(Diagnostic("S204", Severity.WARNING, "the header `Rev.` names no term", spoken),),
    )
    assert silent_columns(schedule) == (("sheet P, B1", "column `Mark` became no term: names of the lines"),)
