"""Matrices for the tests of reports: read from small files, or made large by counting."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from speccheck.judge.cell import Cell, Explanation, Grounds, Step
from speccheck.judge.judgement import Basis, Verdict
from speccheck.language.core import Clause, Confidence, Ruleset, Source
from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.language.vocabulary.terms import Choice, Form, Kind, Term, Vocabulary
from speccheck.language.vocabulary.values import NotGiven, read_value
from speccheck.quantities import Misread
from speccheck.review.matrix import Matrix
from speccheck.schedule.lines import Column, Datum, Line, Remark, Schedule

DATA = Path(__file__).parent / "data"
FILE = "schedule.xlsx"
SHEET = "Piping"


def matrix_of(name: str) -> Matrix:
    """Return the matrix that the file `name` in the data folder describes."""
    stated = tomllib.loads((DATA / f"{name}.toml").read_text(encoding="utf-8"))
    vocabulary = Vocabulary("small", {term["name"]: _term(term) for term in stated["terms"]})
    ruleset = _ruleset(stated, vocabulary)
    schedule = _schedule(stated, vocabulary)
    cells = {(cell.pop("line"), cell.pop("clause")): _cell(cell) for cell in stated["cells"]}
    rows = tuple(
        tuple(cells.get((line.name, clause.name), _OFF) for clause in ruleset.clauses) for line in schedule.lines
    )
    return Matrix(schedule, ruleset, rows)


def explained(
    verdict: Verdict,
    basis: Basis,
    explanation: Explanation,
    *,
    missing: tuple[str, ...] = (),
    advice: Verdict | None = None,
    mandatory: bool = True,
) -> Cell:
    """Return a cell that is in words already, and rests on nothing."""
    grounds = Grounds(Clause("1", "a clause", "small"))
    return Cell(
        verdict, advice, mandatory, basis=basis, grounds=grounds, explainer=lambda cell: explanation, missing=missing
    )


_OFF = explained(Verdict.NOT_APPLICABLE, Basis.OUT_OF_SCOPE, Explanation("the service is another one"))
_TRUTHS = {"yes": True, "no": False, "": None}


def _term(stated: dict[str, Any]) -> Term:
    choices = tuple(Choice(name, tuple(also)) for name, also in stated.get("choices", {}).items())
    kind = Kind(Form(stated["form"]), stated.get("dimension", ""))
    return Term(stated["name"], kind, choices, inch_pound="in" if kind.dimension == "length" else "")


def _ruleset(stated: dict[str, Any], vocabulary: Vocabulary) -> Ruleset:
    head = stated["ruleset"]
    clauses = tuple(_clause(clause, head["name"]) for clause in stated["clauses"])
    texts = {name: head.get(name, "") for name in ("edition", "covers", "leaves_out")}
    return Ruleset(head["name"], vocabulary, clauses, cautions=tuple(head.get("cautions", ())), **texts)


def _clause(stated: dict[str, Any], ruleset: str) -> Clause:
    return Clause(
        stated["name"],
        stated["title"],
        ruleset,
        sources=tuple(Source(text, Confidence(confidence)) for text, confidence in stated.get("sources", ())),
        wording=stated.get("wording", ""),
        reason=stated.get("reason", ""),
        cautions=tuple(stated.get("cautions", ())),
        notes=tuple(stated.get("notes", ())),
    )


def _place(cell: str) -> Place:
    return Place(file=FILE, sheet=SHEET, cell=cell)


def _schedule(stated: dict[str, Any], vocabulary: Vocabulary) -> Schedule:
    diagnostics = tuple(
        Diagnostic(one["code"], Severity(one["severity"]), one["message"], _place(one["cell"]), one.get("help", ""))
        for one in stated.get("diagnostics", ())
    )
    columns = tuple(
        Column(_place(one["cell"]), one["header"], one.get("term", ""), one.get("unit", ""), one.get("note", ""))
        for one in stated.get("columns", ())
    )
    remarks = tuple(Remark(one["text"], _place(one["cell"])) for one in stated.get("remarks", ()))
    return Schedule(FILE, tuple(_line(line, vocabulary) for line in stated["lines"]), columns, remarks, diagnostics)


def _line(stated: dict[str, Any], vocabulary: Vocabulary) -> Line:
    data = {}
    for name, text in stated["data"].items():
        value = read_value(text, vocabulary.terms[name])
        data[name] = Datum(NotGiven(text, "not read") if isinstance(value, Misread) else value, text)
    return Line(stated["name"], data, _place(stated["cell"]))


def _cell(stated: dict[str, Any]) -> Cell:
    steps = tuple(
        Step(part, depth, _TRUTHS[truth], text, detail) for part, depth, truth, text, detail in stated.get("steps", ())
    )
    explanation = Explanation(
        stated["reason"],
        steps,
        at=tuple(stated.get("at", ())),
        notes=tuple(stated.get("notes", ())),
        advice_reason=stated.get("advice_reason", ""),
    )
    return explained(
        Verdict(stated["verdict"]),
        Basis(stated["basis"]),
        explanation,
        missing=tuple(stated.get("missing", ())),
        advice=Verdict(stated["advice"]) if "advice" in stated else None,
        mandatory=stated.get("mandatory", True),
    )


# ---- large matrices ----------------------------------------------------------------------------------------------

_SERVICES = ("chilled water", "heating hot water", "refrigerant suction", "domestic cold water", "steam condensate")
_TITLES = ("Minimum thickness", "Vapor stops on straight runs", "Outdoor jackets", "Butt joints", "Seams in wash-down")
# Of 20 cells in a row 12 do not apply, 5 comply, 2 fail, 1 waits for data: about what a real schedule gives.
_PATTERN = tuple({"-": "off", "o": "ok", "f": "fail", "a": "ask"}[letter] for letter in "--o-f-o--a-o-f-o--o-")


def large_matrix(lines: int, clauses: int) -> Matrix:
    """Return a matrix of `lines` by `clauses` in which no two findings need have the same working."""
    terms = {name: Term(name, Kind(Form.TEXT)) for name in ("service", "pipe size", "thickness", "vapor stop spacing")}
    ruleset = Ruleset("A large ruleset", Vocabulary("large", terms), tuple(_nth_clause(n) for n in range(clauses)))
    schedule = Schedule("large.xlsx", tuple(_nth_line(n) for n in range(lines)))
    rows = tuple(tuple(_nth_cell(line, clause) for clause in range(clauses)) for line in range(lines))
    return Matrix(schedule, ruleset, rows)


def _nth_clause(n: int) -> Clause:
    wording = (
        f"Requirement {n} of an invented specification, with about as many words as such a clause has in practice."
    )
    source = Source("Common practice", Confidence.COMMON_PRACTICE)
    return Clause(f"{2 + n // 20}.{n % 20 + 1}", _TITLES[n % 5], "A large ruleset", wording=wording, sources=(source,))


def _nth_line(n: int) -> Line:
    stated = {
        "service": _SERVICES[n % 5],
        "pipe size": f"{1 + n % 12} in",
        "thickness": f"{1 + n % 3} in",
        "vapor stop spacing": "TBD" if n % 4 == 0 else "12 ft",
    }
    place = Place(file="large.xlsx", sheet="Piping", cell=f"A{n + 4}")
    return Line(f"P-{n + 1}", {name: Datum(text, text) for name, text in stated.items()}, place)


def _nth_cell(line: int, clause: int) -> Cell:
    what = _PATTERN[(line * 7 + clause * 3 + line // 5) % 20]
    service = _SERVICES[line % 5]
    scope = Step("where", 0, what != "off", f"service is {_SERVICES[clause % 5]}", service)
    if what == "off":
        return explained(Verdict.NOT_APPLICABLE, Basis.OUT_OF_SCOPE, Explanation(f"service is {service}", (scope,)))
    asked = Step("shall", 0, {"ok": True, "fail": False}.get(what), "thickness is at least thickness asked for")
    table = Step("shall", 1, True, "thickness asked for", f"2 in: row 141 F to 200 F, column {1 + line % 12} in")
    steps = (scope, asked, table)
    if what == "ok":
        told = Explanation(f"thickness is {1 + line % 3} in, as asked for", steps)
        return explained(Verdict.COMPLIES, Basis.MET, told)
    if what == "ask":
        told = Explanation("vapor stop spacing is not given", steps)
        return explained(Verdict.CANNOT_TELL, Basis.NOT_KNOWN, told, missing=("vapor stop spacing",))
    told = Explanation(f"thickness is {1 + line % 3} in, and 2 in is asked for", steps)
    return explained(Verdict.FAILS, Basis.NOT_MET, told)
