"""Clients of a desk without a browser: its application in this process, on a folder of reviews."""

from __future__ import annotations

from typing import Any

from starlette.testclient import TestClient

from speccheck.desk.application import application
from speccheck.desk.desk import Desk
from speccheck.desk.projects import Projects

PORT = 8123
HOST = f"127.0.0.1:{PORT}"
TOKEN = "t" * 43
ORIGIN = {"origin": f"http://{HOST}"}
"""What a browser says of the page that a form is sent from."""


def client_of(projects: Projects, **how: Any) -> TestClient:
    """Return a client that knows the address of a desk, and has no cookie; `how` is what `TestClient` takes."""
    return TestClient(application(Desk(projects), TOKEN, PORT, lambda: None), base_url=f"http://{HOST}", **how)
