"""What all screens share: the projects, the long work, the templates, and the ways in which a request can end."""

from __future__ import annotations

import asyncio
import json
import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from starlette.requests import Request
from starlette.responses import HTMLResponse, Response

from speccheck.desk.projects import NoSuch, Project, Projects
from speccheck.desk.workers import Job, Workers
from speccheck.english import capitalized
from speccheck.report.cautions import STANDING_CAUTIONS
from speccheck.schedule.formats.endings import READ

if TYPE_CHECKING:
    from jinja2 import Environment

HERE = Path(__file__).parent
PATIENCE = 1.5
"""Seconds that a page waits for long work before it shows how far it is."""
SCREENS = (
    ("matrix", "Matrix"),
    ("findings", "Findings"),
    ("reading", "Reading"),
    ("papers", "Papers"),
    ("rounds", "Rounds"),
    ("contractor", "Contractor"),
    ("clauses", "Clauses"),
)
"""The screens of a project: the end of the address, and the word in the bar."""
EXAMPLE = Path(__file__).parents[2] / "examples" / "dairy"


class Unfinished(Exception):
    """Long work that goes on; the page shows how far it is."""

    def __init__(self, job: Job) -> None:
        super().__init__(job.key)
        self.job = job


class NoSubmittal(Exception):
    """A screen of a project to which nothing was submitted yet."""


class Stopped(Exception):
    """Work that gave nothing: `told` says why, as diagnostics in plain values."""

    def __init__(self, told: list[dict[str, Any]]) -> None:
        super().__init__()
        self.told = told


@dataclass
class Desk:
    """One running desk."""

    projects: Projects
    workers: Workers = field(default_factory=Workers)
    patience: float = PATIENCE

    async def ask(
        self,
        name: str,
        asked: dict[str, Any],
        *,
        patience: float | None = None,
        then: tuple[str, dict[str, Any]] | None = None,
    ) -> Any:
        """Return what a job gives; raise `Unfinished` where it takes long and `Stopped` where it gives nothing.

        `then` is the job that is begun after it, before anybody asks.
        """
        job = self.workers.ask(name, asked, then)
        try:
            async with asyncio.timeout(self.patience if patience is None else patience):
                await job.finished.wait()
        except TimeoutError:
            raise Unfinished(job) from None
        if job.failed:
            job.told = True
            raise Stopped([{"severity": "error", "message": job.failed, "help": "", "place": "", "code": ""}])
        if job.unusable is not None:
            raise Stopped(job.unusable)
        return job.result

    def project(self, request: Request) -> Project:
        """Return the project that an address names."""
        return self.projects.find(request.path_params["project"])

    def round(self, request: Request, project: Project) -> str:
        """Return the round that an address asks for, the last one by default."""
        rounds = project.rounds
        wanted = request.query_params.get("round", "")
        if wanted in rounds:
            return wanted
        if not rounds:
            raise NoSubmittal(project.name)
        return rounds[-1]

    def papers(self, project: Project, round: str) -> dict[str, Any]:
        """Return what a review of a round is made of."""
        settings = project.settings
        found: dict[str, Any] = {"schedule": str(project.submittal(round)), "against": project.against()}
        found["units"] = settings.units
        for key, name in (("mapping", "mapping.toml"), ("notes", "notes.toml")):
            path = project.inside("rounds", round, name)
            if path.is_file():
                found[key] = str(path)
        named = {"design": settings.design, "deviations": settings.deviations, "received": settings.received}
        found |= {key: str(project.inside(file)) for key, file in named.items() if file}
        if settings.product_files:
            found["products"] = [str(project.inside(file)) for file in settings.product_files]
        if settings.on is not None:
            found["on"] = settings.on.isoformat()
        return found

    def matrix_page(self, project: Project, round: str) -> tuple[str, dict[str, Any]]:
        """Return the job that draws the page of the matrix of a round."""
        bar = environment().get_template("bar.html.j2").module.bar  # type: ignore[attr-defined]
        navigation = str(bar(project, "matrix", round))
        return "page", {"papers": self.papers(project, round), "title": project.title, "navigation": navigation}

    def show(self, request: Request, template: str, *, status: int = 200, **contents: Any) -> HTMLResponse:
        """Return a page made from a template."""
        page = (
            environment()
            .get_template(template)
            .render(cautions=STANDING_CAUTIONS, undone=request.query_params.get("undone"), **_ABSENT | contents)
        )
        return HTMLResponse(page, status_code=status)


_ABSENT: dict[str, Any] = {"project": None, "screen": "", "round": "", "undo": None, "problems": [], "words": ""}


@cache
def environment() -> Environment:
    """Return the templates of the desk; everything that is not markup of ours is escaped."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    made = Environment(
        loader=FileSystemLoader(HERE / "templates"),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
    )
    made.filters["capitalized"] = capitalized
    made.filters["quoted"] = _quoted
    made.filters["data"] = _data
    made.globals["schedule_endings"] = ",".join(READ)
    made.globals["screens"] = SCREENS
    return made


def _quoted(text: str) -> Any:
    """Return the text of a diagnostic with what stands between backticks set apart as code."""
    from markupsafe import Markup, escape

    return Markup(re.sub(r"`([^`]+)`", r"<code>\1</code>", str(escape(text))))


def _data(value: Any) -> Any:
    """Return plain values as JSON that is safe inside a script element."""
    from markupsafe import Markup

    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    return Markup(text.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e"))


async def long_work(desk: Desk, request: Request, job: Job) -> Response:
    """Return the page that shows how far a job is; it comes back to the same address when the job is done."""
    return desk.show(request, "working.html.j2", job=job, status=202)


def whole_page(page: str) -> HTMLResponse:
    """Return a page that needs nothing else, under the policy that it states itself."""
    policy = re.search(r'http-equiv="Content-Security-Policy" content="([^"]*)"', page)
    own = (policy[1] if policy else "default-src 'none'").replace("&#39;", "'")
    return HTMLResponse(page, headers={"content-security-policy": f"{own}; frame-ancestors 'self'"})


def known(names: Iterable[str], wanted: object, what: str) -> str:
    """Return a word of a form that is one of `names`; any other is refused."""
    if not isinstance(wanted, str) or wanted not in names:
        raise NoSuch(what)
    return wanted
