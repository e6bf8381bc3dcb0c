"""Whatever a page does to a review can be undone: the folder is then as it was, to the byte."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from starlette.routing import Route
from starlette.testclient import TestClient

from speccheck.desk.application import MODULES
from speccheck.desk.desk import Desk
from speccheck.desk.projects import Projects, fingerprint
from tests.desk.clients import ORIGIN, TOKEN, client_of

ROWS = b"Mark,Service,Thickness,Lead hand,Jacket\nA,steam,1 in,x,WJ-2\nB,steam,2 in,y,PVC\nDelivered by others,,,,\n"
REVIEW = "/projects/plant"

STEPS: tuple[tuple[str, dict[str, Any], dict[str, Any]], ...] = (
    ("settle", {"round": "01", "kind": "ignore", "key": "Mark"}, {}),
    ("settle", {"round": "01", "kind": "columns", "key": "Lead hand", "term": "location"}, {}),
    ("settle", {"round": "01", "kind": "values", "key": "WJ-2", "term": "jacket", "value": "PVC"}, {}),
    ("settle", {"round": "01", "kind": "seen", "key": ["one remark", "another"]}, {}),
    ("settle", {"round": "01", "kind": "notes", "key": "Delivered by others"}, {}),
    ("settle", {"round": "01", "kind": "units", "value": "metric"}, {}),
    ("note", {"round": "01", "lines": "0 1", "clause": "0", "text": "Revise.", "status": "open"}, {}),
    (
        "note",
        {"round": "01", "lines": "0", "clause": "0", "text": "", "seen-text": "Revise.", "seen-status": "open"},
        {},
    ),
    ("papers", {"kind": "design"}, {"file": ("d.csv", b"Service,Pipe Size\nsteam,2 in\n")}),
    ("papers", {"kind": "design"}, {"file": ("e.csv", b"Service,Pipe Size\nsteam,4 in\n")}),
    ("papers", {"kind": "products"}, {"file": ("p.csv", b"Product,Insulation\nInvented,fiberglass\n")}),
    ("papers/day", {"on": "2026-03-04"}, {}),
    ("papers/out", {"kind": "design", "name": "design-02-e.csv"}, {}),
    ("sent", {"round": "01"}, [("sent", ("reply.docx", b"PK 1")), ("sent", ("marked.pdf", b"%PDF-"))]),
    ("sent", {"round": "01"}, {"sent": ("reply.docx", b"PK 2")}),
    ("clauses/copy", {}, {}),
    ("clauses", {"source": 'ruleset "Mine"\n  speaks mechanical insulation\n'}, {}),
    ("rounds", {}, {"schedule": ("second.csv", ROWS.replace(b"1 in", b"3 in"))}),
    ("rounds", {}, [("schedule", ("a.csv", ROWS)), ("schedule", ("b.csv", ROWS))]),
)
"""Each way in which a page changes a review: the end of its address, the form, the files."""


@pytest.fixture
def client(tmp_path: Path) -> Iterator[TestClient]:
    """A client of a desk on an empty folder, which has its cookie."""
    with client_of(Projects.of(tmp_path), follow_redirects=False, headers=ORIGIN) as found:
        found.get(f"/?token={TOKEN}")
        yield found


def files(folder: Path) -> dict[str, bytes]:
    """Return the files of all reviews by their paths, without what the desk keeps for itself."""
    found = (one for one in folder.rglob("*") if one.is_file())
    named = {one.relative_to(folder).as_posix(): one for one in found}
    return {name: one.read_bytes() for name, one in named.items() if "/history/" not in name and "/.lock" not in name}


def undo(client: TestClient, folder: Path) -> None:
    """Press the button that undoes the last step."""
    step = Projects.of(folder).find("plant").last_step()
    assert step is not None
    assert client.post(f"{REVIEW}/undo", data={"step": step.number, "screen": "findings"}).status_code == 303


def test_every_step_of_every_page_can_be_undone(client: TestClient, tmp_path: Path) -> None:
    """Each step is done, undone and done again; at the end all are undone, the last first, until nothing is left."""
    form = {"against": "trade-practice", "name": "Plant"}
    states = [files(tmp_path)]
    client.post("/check", data=form, files={"schedule": ("s.csv", ROWS)})
    states.append(files(tmp_path))
    for end, data, sent in STEPS:
        for again in (False, True):
            if end == "clauses":
                data = data | {"seen": fingerprint(tmp_path / "plant" / "clauses" / "project.clauses")}
            answer = client.post(f"{REVIEW}/{end}", data=data, files=sent or None)
            assert answer.status_code == 303, (end, re.findall("<(?:p|li|h1)[^>]*>([^<]*)", answer.text))
            after = files(tmp_path)
            assert after != states[-1], (end, data)
            if not again:
                undo(client, tmp_path)
                assert files(tmp_path) == states[-1], (end, data)
        states.append(after)
    for before in reversed(states[1:-1]):
        undo(client, tmp_path)
        assert files(tmp_path) == before
    while Projects.of(tmp_path).all():
        undo(client, tmp_path)
    assert files(tmp_path) == states[0] == {}


def test_no_way_to_change_a_review_is_left_out(tmp_path: Path) -> None:
    """Every address of a review to which a form goes is among the steps above; one asks, and changes nothing."""
    desk = Desk(Projects.of(tmp_path))
    routes: list[Route] = [route for screen in MODULES for route in screen.routes(desk)]
    begin = "/projects/{project}/"
    changing = {
        one.path.removeprefix(begin) for one in routes if one.path.startswith(begin) and "POST" in (one.methods or ())
    }
    assert changing - {end for end, _, _ in STEPS} == {"clauses/ask"}
