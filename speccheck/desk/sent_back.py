"""What was sent back to the contractor, kept with its round as it was sent.

What the desk makes is a draft that most people finish in their own programs; so what is kept is what they drop here.
"""

from __future__ import annotations

from pathlib import Path

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from speccheck.desk.desk import Desk, known
from speccheck.desk.projects import Project, files_of
from speccheck.desk.uploads import Received, UploadRefused, all_received, free_name
from speccheck.schedule.formats.endings import READ

FOLDER = "sent"
ENDINGS = (*READ, ".eml", ".msg", ".zip")
MOST_FILES = 99


def routes(desk: Desk) -> list[Route]:
    """Return the routes of these files."""

    async def keep(request: Request) -> Response:
        project, form = desk.project(request), await request.form()
        round = known(project.rounds, form.get("round"), "round")
        files = await all_received(form, "sent", ENDINGS)
        with project.alone():
            for number, file in enumerate(files):
                _keep(project, round, file, joined=number > 0)
        return RedirectResponse(f"/projects/{project.name}/rounds?round={round}", status_code=303)

    async def give(request: Request) -> Response:
        project = desk.project(request)
        round = desk.round(request, project)
        files = {one.name: one for one in sent_back(project, round)}
        name = known(files, request.query_params.get("file"), "file")
        headers = {"content-disposition": f'attachment; filename="{project.name}-round-{round}-{name}"'}
        return Response(files[name].read_bytes(), media_type="application/octet-stream", headers=headers)

    here = "/projects/{project}/sent"
    return [Route(here, give), Route(here, keep, methods=["POST"])]


def sent_back(project: Project, round: str) -> tuple[Path, ...]:
    """Return what was sent back in a round, by name."""
    folder = project.inside("rounds", round, FOLDER)
    return files_of(folder) if folder.is_dir() else ()


def _keep(project: Project, round: str, file: Received, *, joined: bool) -> None:
    """Keep a file under a name that no other has."""
    folder = ("rounds", round, FOLDER)
    name = free_name(project, folder, file, MOST_FILES)
    if not name:
        raise UploadRefused(f"a round keeps at most {MOST_FILES} files of one name")
    project.write((*folder, name), file.content, "", f"sent back in round {int(round)}", joined=joined)
