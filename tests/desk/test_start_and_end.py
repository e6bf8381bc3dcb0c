"""The command `speccheck desk`: one address on this machine, a new token each time, and two ways to end it."""

from __future__ import annotations

import signal
import socket
import subprocess
import urllib.error
import urllib.parse
import urllib.request
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from speccheck.cli import speccheck
from speccheck.desk import application
from tests.desk.conftest import start_desk
from tests.some import some


def finish(process: subprocess.Popen[str]) -> int:
    """Wait for the end of a desk, and return its exit status."""
    try:
        status = process.wait(timeout=60)
    finally:
        process.kill()
        process.wait()
        assert process.stdout is not None
        process.stdout.close()
    return status


def test_it_is_on_the_loopback_address_alone_and_ends_with_ctrl_c(tmp_path: Path) -> None:
    """Another address of this machine reaches nothing, for 127.0.0.2 is one; SIGINT, which is Ctrl-C, ends the desk."""
    process, desk = start_desk(tmp_path)
    try:
        found = urllib.parse.urlsplit(desk.address)
        assert found.hostname == "127.0.0.1"
        assert found.port is not None
        with socket.create_connection(("127.0.0.1", found.port), timeout=10):
            pass
        with pytest.raises(OSError, match="refused"):
            socket.create_connection(("127.0.0.2", found.port), timeout=10)
        process.send_signal(signal.SIGINT)
    finally:
        status = finish(process)
    assert status == 0


def test_it_ends_from_the_page(browser: Any, tmp_path: Path) -> None:
    """The button at the foot of every screen ends the desk, which says that the tab can be closed."""
    process, desk = start_desk(tmp_path)
    try:
        page = browser.new_page()
        page.goto(desk.address)
        page.click("text=End the desk")
        page.wait_for_selector("h1:text-is('The desk has ended')")
        page.close()
    finally:
        status = finish(process)
    assert status == 0


def test_each_start_has_a_token_of_its_own(tmp_path: Path) -> None:
    """Two desks on one folder: other ports, other tokens of 32 random bytes, and neither takes that of the other."""
    desks = [start_desk(tmp_path) for _ in range(2)]
    try:
        tokens = [desk.address.partition("token=")[2] for _, desk in desks]
        assert len(set(tokens)) == 2
        assert all(len(one) == 43 for one in some(tokens))
        with pytest.raises(urllib.error.HTTPError, match="403"):
            urllib.request.urlopen(f"{desks[0][1].home}/?token={tokens[1]}", timeout=30)
    finally:
        for process, _ in desks:
            process.terminate()
            finish(process)


@pytest.mark.parametrize("words", [["--token", "none"], ["--host", "0.0.0.0"]])
def test_there_is_no_way_to_let_everybody_in(tmp_path: Path, words: list[str]) -> None:
    """Neither the token nor the address can be chosen."""
    done = CliRunner().invoke(speccheck, ["desk", str(tmp_path), *words])
    assert done.exit_code == 2
    assert f"No such option '{words[0]}'" in done.output


def test_the_address_is_printed_and_opened(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A person gets the address, the folder and how to end it; the browser gets the address, unless told not to."""
    opened: list[str] = []
    address = "http://127.0.0.1:8123/?token=x"
    monkeypatch.setattr(application, "serve", lambda folder, tell, port: tell(address))
    monkeypatch.setattr("click.launch", opened.append)
    done = CliRunner().invoke(speccheck, ["desk", str(tmp_path / "new")], standalone_mode=False)
    assert done.output.splitlines() == [
        f"The desk is open at {address}", f"Projects are kept in {tmp_path / 'new'}", "Ctrl-C ends it.",
    ]  # fmt: skip
    assert opened == [address]
    CliRunner().invoke(speccheck, ["desk", str(tmp_path / "new"), "--no-browser"], standalone_mode=False)
    assert opened == [address]
