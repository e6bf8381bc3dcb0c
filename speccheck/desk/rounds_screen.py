"""The screen Rounds: the resubmittal beside the round before: closed, still open, new, changed without being asked."""

from __future__ import annotations

from collections.abc import Sequence

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from speccheck.desk.desk import Desk
from speccheck.desk.projects import Project
from speccheck.desk.sent_back import ENDINGS, sent_back
from speccheck.desk.start_screen import add_submittal
from speccheck.desk.uploads import Received, UploadRefused, all_received

LAST_ROUND = 99


def routes(desk: Desk) -> list[Route]:
    """Return the routes of this screen."""

    async def rounds(request: Request) -> Response:
        project = desk.project(request)
        have = project.rounds
        round = desk.round(request, project) if have else ""
        before = [one for one in have if one < round]
        found = None
        if before:
            asked = {"before": desk.papers(project, before[-1]), "papers": desk.papers(project, round)}
            found = await desk.ask("rounds", asked)
        return desk.show(
            request, "rounds.html.j2", project=project, round=round, found=found, rounds=have,
            before=before[-1] if before else "", screen="rounds", undo=project.last_step(),
            sent=[one.name for one in sent_back(project, round)] if round else [], sent_endings=ENDINGS,
        )  # fmt: skip

    async def add(request: Request) -> Response:
        project, form = desk.project(request), await request.form()
        files = await all_received(form, "schedule")
        add_round(project, files)
        return RedirectResponse(f"/projects/{project.name}/rounds", status_code=303)

    return [
        Route("/projects/{project}/rounds", rounds),
        Route("/projects/{project}/rounds", add, methods=["POST"]),
    ]


def add_round(project: Project, files: Sequence[Received]) -> None:
    """Store a submittal as the next round, with the mapping and the notes of the round before."""
    with project.alone():
        before = project.rounds[-1] if project.rounds else ""
        number = int(before or 0) + 1
        if number > LAST_ROUND:
            raise UploadRefused(f"a project has at most {LAST_ROUND} rounds")
        add_submittal(project, f"{number:02d}", files)
        _carry_over(before, f"{number:02d}", project)


def _carry_over(before: str, round: str, project: Project) -> None:
    """Give the new round the mapping and the notes of the round before: the notes stay with their lines."""
    for name in ("mapping.toml", "notes.toml"):
        text = project.read("rounds", before, name) if before else ""
        if text:
            project.write(("rounds", round, name), text, "", f"{name} carried over to round {round}", joined=True)
