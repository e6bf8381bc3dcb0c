"""The screen Start: drop a submittal, choose what to check against; recent projects; the invented dairy to try."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from starlette.datastructures import UploadFile
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from speccheck.desk.desk import EXAMPLE, Desk, Stopped
from speccheck.desk.offered import most_named, offered_rulesets, subjects
from speccheck.desk.projects import NoSuch, Project, write_settings
from speccheck.desk.uploads import Received, UploadRefused, all_received, received
from speccheck.specification.reading import ENDINGS as SECTIONS

OWN = "own clauses"
CLAUSES = ".clauses"
PATIENCE = 300


def routes(desk: Desk) -> list[Route]:
    """Return the routes of this screen."""

    async def start(request: Request) -> Response:
        return desk.show(
            request, "start.html.j2", projects=desk.projects.all(), most_named=most_named(), subjects=subjects(),
            own=OWN, example=EXAMPLE.is_dir(), screen="start", only=desk.projects.only,
        )  # fmt: skip

    async def check(request: Request) -> Response:
        form = await request.form()
        files = await all_received(form, "schedule")
        project = await _new_project(desk, form)
        add_submittal(project, "01", files)
        return RedirectResponse(f"/projects/{project.name}", status_code=303)

    async def begin(request: Request) -> Response:
        project = await _new_project(desk, await request.form())
        return RedirectResponse(f"/projects/{project.name}", status_code=303)

    async def example(request: Request) -> Response:
        project = desk.projects.make("The dairy, an invented example", "project.clauses")
        project.write(("clauses", "project.clauses"), (EXAMPLE / "project.clauses").read_bytes(), "", "clauses")
        add_submittal(project, "01", [Received("schedule", ".xlsx", (EXAMPLE / "schedule.xlsx").read_bytes())])
        return RedirectResponse(f"/projects/{project.name}", status_code=303)

    async def project(request: Request) -> Response:
        mine = desk.project(request)
        if not mine.rounds:
            return desk.show(request, "begun.html.j2", project=mine, screen="project", undo=mine.last_step())
        round = desk.round(request, mine)
        asked, matrix = {"papers": desk.papers(mine, round)}, desk.matrix_page(mine, round)
        found = await desk.ask("review", asked, then=matrix)  # most go on to the matrix: it is drawn meanwhile
        return desk.show(
            request, "project.html.j2", project=mine, round=round, found=found, screen="project",
            undo=mine.last_step(),
        )  # fmt: skip

    return [
        Route("/", start),
        Route("/check", check, methods=["POST"]),
        Route("/begin", begin, methods=["POST"]),
        Route("/example", example, methods=["POST"]),
        Route("/projects/{project}", project),
    ]


def add_submittal(project: Project, round: str, files: Sequence[Received]) -> None:
    """Store a submittal as received, several files in a folder; one that is there already is never replaced."""
    what = f"submittal of round {round}"
    if len(files) == 1:
        project.write(("rounds", round, f"submittal{files[0].suffix}"), files[0].content, "", what)
    else:
        named = {file.numbered(number): file.content for number, file in enumerate(files, 1)}
        project.write_folder(("rounds", round, "submittal"), named, what)


async def _new_project(desk: Desk, form: Mapping[str, object]) -> Project:
    """Make a project out of what the form says: its name, and a shipped ruleset or clauses of one's own."""
    if desk.projects.only:
        raise UploadRefused("this desk shows one project alone; add a round to it")
    against, own = str(form.get("against", "")), form.get("clauses")
    title = str(form.get("name", "")).strip()[:120] or "Untitled review"
    if not against:
        raise UploadRefused("choose first what to check against: one of the rulesets, or clauses of your own")
    if against != OWN:
        if against not in {one.name for one in offered_rulesets()}:
            raise NoSuch("ruleset")
        return desk.projects.make(title, against)
    if not isinstance(own, UploadFile) or not own.filename:
        raise UploadRefused("choose the file with your clauses, or one of the rulesets")
    sent = await received(own, (CLAUSES, *SECTIONS))
    project = desk.projects.make(title, "")
    try:
        await _own_clauses(desk, project, sent, title)
    except Stopped:
        while (step := project.last_step()) is not None:
            project.undo(step.number)
        raise
    return project


async def _own_clauses(desk: Desk, project: Project, sent: Received, title: str) -> None:
    """Give a new project clauses of its own, in one step with it: as they are, or drafted from a section."""
    content: str | bytes = sent.content
    if sent.suffix != CLAUSES:
        kept = ("clauses", f"section{sent.suffix}")
        project.write(kept, sent.content, "", "section as received", joined=True)
        asked = {"section": str(project.inside(*kept)), "title": title}
        content = (await desk.ask("draft", asked, patience=PATIENCE))["text"]
    project.write(("clauses", "project.clauses"), content, "", "clauses", joined=True)
    write_settings(project, project.settings.with_(against="project.clauses"), None, joined=True)
