"""The screen Papers: what stands beside the submittal, what each was read as, and what was found by it.

A paper is dropped, kept in the folder `papers` under a name of our own, and named in project.toml; both are one step.
One that is taken out of the review stays in the folder.
"""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from speccheck.desk.desk import Desk, known
from speccheck.desk.projects import Project, write_settings
from speccheck.desk.settings import Settings
from speccheck.desk.uploads import Received, UploadRefused, all_received
from speccheck.schedule.formats.endings import READ, SEPARATED, TOML

FOLDER = "papers"
MOST_PAPERS = 99


@dataclass(frozen=True, slots=True)
class PaperKind:
    """A kind of paper: what it is called, what it is for, which files it comes in, and what its rows say."""

    title: str
    sentence: str
    endings: tuple[str, ...]
    headings: tuple[str, ...]


KINDS = {
    "design": PaperKind(
        "Design list",
        "The systems that the building has. What no line of the schedule covers is a finding, and so are two lines "
        "that claim one system and disagree.",
        READ,
        ("Line", "System", "Read as"),
    ),
    "products": PaperKind(
        "Product data",
        "A table of products, or a manufacturer's data sheet (PDF, Word). What the schedule states and nothing shows, "
        "or shows otherwise, is a finding.",
        READ,
        ("Product", "Read as"),
    ),
    "deviations": PaperKind(
        "Register of deviations",
        "What the engineer has accepted, for which lines, from which clause, and until when. It is shown as accepted, "
        "never as complying.",
        TOML,
        ("Name", "Clause", "Lines", "Accepted as"),
    ),
    "received": PaperKind(
        "Register of what was received",
        "Data sheets, samples and test reports that came with the submittal, against what the section asks to be "
        "submitted.",
        (*TOML, *SEPARATED[:1]),
        ("What", "Name", "Of", "Lines"),
    ),
}


def routes(desk: Desk) -> list[Route]:
    """Return the routes of this screen."""

    async def papers(request: Request) -> Response:
        project = desk.project(request)
        round = desk.round(request, project)
        found = await desk.ask("beside", {"papers": desk.papers(project, round)})
        return desk.show(
            request, "papers.html.j2", project=project, round=round, found=found, kinds=KINDS, screen="papers",
            on=project.settings.on, undo=project.last_step(),
        )  # fmt: skip

    async def add(request: Request) -> Response:
        project, form = desk.project(request), await request.form()
        kind = known(KINDS, form.get("kind"), "kind of paper")
        files = await all_received(form, "file", KINDS[kind].endings)
        if len(files) > 1 and kind != "products":
            raise UploadRefused("give one file of this kind")
        with project.alone():
            names = [_put(project, kind, file, joined=number > 0) for number, file in enumerate(files)]
            _name(project, kind, names)
        return _back(project)

    async def take_out(request: Request) -> Response:
        project, form = desk.project(request), await request.form()
        kind, name = known(KINDS, form.get("kind"), "kind of paper"), str(form.get("name", ""))
        with project.alone():
            left = [one for one in named(project.settings, kind) if one.rsplit("/", 1)[-1] != name]
            settings = project.settings.with_(**{kind: left if kind == "products" else ""})
            write_settings(project, settings, None, f"{KINDS[kind].title.lower()} taken out")
        return _back(project)

    async def day(request: Request) -> Response:
        project, form = desk.project(request), await request.form()
        words = str(form.get("on", "")).strip()
        try:
            on = datetime.date.fromisoformat(words) if words else None
        except ValueError:
            raise UploadRefused("a day is written as 2026-03-04") from None
        with project.alone():
            write_settings(project, project.settings.with_(on=on), None, f"day of the review: {words or 'none'}")
        return _back(project)

    here = "/projects/{project}/papers"
    return [
        Route(here, papers),
        Route(here, add, methods=["POST"]),
        Route(f"{here}/out", take_out, methods=["POST"]),
        Route(f"{here}/day", day, methods=["POST"]),
    ]


def named(settings: Settings, kind: str) -> tuple[str, ...]:
    """Return the files of a kind that the settings name."""
    if kind == "products":
        return settings.product_files
    found = str(getattr(settings, kind))
    return (found,) if found else ()


def _put(project: Project, kind: str, file: Received, *, joined: bool) -> str:
    """Keep a file under a name that no other has, and return its path inside the project."""
    for number in range(1, MOST_PAPERS + 1):
        name = f"{kind}-{file.numbered(number)}"
        if not project.inside(FOLDER, name).exists():
            project.write((FOLDER, name), file.content, "", KINDS[kind].title.lower(), joined=joined)
            return f"{FOLDER}/{name}"
    raise UploadRefused(f"a project has at most {MOST_PAPERS} papers of a kind")


def _name(project: Project, kind: str, names: list[str]) -> None:
    """Name files in the settings: product data beside those that are there, another kind in place of the one before."""
    settings = project.settings
    value = [*settings.product_files, *names] if kind == "products" else names[0]
    write_settings(project, settings.with_(**{kind: value}), None, joined=True)


def _back(project: Project) -> Response:
    return RedirectResponse(f"/projects/{project.name}/papers", status_code=303)
