"""The screen Reading: the paper as it came beside what each cell was read as, and what a person settles.

An answer goes to the mapping file of the round; the schedule is read again at once.
"""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from speccheck.desk.desk import Desk, known
from speccheck.desk.mapping_file import settle
from speccheck.desk.uploads import Refused

SETTLED = ("column", "ignore", "text", "units")


def routes(desk: Desk) -> list[Route]:
    """Return the routes of this screen."""

    async def reading(request: Request) -> Response:
        project = desk.project(request)
        round = desk.round(request, project)
        found = await desk.ask("review", {"papers": desk.papers(project, round)})
        return desk.show(
            request, "reading.html.j2", project=project, round=round, found=found, read=found["reading"],
            screen="reading", undo=project.last_step(), mapping=project.read("rounds", round, "mapping.toml"),
        )  # fmt: skip

    async def settled(request: Request) -> Response:
        project, form = desk.project(request), await request.form()
        round = known(project.rounds, form.get("round"), "round")
        kind = known(SETTLED, form.get("kind"), "answer")
        key, term, value = (str(form.get(name, "")).strip()[:500] for name in ("key", "term", "value"))
        if kind in ("column", "text") and not term:
            raise Refused("choose what it is first")
        if kind == "text" and not value:
            raise Refused("write what the text means first")
        settle(project, round, kind, key, term, value)
        return RedirectResponse(f"/projects/{project.name}/reading?round={round}", status_code=303)

    return [
        Route("/projects/{project}/reading", reading),
        Route("/projects/{project}/settle", settled, methods=["POST"]),
    ]
