"""Clusters: several real worker processes, one of them killed, and the same output to the byte."""

from __future__ import annotations

import os
import signal
from pathlib import Path

import pytest

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.review.portfolio import Run, cluster, run_portfolio
from tests.review.portfolio_schedules import contents, judged, request_of, write_portfolio, write_ruleset

# A cluster that loses a worker warns of it, and its event loop closes sockets late.
pytestmark = pytest.mark.filterwarnings("ignore")
SCHEDULES = 40


def test_worker_killed_in_the_run(tmp_path: Path) -> None:
    """Of three workers one is killed while it judges; nothing is lost, and every file is that of one process."""
    from distributed import Client, LocalCluster

    portfolio, ruleset = write_portfolio(tmp_path / "all", SCHEDULES, 6), write_ruleset(tmp_path)
    judged(portfolio, ruleset, tmp_path / "alone")
    killed: list[int] = []
    with (
        LocalCluster(n_workers=3, threads_per_worker=1, processes=True, dashboard_address=None) as local,
        Client(local) as client,
    ):
        workers = sorted(client.run(os.getpid).values())

        def kill_one(done: int) -> None:
            if done == SCHEDULES // 4:
                os.kill(workers[0], signal.SIGKILL)
                killed.append(workers[0])

        request = request_of(portfolio, ruleset, tmp_path / "cluster")
        run = run_portfolio(request, on=local.scheduler_address, progress=kill_one)
        assert set(client.run(os.getpid).values()) != set(workers)
    assert isinstance(run, Run)
    assert len(set(workers)) == 3
    assert killed == workers[:1]
    assert contents(tmp_path / "cluster") == contents(tmp_path / "alone")


def test_cluster_of_this_machine(tmp_path: Path) -> None:
    """The word `local` starts worker processes, which end with the run; a run begun without them goes on with them."""
    portfolio, ruleset = write_portfolio(tmp_path / "all", 8, 3), write_ruleset(tmp_path)
    judged(portfolio, ruleset, tmp_path / "alone")
    judged(portfolio, ruleset, tmp_path / "cluster")
    for path in sorted((tmp_path / "cluster/results").rglob("*.jsonl"))[:5]:
        path.unlink()
    run = run_portfolio(request_of(portfolio, ruleset, tmp_path / "cluster"), on="local", workers=2)
    assert isinstance(run, Run)
    assert (run.judged, run.kept) == (5, 3)
    assert contents(tmp_path / "cluster") == contents(tmp_path / "alone")


def test_no_cluster_answers(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """An address at which nothing answers is said, with what to write instead."""
    monkeypatch.setattr(cluster, "_SECONDS_TO_ANSWER", 1)
    portfolio, ruleset = write_portfolio(tmp_path / "all", 1, 3), write_ruleset(tmp_path)
    found = run_portfolio(request_of(portfolio, ruleset, tmp_path / "out"), on="tcp://127.0.0.1:9")
    message = "no cluster answers at `tcp://127.0.0.1:9`"
    help = "write the address of a running Dask scheduler, such as `tcp://10.0.0.5:8786`, or `local`"
    assert found == Diagnostic("V506", Severity.ERROR, message, Place(), help)


def test_without_dask(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the optional library the help line says how to get it."""
    monkeypatch.setattr(cluster, "find_spec", lambda name: None)
    portfolio, ruleset = write_portfolio(tmp_path / "all", 1, 3), write_ruleset(tmp_path)
    found = run_portfolio(request_of(portfolio, ruleset, tmp_path / "out"), on="local")
    help = "in the folder of this project, run `pip install '.[distributed]'`"
    assert found == Diagnostic("V505", Severity.ERROR, "a cluster needs Dask, which is not installed", Place(), help)


def test_worker_with_another_ruleset(tmp_path: Path) -> None:
    """A worker that finds another ruleset than the run was started with judges nothing, and says so."""
    portfolio, ruleset = write_portfolio(tmp_path / "all", 2, 3), write_ruleset(tmp_path)
    request = request_of(portfolio, ruleset, tmp_path / "out")
    ruleset.write_text(ruleset.read_text().replace("at least 1 in", "at least 4 in"))
    run = run_portfolio(request, workers=1)
    assert isinstance(run, Run)
    found = [(one.code, one.message) for _, results in run.results() for part in results for one in part.diagnostics]
    assert found == [("V507", "a worker has another ruleset or program than this machine")] * 2
