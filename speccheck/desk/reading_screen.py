"""The screen Reading: the paper as it came beside what each cell was read as, and what a person settles.

An answer goes to the mapping file of the round; the schedule is read again at once.
"""

from __future__ import annotations

import base64

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from speccheck.desk.desk import Desk, known
from speccheck.desk.mapping_file import MAPPING, settle, settle_seen
from speccheck.desk.projects import NoSuch, fingerprint
from speccheck.desk.uploads import UploadRefused

NOTES = "notes"
LONGEST_KEY = 2000


def routes(desk: Desk) -> list[Route]:
    """Return the routes of this screen."""

    async def reading(request: Request) -> Response:
        project = desk.project(request)
        round = desk.round(request, project)
        read = await desk.ask("read", {"papers": desk.papers(project, round)})
        return desk.show(
            request, "reading.html.j2", project=project, round=round, read=read, screen="reading",
            undo=project.last_step(), mapping=project.read("rounds", round, MAPPING),
            seen=fingerprint(project.inside("rounds", round, MAPPING)),
            before=_count(request.query_params.get("before")),
        )  # fmt: skip

    async def settled(request: Request) -> Response:
        from speccheck.schedule.questions import QuestionKind  # heavy, and the first screen waits for no answer

        project, form = desk.project(request), await request.form()
        round = known(project.rounds, form.get("round"), "round")
        kind = known((*map(str, QuestionKind), NOTES), form.get("kind"), "answer")
        key, term, value = (str(form.get(name, "")).strip()[:LONGEST_KEY] for name in ("key", "term", "value"))
        if kind in (QuestionKind.COLUMN, QuestionKind.HEADER, QuestionKind.WORDS) and not term:
            raise UploadRefused("choose what it is first")
        if kind in (QuestionKind.WORDS, QuestionKind.UNITS) and not value:
            raise UploadRefused("write what the text means first")
        keys = [str(one)[:LONGEST_KEY] for one in form.getlist("key")]
        if kind == QuestionKind.REMARK and len(keys) > 1:
            settle_seen(project, round, keys)
        else:
            settle(project, round, kind, key, term, value, str(form.get("seen", "")))
        before = _count(form.get("before"))
        return RedirectResponse(f"/projects/{project.name}/reading?round={round}&before={before}", status_code=303)

    async def picture(request: Request) -> Response:
        project = desk.project(request)
        round = desk.round(request, project)
        page = _count(request.query_params.get("page"))
        if not page:
            raise NoSuch("a page of that number")
        asked = {"papers": desk.papers(project, round), "page": page, "file": _count(request.query_params.get("file"))}
        found = await desk.ask("picture of page", asked, patience=60)
        return Response(base64.b64decode(found["content"]), media_type="image/png")

    return [
        Route("/projects/{project}/reading", reading),
        Route("/projects/{project}/settle", settled, methods=["POST"]),
        Route("/projects/{project}/picture", picture),
    ]


def _count(text: object) -> int:
    return int(text) if isinstance(text, str) and text.isdecimal() and len(text) < 7 else 0
