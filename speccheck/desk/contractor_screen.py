"""The screen Contractor: a blank workbook for these clauses, a check before sending, corrections with the reason."""

from __future__ import annotations

import base64

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from speccheck.desk.desk import Desk
from speccheck.desk.taking_along import correctable

WORKBOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


def routes(desk: Desk) -> list[Route]:
    """Return the routes of this screen."""

    async def contractor(request: Request) -> Response:
        project = desk.project(request)
        round = desk.round(request, project) if project.rounds else ""
        found = review = None
        if round:
            papers = desk.papers(project, round)
            review = await desk.ask("review", {"papers": papers})
            found = await desk.ask("corrections", {"papers": papers})
        return desk.show(
            request, "contractor.html.j2", project=project, round=round, found=found, review=review,
            screen="contractor", correctable=bool(round) and correctable(project, round),
        )  # fmt: skip

    async def blank(request: Request) -> Response:
        project = desk.project(request)
        asked = {"against": project.against(), "units": project.settings.units}
        found = await desk.ask("blank", asked, patience=60)
        headers = {"content-disposition": f'attachment; filename="{project.name}-schedule.xlsx"'}
        return Response(base64.b64decode(found["content"]), media_type=WORKBOOK, headers=headers)

    return [
        Route("/projects/{project}/contractor", contractor),
        Route("/projects/{project}/blank", blank),
    ]
