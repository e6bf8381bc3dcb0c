"""Values that a line does not state itself: where each came from reaches the page, the JSON report and the finding."""

from __future__ import annotations

import json
from pathlib import Path

import speccheck
from speccheck.report.html.page import render_page
from speccheck.report.json.report import render_json
from tests.report.page_reader import read_page

RULES = """ruleset "invented"
  speaks  mechanical insulation
  units   inch-pound

clause 1 "Thickness"
  where   service is chilled water
  shall   thickness be at least 1-1/2 in
"""
SCHEDULE = """CHILLED WATER SYSTEMS,,
Tag,Size,Thickness
P-1,2 in,1 in
P-2,4 in,1 in
"""


def test_where_a_value_came_from_stands_on_the_page_and_with_the_finding(tmp_path: Path) -> None:
    """The service of the heading is listed once for both lines, and the data of each finding say where it is from."""
    (tmp_path / "rules.clauses").write_text(RULES, encoding="utf-8")
    (tmp_path / "schedule.csv").write_text(SCHEDULE, encoding="utf-8")
    matrix = speccheck.check(tmp_path / "schedule.csv", against=tmp_path / "rules.clauses").matrix
    page = read_page(render_page(matrix))
    (table,) = [one for one in page.named("table") if one.attributes.get("id") == "inferred"]
    words = " ".join(table.text.split())
    assert "servicefrom the heading in A12P-1: CHILLED WATER SYSTEMS read as chilled water" in words
    report = json.loads(render_json(matrix))
    assert [cell["verdict"] for cell in report["cells"]] == ["does not comply", "does not comply"]
    for line in report["schedule"]["lines"]:
        data = {datum["term"]: datum for datum in line["data"]}
        assert (data["service"]["note"], data["service"]["inferred"]) == ("from the heading in A1", True)
        assert data["component"]["note"].startswith("inferred from `service` chilled water")
        assert not data["thickness"]["inferred"]
