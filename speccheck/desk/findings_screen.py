"""The screens Matrix and Findings: every cell with its reason, the list that a reviewer works through."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from speccheck.desk.desk import Desk, known, whole_page
from speccheck.desk.mapping_file import LONGEST_NOTE, write_note
from speccheck.desk.taking_along import correctable, markable, position
from speccheck.desk.uploads import UploadRefused

NARROWED = ("verdict", "only", "text")
"""What an address says of the findings that are shown."""


def routes(desk: Desk) -> list[Route]:
    """Return the routes of these screens."""

    async def matrix(request: Request) -> Response:
        project = desk.project(request)
        round = desk.round(request, project)
        found = await desk.ask(*desk.matrix_page(project, round))
        return whole_page(found["page"])

    async def findings(request: Request) -> Response:
        project = desk.project(request)
        round = desk.round(request, project)
        found = await desk.ask("review", {"papers": desk.papers(project, round)})
        shown = dict(request.query_params)
        groups: dict[tuple[str, str], list[dict[str, Any]]] = {}
        for one in found["findings"]:
            if _fits(one, shown):
                groups.setdefault((one["verdict"], one["label"]), []).append(one)
        listed = {key: alike(some) for key, some in groups.items()}
        saved = shown.get("saved", "")
        in_list = any(saved == f"finding-{one['line']}-{one['clause']}" for some in listed.values() for one in some)
        return desk.show(
            request, "findings.html.j2", project=project, round=round, found=found, shown=shown, screen="findings",
            correctable=correctable(project, round),
            groups=listed, undo=project.last_step(),
            longest=LONGEST_NOTE, saved=saved, in_list=in_list, narrowed=NARROWED, marks=markable(project, round),
        )  # fmt: skip

    async def note(request: Request) -> Response:
        project, form = desk.project(request), await request.form()
        round = known(project.rounds, form.get("round"), "round")
        text, status = (str(form.get(key, "")).replace("\r\n", "\n").strip() for key in ("text", "status"))
        if len(text) > LONGEST_NOTE or len(status) > 200:
            raise UploadRefused("this note is too long")
        lines, clause = [position(one) for one in str(form.get("lines", "")).split()], position(form.get("clause"))
        if not lines:
            raise UploadRefused("this is no place in the matrix")
        asked = {"papers": desk.papers(project, round), "lines": lines, "clause": clause}
        found = await desk.ask("lines are", asked, patience=60)
        seen = (str(form.get("seen-text", "")).replace("\r\n", "\n"), str(form.get("seen-status", "")))
        write_note(project, round, found["are"], found["clause"], text, status, seen)
        here = f"finding-{lines[0]}-{clause}"
        shown = {key: str(form[f"shown-{key}"]) for key in NARROWED if form.get(f"shown-{key}")}
        query = urlencode({"round": round, **shown, "saved": here})
        return RedirectResponse(f"/projects/{project.name}/findings?{query}#{here}", 303)

    async def proposal(request: Request) -> Response:
        project = desk.project(request)
        round = desk.round(request, project)
        asked = {"papers": desk.papers(project, round), "line": position(request.query_params.get("line"))}
        part = request.query_params.get("part")
        found = await desk.ask("proposals", asked, patience=60 if part else None)
        template = "proposal_result.html.j2" if part else "proposal.html.j2"
        return desk.show(request, template, project=project, round=round, one=found, screen="findings")

    return [
        Route("/projects/{project}/matrix", matrix),
        Route("/projects/{project}/findings", findings),
        Route("/projects/{project}/note", note, methods=["POST"]),
        Route("/projects/{project}/proposal", proposal),
    ]


def alike(found: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return findings of one clause with those together of which clause and reviewer say the same."""
    together: dict[tuple[str, str, str], list[dict[str, Any]]] = {}
    for one in found:
        note = one["notes"][0] if one["notes"] else {"text": "", "status": ""}
        together.setdefault((one["reason"], note["text"], note["status"]), []).append(one)
    return [
        {**some[0], "lines": some, "note": {"text": text, "status": status}}
        for (_, text, status), some in together.items()
    ]


def _fits(found: dict[str, Any], shown: dict[str, str]) -> bool:
    """Whether a finding is among those that the address asks for."""
    if shown.get("verdict") and found["verdict"] != shown["verdict"]:
        return False
    notes = found["notes"]
    if shown.get("only") == "open" and notes:
        return False
    words = shown.get("text", "").casefold()
    told = " ".join(str(found[key]) for key in ("name", "brief", "label", "title", "reason"))
    return words in told.casefold()
