"""The screen Clauses: an editor for rulesets with mistakes as one types, examples in the margin, proofreading, prose.

A shipped ruleset can be read here; clauses of one's own can be changed. What is typed is checked by the same code as
the language server's.
"""

from __future__ import annotations

import base64
from pathlib import Path

from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from speccheck.desk.desk import Desk, Stopped, environment, known, whole_page
from speccheck.desk.projects import Project, fingerprint, write_settings
from speccheck.desk.uploads import UploadRefused
from speccheck.language.ruleset_files import located

LONGEST = 2_000_000
KINDS = {
    "clauses": ("project.clauses", "text/plain; charset=utf-8"),
    "section-page": ("section.html", "text/html"),
    "section-word": ("section.docx", "application/vnd.openxmlformats-officedocument.wordprocessingml.document"),
}
"""What can be taken along from this screen."""
NEW = """ruleset "{title}"
  speaks mechanical insulation
  units {units}

clause 1 "Thickness"
  where service is chilled water
  shall thickness be at least {enough}
  example "{enough}" complies
          service chilled water, thickness {enough}
  example "{less}" fails
          service chilled water, thickness {less}
"""
SIZES = {"inch-pound": ("1 in", "1/2 in"), "metric": ("25 mm", "13 mm")}
"""The thicknesses of that first clause, the one that is enough and the one that is not."""


def begun(project: Project) -> str:
    """Return clauses to begin with, in the units of the project."""
    units = project.settings.units or "inch-pound"
    enough, less = SIZES[units]
    return NEW.format(title="My clauses", units=units, enough=enough, less=less)


def routes(desk: Desk) -> list[Route]:
    """Return the routes of this screen."""

    async def clauses(request: Request) -> Response:
        project = desk.project(request)
        path, own = _file(project)
        text = path.read_text(encoding="utf-8") if path.is_file() else ""
        return desk.show(
            request, "clauses.html.j2", project=project, text=text, own=own, name=path.name, screen="clauses",
            seen=fingerprint(path), undo=project.last_step(), saved=request.query_params.get("saved", ""),
        )  # fmt: skip

    async def save(request: Request) -> Response:
        project, form = desk.project(request), await request.form(max_part_size=LONGEST)
        path, own = _file(project)
        if not own:
            raise UploadRefused("a shipped ruleset is not changed; copy it first")
        text = str(form.get("source", "")).replace("\r\n", "\n")
        with project.alone():
            project.write(("clauses", path.name), text, str(form.get("seen", "")), f"clauses in {path.name}")
        return RedirectResponse(f"/projects/{project.name}/clauses?saved=1", status_code=303)

    async def copy(request: Request) -> Response:
        project = desk.project(request)
        path, own = _file(project)
        text = path.read_text(encoding="utf-8") if path.is_file() else begun(project)
        if not own:
            with project.alone():
                project.write(("clauses", "project.clauses"), text, "", "clauses of one's own")
                write_settings(project, project.settings.with_(against="project.clauses"), None, joined=True)
        return RedirectResponse(f"/projects/{project.name}/clauses", status_code=303)

    async def asked(request: Request) -> Response:
        project, said = desk.project(request), await request.json()
        what = known(("analysis", "completion", "try line", "proofread text"), said.get("what"), "question")
        path, _ = _file(project)
        with_ = {"text": str(said.get("text", ""))[:LONGEST], "path": str(path), "line": said.get("line", 0)}
        if what == "completion":
            with_ |= {"line": int(said["line"]), "column": int(said["column"]), "begun": str(said.get("begun", ""))}
        return JSONResponse(await desk.ask(what, with_, patience=120))

    async def proofreading(request: Request) -> Response:
        project = desk.project(request)
        found = await desk.ask("proofreading", {"against": project.against()})
        return desk.show(request, "proofreading.html.j2", project=project, found=found, screen="clauses")

    async def prose(request: Request) -> Response:
        project = desk.project(request)
        try:
            return whole_page((await desk.ask("prose", {"against": project.against()}, patience=60))["page"])
        except Stopped:  # told under the text already; this stands beside it
            return whole_page(environment().get_template("no_prose.html.j2").render())

    async def export(request: Request) -> Response:
        project = desk.project(request)
        kind = known(KINDS, request.query_params.get("kind"), "kind of file")
        if kind == "clauses":
            content = _file(project)[0].read_bytes()
        else:
            found = await desk.ask("clauses file", {"against": project.against(), "kind": kind}, patience=120)
            content = base64.b64decode(found["content"])
        name, media = KINDS[kind]
        headers = {"content-disposition": f'attachment; filename="{project.name}-{name}"'}
        return Response(content, media_type=media, headers=headers)

    here = "/projects/{project}/clauses"
    return [
        Route(here, clauses),
        Route(here, save, methods=["POST"]),
        Route(f"{here}/copy", copy, methods=["POST"]),
        Route(f"{here}/ask", asked, methods=["POST"]),
        Route(f"{here}/proofreading", proofreading),
        Route(f"{here}/prose", prose),
        Route(f"{here}/export", export),
    ]


def _file(project: Project) -> tuple[Path, bool]:
    """Return the file of the ruleset, and whether it is one of the project's own."""
    named = project.settings.against
    if named in project.clauses():
        return project.inside("clauses", named), True
    return located(named), False
