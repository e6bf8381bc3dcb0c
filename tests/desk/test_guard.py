"""Who may ask: the host, the origin, the cookie and the size are each looked at, and every answer carries a policy."""

from __future__ import annotations

from pathlib import Path

import pytest
from starlette.testclient import TestClient

from speccheck.desk.guard import LARGEST_REQUEST, POLICY, Guard
from speccheck.desk.projects import Projects
from tests.desk.clients import ORIGIN, TOKEN, client_of


@pytest.fixture
def client(tmp_path: Path) -> TestClient:
    """A client that knows the address and has no cookie."""
    return client_of(Projects.of(tmp_path), follow_redirects=False)


@pytest.fixture
def known(client: TestClient) -> TestClient:
    """A client that has come by the first address."""
    client.get(f"/?token={TOKEN}")
    return client


def test_first_address_gives_a_cookie_that_no_script_and_no_other_page_gets(client: TestClient) -> None:
    """The token becomes a cookie with HttpOnly and SameSite=Strict (RFC 6265bis), and leaves the address."""
    answer = client.get(f"/?token={TOKEN}")
    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    cookie = answer.headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=strict" in cookie


@pytest.mark.parametrize("address", ["/", "/?token=", "/?token=wrong", "/system", "/static/desk.css", "/api/jobs/x"])
def test_nothing_is_answered_without_the_cookie(client: TestClient, address: str) -> None:
    """Neither a screen nor a file of the desk is reached by somebody who does not know the token."""
    assert client.get(address).status_code == 403


@pytest.mark.parametrize("host", ["example.com", "example.com:8123", "127.0.0.1", "127.0.0.1:9", "[::1]:8123"])
def test_a_name_of_another_host_is_refused(known: TestClient, host: str) -> None:
    """A page that gives this machine a name of its own (DNS rebinding) gets nothing, even with the cookie."""
    assert known.get("/", headers={"host": host}).status_code == 421


@pytest.mark.parametrize("headers", [{}, {"origin": "http://example.com"}, {"origin": "null"}])
def test_requests_of_other_pages_change_nothing(known: TestClient, headers: dict[str, str]) -> None:
    """A request that writes has to come from a page of this desk."""
    assert known.post("/example", headers=headers).status_code == 403


def test_requests_that_are_too_long_are_refused_before_they_are_read(known: TestClient) -> None:
    """The length that a request states is enough to refuse it."""
    stated = {**ORIGIN, "content-length": str(LARGEST_REQUEST + 1)}
    assert known.post("/check", headers=stated, content=b"x").status_code == 413


def test_every_answer_carries_the_policy(known: TestClient) -> None:
    """No inline script, nothing from elsewhere, no frame: on screens, files, refusals and redirects alike."""
    for address in ("/", "/static/desk.css", "/projects/none", "/nowhere"):
        assert known.get(address).headers["content-security-policy"] == POLICY
    assert "unsafe" not in POLICY
    assert "script-src 'self';" in POLICY


@pytest.mark.parametrize("name", ["..", "%2e%2e", "..%2f..", "%2fetc", "a%00b", "C:%5c"])
def test_no_address_names_a_file_outside_the_folder(known: TestClient, name: str) -> None:
    """What stands in an address is looked up among the projects, and is never joined to a path."""
    assert known.get(f"/projects/{name}/findings").status_code == 404


def test_a_desk_without_a_token_does_not_exist() -> None:
    """There is no way to start one that lets everybody in."""
    with pytest.raises(ValueError, match="a desk without a token does not exist"):
        Guard(lambda *_: None, "", 8123)  # type: ignore[arg-type, return-value]
