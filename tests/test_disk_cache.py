"""The disk cache: it gives back what it was given, runs nothing, trusts nobody else, and does not grow for ever."""

from __future__ import annotations

import os
import pickle
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from speccheck import disk_cache
from speccheck.language import load_ruleset
from speccheck.language.ruleset_files import located, recall_loaded, shipped_ruleset_names


def shipped_rulesets() -> list[str]:
    """Return the names of all shipped rulesets."""
    return shipped_ruleset_names()


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """Put the cache into a new folder for one test."""
    monkeypatch.setenv("SPECCHECK_CACHE", str(tmp_path / "cache"))
    disk_cache.cache_folder.cache_clear()
    found = disk_cache.cache_folder()
    assert found is not None
    yield found
    disk_cache.cache_folder.cache_clear()


@pytest.mark.parametrize("name", shipped_rulesets())
def test_a_ruleset_comes_back_as_it_was(folder: Path, name: str) -> None:
    """A shipped ruleset is kept, and what is read back is equal to it: every kind of value may stand in the file."""
    loaded = load_ruleset(name)
    assert recall_loaded(located(name)) == (loaded, loaded.files)


BASE = 'ruleset "Base"\n  speaks mechanical insulation\n\nclause 1 "Jackets"\n  shall jacket be {jacket}\n'
OWN = 'ruleset "Own"\n  builds on "base"\n\nclause 2 "Walls"\n  shall thickness be at least 1 in\n'


def test_a_copy_of_a_ruleset_in_another_folder_is_known(folder: Path, tmp_path: Path) -> None:
    """A copy beside the same files is not read again, and says of itself that its files are those of its own folder."""
    for place in ("first", "copy"):
        (tmp_path / place / "parts").mkdir(parents=True)
        (tmp_path / place / "parts" / "base.clauses").write_text(BASE.format(jacket="aluminum"))
        (tmp_path / place / "own.clauses").write_text(OWN.replace("base", "parts/base"))
    loaded = load_ruleset(tmp_path / "first" / "own.clauses")
    found, files = recall_loaded(tmp_path / "copy" / "own.clauses")
    assert found == loaded
    mine = {one.relative_to(tmp_path).as_posix() for one in map(Path, files) if one.is_relative_to(tmp_path)}
    assert mine == {"copy/own.clauses", "copy/parts/base.clauses"}
    assert load_ruleset(tmp_path / "copy" / "own.clauses").files == files


def test_a_copy_beside_other_files_is_read_by_itself(folder: Path, tmp_path: Path) -> None:
    """A copy whose base says something else, or lies there although the first has none, is another ruleset."""
    for place, jacket in (("first", "aluminum"), ("copy", "PVC")):
        (tmp_path / place).mkdir()
        (tmp_path / place / "base.clauses").write_text(BASE.format(jacket=jacket))
        (tmp_path / place / "own.clauses").write_text(OWN)
    for place, jacket in (("first", "aluminum"), ("copy", "PVC"), ("first", "aluminum")):
        ruleset = load_ruleset(tmp_path / place / "own.clauses").ruleset
        assert ruleset is not None
        assert jacket in repr(ruleset.clauses[0])


def test_a_base_behind_a_link_counts_in_its_own_folder_alone(folder: Path, tmp_path: Path) -> None:
    """Where a base is a link to elsewhere, what lies beside its target decides: a copy elsewhere is read by itself."""
    for place in ("first", "copy", "far"):
        (tmp_path / place).mkdir()
    (tmp_path / "far" / "base.clauses").write_text(BASE.format(jacket="aluminum"))
    try:
        (tmp_path / "first" / "base.clauses").symlink_to(tmp_path / "far" / "base.clauses")
    except OSError:
        pytest.skip("no links here")
    (tmp_path / "copy" / "base.clauses").write_text(BASE.format(jacket="aluminum"))
    for place in ("first", "copy"):
        (tmp_path / place / "own.clauses").write_text(OWN)
    assert load_ruleset(tmp_path / "first" / "own.clauses").usable
    assert recall_loaded(tmp_path / "first" / "own.clauses")[0] is not None
    assert recall_loaded(tmp_path / "copy" / "own.clauses")[0] is None


def test_a_copy_of_a_shipped_ruleset_is_called_by_its_own_name(folder: Path, tmp_path: Path) -> None:
    """Messages call a shipped file by its folder and a copy by its name, so that one is not taken for the other."""
    load_ruleset("condensation")
    copy = tmp_path / "condensation.clauses"
    copy.write_bytes(located("condensation").read_bytes())
    ruleset = load_ruleset(copy).ruleset
    assert ruleset is not None
    assert ruleset.clauses[0].place.file == "condensation.clauses"


class Evil:
    """What runs a command where it is unpickled by the library's own reader."""

    def __reduce__(self) -> tuple[Any, ...]:
        return os.system, ("echo run > ran",)


@pytest.mark.parametrize(
    "content",
    [
        pickle.dumps(Evil()),
        pickle.dumps(pytest.raises),
        pickle.dumps(Path("x")),
        b"cspeccheck.shipped\nshipped_folder\n(S'rulesets'\ntR.",
        b"cspeccheck.disk_cache\nos.system\n(S'echo run > ran'\ntR.",
        b"",
        b"nonsense",
    ],
)
def test_a_kept_file_runs_nothing(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, content: bytes
) -> None:
    """A file that names anything but plain values of the package is as good as not there."""
    monkeypatch.chdir(tmp_path)
    (folder / "thing").write_bytes(content)
    (folder / "thing").chmod(0o600)
    assert disk_cache.recall("thing") is None
    assert not (tmp_path / "ran").exists()


@pytest.mark.skipif(not hasattr(os, "getuid"), reason="Windows keeps the folder in the user's own profile")
def test_what_others_may_write_is_not_read(folder: Path) -> None:
    """A file or a folder that somebody else may write to, or a link, is not read."""
    disk_cache.keep("thing", 1)
    assert disk_cache.recall("thing") == 1
    (folder / "thing").chmod(0o660)
    assert disk_cache.recall("thing") is None
    (folder / "thing").rename(folder / "other")
    (folder / "other").chmod(0o600)
    (folder / "thing").symlink_to(folder / "other")
    assert disk_cache.recall("thing") is None
    folder.chmod(0o777)
    disk_cache.cache_folder.cache_clear()
    assert disk_cache.cache_folder() is None


@pytest.mark.skipif(not hasattr(os, "getuid"), reason="Windows has no owners of this kind")
def test_a_folder_of_somebody_else_is_not_used(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where another user made the folder before, nothing is kept there and nothing read."""
    me = os.getuid()
    monkeypatch.setattr(os, "getuid", lambda: me)
    folder.rename(folder.with_name(f"of-user-{me + 1}"))
    monkeypatch.setattr(os, "getuid", lambda: me + 1)
    disk_cache.cache_folder.cache_clear()
    assert disk_cache.cache_folder() is None


def test_old_files_are_forgotten(folder: Path) -> None:
    """Of each kind the folder keeps the files that were used last, and the fingerprints of reports beside them."""
    disk_cache.remember_written(b"report")
    disk_cache.keep("other-0", 0)
    for number in range(disk_cache.MOST_KEPT + 5):
        disk_cache.keep(f"thing-{number}", number)
        os.utime(folder / f"thing-{number}", (number, number))
    assert disk_cache.recall("thing-5") == 5
    disk_cache.keep("thing-last", 0)
    assert len(list(folder.iterdir())) == disk_cache.MOST_KEPT + 2
    assert disk_cache.recall("other-0") == 0
    assert disk_cache.recall("thing-0") is None
    assert disk_cache.recall(f"thing-{disk_cache.MOST_KEPT + 4}") == disk_cache.MOST_KEPT + 4
    assert disk_cache.was_written(b"report")


def test_without_a_home_nothing_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    """A user without a home folder and without an entry among the users works without a cache."""
    import platformdirs

    def nobody(_: str) -> str:
        raise RuntimeError("could not determine home directory")

    monkeypatch.delenv("SPECCHECK_CACHE", raising=False)
    monkeypatch.setattr(platformdirs, "user_cache_dir", nobody)
    disk_cache.cache_folder.cache_clear()
    try:
        assert disk_cache.cache_folder() is None
        assert not disk_cache.was_written(b"report")
    finally:
        disk_cache.cache_folder.cache_clear()
