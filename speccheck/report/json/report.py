"""The JSON report, for other programs, and the schema that says what is in it."""

from __future__ import annotations

import math
from typing import Any

from speccheck.judge.cell import Cell
from speccheck.judge.judgement import Verdict
from speccheck.language.core import Clause
from speccheck.language.core.wording import value_text
from speccheck.language.diagnostics import in_order
from speccheck.language.vocabulary.values import NotGiven, Single
from speccheck.quantities import Day, Quantity
from speccheck.report import wording
from speccheck.report.escaping import encodable
from speccheck.report.json.beside import beside, place_model
from speccheck.report.line_words import understood
from speccheck.report.requests import requests, unchecked_sentence
from speccheck.review.matrix import Matrix
from speccheck.review.outcome import outcome_of
from speccheck.schedule.lines import Line


def render_json(matrix: Matrix) -> str:
    """Return the report as JSON, checked against its own models; `matrix.schema.json` describes it."""
    from speccheck.report.json.models import MatrixModel

    return MatrixModel.model_validate(encodable(_matrix(matrix))).model_dump_json(indent=1) + "\n"


def _matrix(matrix: Matrix) -> dict[str, Any]:
    """Return the whole report as plain values in the shape of `MatrixModel`."""
    result = outcome_of(matrix)
    return {
        "report": "speccheck compliance matrix",
        "version": 2,
        "outcome": {
            "status": result.status,
            "complete": result.complete,
            "heading": result.heading,
            "details": list(result.details),
        },
        "counts": {verdict.value.replace(" ", "_"): matrix.counts.get(verdict, 0) for verdict in Verdict},
        "ruleset": _ruleset(matrix),
        "schedule": _schedule(matrix),
        "cells": [
            _cell(line, clause, cell, matrix.ruleset.units)
            for line, row in enumerate(matrix.told)
            for clause, cell in enumerate(row)
        ],
        "missing_data": _missing(matrix),
        **beside(matrix),
        "cautions": list(wording.cautions(matrix.ruleset)),
        "not_checked_by_this_program": unchecked_sentence(matrix.ruleset),
    }


def _ruleset(matrix: Matrix) -> dict[str, Any]:
    ruleset = matrix.ruleset
    return {
        "name": ruleset.name,
        "edition": ruleset.edition,
        "document": ruleset.document,
        "jurisdiction": ruleset.jurisdiction,
        "verified": ruleset.verified,
        "covers": ruleset.covers,
        "leaves_out": ruleset.leaves_out,
        "clauses": [_clause(clause) for clause in ruleset.clauses],
        "paragraphs_not_checked": [
            {
                "number": one.name,
                "title": one.title,
                "ruleset": one.ruleset,
                "reason": one.reason.value,
                "because": one.because,
                "wording": one.wording,
            }
            for one in ruleset.unchecked
        ],
    }


def _clause(clause: Clause) -> dict[str, Any]:
    return {
        "label": wording.clause_label(clause),
        "title": clause.title,
        "ruleset": clause.ruleset,
        "wording": clause.wording,
        "reason": clause.reason,
        "sources": [{"text": source.text, "confidence": str(source.confidence)} for source in clause.sources],
        "notes": list(clause.notes),
        "cautions": list(clause.cautions),
    }


def _schedule(matrix: Matrix) -> dict[str, Any]:
    schedule = matrix.schedule
    return {
        "name": schedule.name,
        "lines": [_line(index, line, matrix) for index, line in enumerate(schedule.lines)],
        "columns": [
            {
                "header": one.header,
                "term": one.term,
                "unit": one.unit,
                "note": one.note,
                "place": place_model(one.place),
            }
            for one in schedule.columns
        ],
        "remarks": [{"text": remark.text, "place": place_model(remark.place)} for remark in schedule.remarks],
        "unread": [
            {"kind": str(one.kind), "text": one.text, "place": place_model(one.place), "lines": list(one.lines)}
            for one in schedule.unread
        ],
        "diagnostics": [
            {
                "code": found.code,
                "severity": str(found.severity),
                "message": found.message,
                "help": found.help,
                "place": place_model(found.place),
            }
            for found in in_order(schedule.diagnostics)
        ],
    }


def _line(index: int, line: Line, matrix: Matrix) -> dict[str, Any]:
    terms, system = matrix.ruleset.vocabulary.terms, matrix.ruleset.units
    return {
        "name": line.name,
        "verdict": str(matrix.line_verdict(index)),
        "place": place_model(line.place),
        "data": [
            {
                "term": name,
                "text": datum.text,
                "understood": understood(datum, terms.get(name), system),
                "given": not isinstance(datum.value, NotGiven),
                "note": datum.note,
                "inferred": datum.inferred,
                "place": place_model(datum.place),
            }
            for name, datum in line.data.items()
        ],
    }


def _cell(line: int, clause: int, cell: Cell, system: str) -> dict[str, Any]:
    return {
        "line": line,
        "clause": clause,
        "verdict": str(cell.verdict),
        "mandatory": cell.mandatory,
        "basis": str(cell.basis),
        "reason": cell.reason,
        "at": list(cell.at),
        "missing": list(cell.missing),
        "notes": list(cell.notes),
        "advice": None if cell.advice is None else str(cell.advice),
        "advice_reason": cell.advice_reason,
        "steps": [
            {
                "part": one.part,
                "depth": one.depth,
                "holds": one.truth,
                "text": one.text,
                "detail": one.detail,
                "values": [_value(value, system) for value in one.values],
            }
            for one in cell.steps
        ],
    }


def _value(value: Single, system: str) -> dict[str, Any]:
    """Return an amount with its full number; twelve digits keep the roundings of conversions out."""
    number, unit = (value.in_unit(value.unit), value.unit) if isinstance(value, Quantity) else (value, "")
    known = isinstance(number, int | float) and not isinstance(number, bool | Day) and math.isfinite(number)
    return {"number": float(f"{number:.12g}") if known else None, "unit": unit, "text": value_text(value, system)}


def _missing(matrix: Matrix) -> list[dict[str, Any]]:
    lines = {id(line): index for index, line in enumerate(matrix.schedule.lines)}
    clauses = {id(clause): index for index, clause in enumerate(matrix.ruleset.clauses)}
    return [
        {
            "line": lines[id(request.line)],
            "term": request.term,
            "says": request.says,
            "clauses": [clauses[id(clause)] for clause in request.clauses],
        }
        for request in requests(matrix)
    ]
