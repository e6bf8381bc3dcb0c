"""The list that a reviewer works through stays as it was narrowed while notes are saved."""

from __future__ import annotations

from pathlib import Path

from speccheck.desk.projects import Projects
from tests.desk.clients import ORIGIN, TOKEN, client_of

CLAUSES = 'ruleset "Mine"\n  speaks mechanical insulation\n\nclause 1 "Thickness"\n  shall thickness be at least 1 in\n'
ROWS = b"Mark,Service,Thickness\nA,steam,1/2 in\nB,brine,1/2 in\nC,chilled water,3/4 in\n"


def test_what_is_shown_stays_narrowed_when_a_note_is_saved(tmp_path: Path) -> None:
    """Of three findings without a note two have other words; one gets its note: it is saved, and the other two stay."""
    with client_of(Projects.of(tmp_path), headers=ORIGIN) as client:
        client.get(f"/?token={TOKEN}")
        sent = {"schedule": ("s.csv", ROWS), "clauses": ("p.clauses", CLAUSES.encode())}
        client.post("/check", data={"against": "own clauses", "name": "Plant"}, files=sent)
        form = {"round": "01", "lines": "2", "clause": "0", "text": "Revise.", "seen-text": "", "seen-status": ""}
        shown = {"verdict": "fails", "only": "open", "text": "thickness is"}
        answer = client.post("/projects/plant/note", data=form | {f"shown-{key}": shown[key] for key in shown})
        assert answer.status_code == 200
        assert {key: answer.url.params[key] for key in shown} == shown
        assert '<p class="saved" role="status">Saved.</p>' in answer.text
        assert ">A</a>" in answer.text
        assert ">B</a>" in answer.text
        assert ">C</a>" not in answer.text
        assert '<input type="hidden" name="shown-only" value="open">' in answer.text
