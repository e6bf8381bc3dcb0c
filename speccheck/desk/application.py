"""The server: its routes, and how it starts and ends."""

from __future__ import annotations

import asyncio
import secrets
import socket
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager, suppress
from pathlib import Path

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import JSONResponse, RedirectResponse, Response
from starlette.routing import BaseRoute, Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp

from speccheck.desk import (
    clauses_screen,
    contractor_screen,
    findings_screen,
    papers_screen,
    reading_screen,
    rounds_screen,
    sent_back,
    start_screen,
    system_screen,
    taking_along,
)
from speccheck.desk.desk import HERE, SCREENS, Desk, NoSubmittal, Stopped, Unfinished, long_work
from speccheck.desk.guard import Guard
from speccheck.desk.projects import Changed, FileNotWritten, NoSuch, Project, Projects
from speccheck.desk.settings import Unreadable
from speccheck.desk.uploads import UploadRefused
from speccheck.report import __file__ as reports

MODULES = (
    start_screen,
    findings_screen,
    papers_screen,
    reading_screen,
    rounds_screen,
    sent_back,
    contractor_screen,
    clauses_screen,
    system_screen,
    taking_along,
)
MINE = ("source", "text", "status", "key", "term", "value")
"""The fields of forms in which somebody writes something, shown where somebody else has written meanwhile."""
BETWEEN_NEWS = 0.25
"""Seconds between two answers on how far a job is."""
REPORT_STYLES = Path(reports).parent / "templates" / "page.css"


def application(desk: Desk, token: str, port: int, stop: Callable[[], None]) -> ASGIApp:
    """Return the whole server behind its guard."""

    @asynccontextmanager
    async def life(app: Starlette) -> AsyncIterator[None]:
        await desk.workers.warm()
        yield
        await desk.workers.end()

    routes: list[BaseRoute] = [_closing(route) for screen in MODULES for route in screen.routes(desk)]
    routes += [
        Route("/api/jobs/{key}", _job(desk)),
        Route("/api/jobs/{key}/stop", _stop_job(desk), methods=["POST"]),
        Route("/projects/{project}/undo", _undo(desk), methods=["POST"]),
        Route("/end", _end(desk, stop), methods=["POST"]),
        Route("/static/page.css", _report_styles),
        Mount("/static", StaticFiles(directory=HERE / "static")),
    ]
    app = Starlette(routes=routes, lifespan=life, exception_handlers=_handlers(desk))  # type: ignore[arg-type]
    return Guard(app, token, port)


def _closing(route: Route) -> Route:
    """Return a route that lets go of the files that were sent to it."""

    async def answer(request: Request) -> Response:
        try:
            return await route.endpoint(request)  # type: ignore[no-any-return]
        finally:
            await request.close()

    return Route(route.path, answer, methods=list(route.methods or ()))


def _handlers(desk: Desk) -> dict[type[Exception], Callable[[Request, Exception], object]]:
    """Return how each way in which a request can end is answered."""

    async def unfinished(request: Request, stop: Exception) -> Response:
        assert isinstance(stop, Unfinished)
        return await long_work(desk, request, stop.job)

    async def stopped(request: Request, stop: Exception) -> Response:
        assert isinstance(stop, Stopped)
        project = _asked_project(desk, request)
        undo = project.last_step() if project is not None else None
        return desk.show(request, "stopped.html.j2", problems=stop.told, project=project, undo=undo, status=422)

    async def changed(request: Request, stop: Exception) -> Response:
        assert isinstance(stop, Changed)
        words = await _written(request)
        return desk.show(
            request, "changed.html.j2", file=stop.file, now=stop.now, words=words,
            project=_asked_project(desk, request), status=409,
        )  # fmt: skip

    async def nothing_submitted(request: Request, stop: Exception) -> Response:
        return RedirectResponse(f"/projects/{request.path_params['project']}", status_code=303)

    def not_done(request: Request, why: str, status: int, words: str = "") -> Response:
        project = _asked_project(desk, request)
        return desk.show(request, "refused.html.j2", why=why, words=words, project=project, status=status)

    async def refused(request: Request, stop: Exception) -> Response:
        return not_done(request, str(stop), 400, await _written(request))

    async def missing(request: Request, stop: Exception) -> Response:
        return not_done(request, f"there is no such thing here: {stop}", 404)

    async def no_page(request: Request, stop: Exception) -> Response:
        assert isinstance(stop, HTTPException)
        why = "there is no page at this address" if stop.status_code == 404 else stop.detail.rstrip(".").lower()
        return not_done(request, why, stop.status_code)

    async def not_written(request: Request, stop: Exception) -> Response:
        words = await _written(request)
        if isinstance(stop, TimeoutError):
            return not_done(request, "another desk is writing to this review; send it again", 503, words)
        why = (getattr(stop, "strerror", None) or str(stop)).lower()
        return not_done(request, f"the folder of the reviews cannot be used: {why}", 507, words)

    async def at_fault(request: Request, stop: Exception) -> Response:
        why = f"the program made a mistake here ({type(stop).__name__}); what was saved before is kept"
        return desk.show(request, "refused.html.j2", why=why, status=500)

    return {
        Unfinished: unfinished,
        Stopped: stopped,
        Changed: changed,
        NoSubmittal: nothing_submitted,
        UploadRefused: refused,
        FileNotWritten: refused,
        Unreadable: refused,
        NoSuch: missing,
        HTTPException: no_page,
        OSError: not_written,
        Exception: at_fault,
    }


def _asked_project(desk: Desk, request: Request) -> Project | None:
    """Return the project of an address, None where it names none."""
    with suppress(NoSuch):
        return desk.projects.find(request.path_params.get("project", ""))
    return None


async def _written(request: Request) -> str:
    """Return what somebody wrote into the form that was sent, so that none of it is lost."""
    if request.method != "POST":
        return ""
    form = await request.form()
    return "\n".join(str(form[key]) for key in MINE if form.get(key))


def _job(desk: Desk) -> Callable[[Request], object]:
    """Return what answers how far a job is: at once when it is done, else after a moment."""

    async def answer(request: Request) -> Response:
        job = desk.workers.jobs.get(request.path_params["key"])
        if job is None:
            return JSONResponse({"finished": True})
        with suppress(TimeoutError):
            async with asyncio.timeout(BETWEEN_NEWS):
                await job.finished.wait()
        return JSONResponse({"finished": job.finished.is_set(), "done": job.done, "total": job.total, "what": job.what})

    return answer


def _stop_job(desk: Desk) -> Callable[[Request], object]:
    async def answer(request: Request) -> Response:
        desk.workers.stop(request.path_params["key"])
        return RedirectResponse("/", status_code=303)

    return answer


def _undo(desk: Desk) -> Callable[[Request], object]:
    async def answer(request: Request) -> Response:
        form = await request.form()
        project = desk.project(request)
        project.undo(str(form.get("step", "")))
        if not any(one.name == project.name for one in desk.projects.all()):
            return RedirectResponse("/?undone=1", status_code=303)
        screen = str(form.get("screen", ""))
        back = f"/{screen}" if screen in dict(SCREENS) and project.rounds else ""
        return RedirectResponse(f"/projects/{project.name}{back}?undone=1", status_code=303)

    return answer


def _end(desk: Desk, stop: Callable[[], None]) -> Callable[[Request], object]:
    async def answer(request: Request) -> Response:
        stop()
        return desk.show(request, "ended.html.j2")

    return answer


async def _report_styles(request: Request) -> Response:
    return Response(REPORT_STYLES.read_text(encoding="utf-8"), media_type="text/css")


def serve(folder: Path, tell: Callable[[str], None], port: int = 0) -> None:
    """Serve the projects of a folder on the loopback address until it is ended; `tell` gets the first address."""
    import uvicorn

    class Server(uvicorn.Server):
        """A server that ends its long work before it waits for its last answers, which may wait for that work."""

        async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
            """End what runs, then answer what was asked, then go."""
            await desk.workers.end()
            await super().shutdown(sockets)

    token = secrets.token_urlsafe(32)
    # Ctrl-C is how a desk ends, be it before its first answer
    with suppress(KeyboardInterrupt), socket.socket(socket.AF_INET, socket.SOCK_STREAM) as listening:
        listening.bind(("127.0.0.1", port))
        number = listening.getsockname()[1]
        listening.listen(64)
        servers: list[Server] = []

        def stop() -> None:
            servers[0].should_exit = True

        desk = Desk(Projects.of(folder))
        app = application(desk, token, number, stop)
        settings = uvicorn.Config(app, log_level="warning", access_log=False, ws="none", server_header=False)
        servers.append(Server(settings))
        tell(f"http://127.0.0.1:{number}/?token={token}")
        servers[0].run(sockets=[listening])
