"""The files of a review that are taken along: reports, the reply, the marked-up copy, the corrected workbook."""

from __future__ import annotations

import base64
from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from speccheck.desk.desk import Desk, known
from speccheck.desk.projects import NoSuch, Project, project_name
from speccheck.desk.uploads import UploadRefused
from speccheck.schedule.formats.endings import CORRECTED, MARKED

KINDS = {
    "page": ("report.html", "text/html"),
    "workbook": ("report.xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"),
    "findings": ("findings.csv", "text/csv"),
    "json": ("report.json", "application/json"),
    "markdown": ("report.md", "text/markdown"),
    "reply-page": ("reply.html", "text/html"),
    "reply-word": ("reply.docx", "application/vnd.openxmlformats-officedocument.wordprocessingml.document"),
    "marked": ("marked{}{}", "application/octet-stream"),
    "corrected": ("corrected.xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"),
}
PATIENCE = 10
"""Seconds that a browser waits for a file before it shows how far it is."""


def routes(desk: Desk) -> list[Route]:
    """Return the route of these files."""

    async def export(request: Request) -> Response:
        project = desk.project(request)
        round = desk.round(request, project)
        kind, _, of = request.query_params.get("kind", "").partition(":")
        kind = known(KINDS, kind, "kind of file")
        number = position(of or "0")
        asked: dict[str, Any] = {"papers": desk.papers(project, round), "kind": kind}
        asked["action"] = request.query_params.get("action", "")[:200]
        asked["proposals"] = "1" if request.query_params.get("proposals") else ""
        asked["file"] = number
        files = project.submitted(round)
        if number >= len(files):
            raise NoSuch("a file of that number")
        found = await desk.ask("export", asked, patience=PATIENCE)
        name, media = KINDS[kind]
        name = name.format(f"-{project_name(files[number].stem)}" if len(files) > 1 else "", files[number].suffix)
        headers = {"content-disposition": f'attachment; filename="{project.name}-round-{round}-{name}"'}
        return Response(base64.b64decode(found["content"]), media_type=media, headers=headers)

    return [Route("/projects/{project}/export", export)]


def markable(project: Project, round: str) -> list[tuple[int, str]]:
    """Return the files of a submittal that can carry marks: their numbers, and their names where there are several."""
    files = project.submitted(round)
    marked = [(number, path) for number, path in enumerate(files) if str(path).endswith(MARKED)]
    return [(number, path.name if len(files) > 1 else "") for number, path in marked]


def correctable(project: Project, round: str) -> bool:
    """Say whether the submittal is one workbook, into which corrections can be written."""
    files = project.submitted(round)
    return len(files) == 1 and files[0].suffix in CORRECTED


def position(text: object) -> int:
    """Return a number that an address or a form names, from 0."""
    if not isinstance(text, str) or not text.isdecimal() or len(text) > 9:
        raise UploadRefused("this is no place in the matrix")
    return int(text)
