"""What cannot be done is told on a page with a way on, and what somebody wrote is shown, so that it is not lost."""

from __future__ import annotations

from pathlib import Path

import pytest
from starlette.testclient import TestClient

from speccheck.desk import findings_screen
from speccheck.desk.desk import Desk
from speccheck.desk.projects import Project, Projects
from tests.desk.clients import ORIGIN, TOKEN, client_of

NOTE = {"round": "01", "lines": "0", "clause": "0", "text": "Revise <b>this</b>.", "status": "open"}


@pytest.fixture
def project(tmp_path: Path) -> Project:
    """A review with one round."""
    made = Projects(tmp_path).make("Plant", "trade-practice")
    made.write(("rounds", "01", "submittal.csv"), "Service,Thickness\nsteam,1 in\n", "", "submittal")
    return made


@pytest.fixture
def client(tmp_path: Path, project: Project) -> TestClient:
    """A client of a desk on the folder, which has its cookie."""
    found = client_of(Projects.of(tmp_path), follow_redirects=False, raise_server_exceptions=False)
    found.get(f"/?token={TOKEN}")
    return found


@pytest.mark.parametrize("address", ["/nowhere", "/projects/plant/nowhere", "/static/nothing.js"])
def test_an_address_that_there_is_not_has_a_page(client: TestClient, address: str) -> None:
    """A mistyped or old address is told as one, on a page from which somebody can go on."""
    found = client.get(address)
    assert found.status_code == 404
    assert "There is no page at this address." in found.text
    assert '<a href="/">' in found.text


def test_a_note_that_is_too_long_is_shown_and_not_lost(client: TestClient) -> None:
    """The words stand on the page that refuses them, as text and never as markup, beside a way back to the review."""
    long = NOTE["text"] + "x" * findings_screen.LONGEST_NOTE
    found = client.post("/projects/plant/note", headers=ORIGIN, data={**NOTE, "text": long})
    assert found.status_code == 400
    assert "This note is too long." in found.text
    assert "Revise &lt;b&gt;this&lt;/b&gt;.xxx" in found.text
    assert '<a href="/projects/plant">Back to the review</a>' in found.text


@pytest.mark.parametrize(
    ("fault", "status", "told"),
    [
        (PermissionError(13, "Permission denied"), 507, "The folder of the reviews cannot be used: permission denied."),
        (OSError(28, "No space left on device"), 507, "The folder of the reviews cannot be used: no space left on"),
        (TimeoutError(), 503, "Another desk is writing to this review; send it again."),
    ],
)
def test_a_folder_that_cannot_be_written_is_told(
    client: TestClient, monkeypatch: pytest.MonkeyPatch, fault: Exception, status: int, told: str
) -> None:
    """A folder that may only be read, a full disk, another desk at work: each is told beside what was written."""

    async def answered(*_: object, **__: object) -> dict[str, object]:
        return {"are": [{"service": "steam"}], "clause": "1.1"}

    def write(*_: object, **__: object) -> None:
        raise fault

    monkeypatch.setattr(Desk, "ask", answered)
    monkeypatch.setattr(findings_screen, "write_note", write)
    found = client.post("/projects/plant/note", headers=ORIGIN, data=NOTE)
    assert found.status_code == status
    assert told in found.text
    assert "Revise &lt;b&gt;this&lt;/b&gt;." in found.text


def test_a_mistake_of_the_program_is_told_as_one(client: TestClient, monkeypatch: pytest.MonkeyPatch) -> None:
    """A fault of ours is neither a verdict nor a blank page, and the desk goes on."""

    def fail(*_: object) -> None:
        raise KeyError("x")

    monkeypatch.setattr(Projects, "all", fail)
    found = client.get("/")
    monkeypatch.undo()
    assert found.status_code == 500
    assert "The program made a mistake here (KeyError); what was saved before is kept." in found.text
    assert client.get("/").status_code == 200


@pytest.mark.parametrize("address", ["/begin", "/check"])
def test_a_review_against_nothing_is_not_begun(client: TestClient, tmp_path: Path, address: str) -> None:
    """Who has chosen no ruleset is told to choose one, and no review is made."""
    before = sorted(tmp_path.iterdir())
    sent = {"schedule": ("s.csv", b"Service,Thickness\nsteam,1 in\n")}
    found = client.post(address, headers=ORIGIN, data={"name": "Another"}, files=sent)
    assert found.status_code == 400
    assert "Choose first what to check against: one of the rulesets, or clauses of your own." in found.text
    assert sorted(tmp_path.iterdir()) == before


def test_a_folder_in_which_nothing_can_be_made_is_told(client: TestClient, tmp_path: Path) -> None:
    """A review is begun in a folder whose place a file has taken."""
    other = client_of(Projects(tmp_path / "file"), follow_redirects=False, raise_server_exceptions=False)
    (tmp_path / "file").write_text("")
    other.get(f"/?token={TOKEN}")
    found = other.post("/begin", headers=ORIGIN, data={"against": "trade-practice", "name": "Plant"})
    assert found.status_code == 507
    assert "The folder of the reviews cannot be used" in found.text
