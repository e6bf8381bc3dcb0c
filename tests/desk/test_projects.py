"""A project: written whole, never over what somebody else changed, every step undone, nothing lost when killed."""

from __future__ import annotations

import random
import signal
import subprocess
import sys
import time
import tomllib
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import pytest

from speccheck.desk.mapping_file import settle, write_note
from speccheck.desk.projects import Changed, NoSuch, Project, Projects, Unreadable, fingerprint
from speccheck.desk.rounds_screen import add_round
from speccheck.desk.uploads import Received
from speccheck.language import load_vocabulary
from speccheck.schedule import read_mapping
from tests.some import some


@pytest.fixture
def project(tmp_path: Path) -> Project:
    """A new project with one round."""
    made = Projects.of(tmp_path).make("Invented plant", "trade-practice")
    made.write(("rounds", "01", "submittal.csv"), "Service,Thickness\nsteam,1 in\n", "", "submittal")
    return made


def last(project: Project) -> str:
    """Return the number of the step that can be undone."""
    step = project.last_step()
    return step.number if step is not None else ""


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ('againt = "fire"', "project.toml:1:1: there is no key `againt` (did you mean `against`?)"),
        ("name = 3", 'project.toml:1:8: `name` cannot be `3` (write it in quotation marks: "3")'),
        ('units = "imperial"', 'project.toml:1:9: `units` cannot be `"imperial"` (write "inch-pound" or "metric")'),
    ],
)
def test_settings_with_a_mistake_are_told_and_never_taken_as_empty(tmp_path: Path, text: str, why: str) -> None:
    """A project whose settings cannot be used is checked against nothing, and says at which line and column why."""
    project = Projects(tmp_path).make("A dairy", "fire")
    (project.folder / "project.toml").write_text(text, encoding="utf-8")
    with pytest.raises(Unreadable) as told:
        project.against()
    assert str(told.value) == why
    assert project.title == "a-dairy"


def test_settings_may_begin_with_a_byte_order_mark(tmp_path: Path) -> None:
    """Some editors put one first when a person saves the file."""
    project = Projects(tmp_path).make("A dairy", "fire")
    (project.folder / "project.toml").write_text('\ufeffagainst = "fire"', encoding="utf-8")
    assert project.against() == "fire"


def test_a_new_project_is_a_folder_of_plain_files(project: Project) -> None:
    """Its settings are TOML, its submittal is the file as received, and its rounds are counted."""
    settings = tomllib.loads((project.folder / "project.toml").read_text("utf-8"))
    assert settings == {"name": "Invented plant", "against": "trade-practice"}
    assert (project.folder.name, project.rounds) == ("invented-plant", ("01",))


def test_a_file_changed_meanwhile_is_not_overwritten(project: Project) -> None:
    """Who saves with an old fingerprint is shown what stands there now, and the file stays as it is."""
    project.write(("clauses", "project.clauses"), "one", "", "clauses")
    with pytest.raises(Changed) as stop:
        project.write(("clauses", "project.clauses"), "two", "", "clauses")
    assert (stop.value.file, stop.value.now) == ("clauses/project.clauses", "one")
    assert project.read("clauses", "project.clauses") == "one"


def test_steps_are_undone_one_after_the_other(project: Project) -> None:
    """Each undoing gives the file as it was before the last step that is left; the first step takes it away again."""
    settle(project, "01", "ignore", "Rev", "", "")
    settle(project, "01", "values", "WJ-2", "jacket", "PVC")
    path = project.folder / "rounds" / "01" / "mapping.toml"
    assert tomllib.loads(path.read_text("utf-8")) == {"ignore": ["Rev"], "values": {"jacket": {"WJ-2": "PVC"}}}
    project.undo(last(project))
    assert tomllib.loads(path.read_text("utf-8")) == {"ignore": ["Rev"]}
    project.undo(last(project))
    assert not path.exists()


def test_writes_that_belong_together_are_undone_together(project: Project) -> None:
    """A round with its mapping and notes is one step; where one of its files was changed since, none is taken back."""
    project.write(("rounds", "02", "submittal.csv"), "Service\nsteam\n", "", "submittal of round 02")
    for name in ("mapping.toml", "notes.toml"):
        project.write(("rounds", "02", name), "", "", "carried over", joined=True)
    step = project.last_step()
    assert step is not None
    assert (step.what, len(step.writes)) == ("submittal of round 02", 3)
    notes = project.folder / "rounds" / "02" / "notes.toml"
    notes.write_text("# mine", "utf-8")
    with pytest.raises(Changed):
        project.undo(last(project))
    assert project.rounds == ("01", "02")
    notes.write_text("", "utf-8")
    assert project.undo(last(project)) == "submittal of round 02"
    assert [one.name for one in (project.folder / "rounds" / "02").iterdir()] == []


def test_a_step_may_write_a_file_twice(project: Project) -> None:
    """One undoing gives the file as it was before both."""
    project.write(("clauses", "project.clauses"), "one", "", "clauses")
    project.write(("clauses", "project.clauses"), "two", None, "clauses")
    project.write(("clauses", "project.clauses"), "three", None, "clauses", joined=True)
    project.undo(last(project))
    assert project.read("clauses", "project.clauses") == "one"


def test_every_step_back_to_an_empty_folder_can_be_undone(project: Project) -> None:
    """Settings, submittal, clauses, answers and notes: undone one by one, nothing is left but the history's folder."""
    project.write(("clauses", "project.clauses"), "one", "", "clauses")
    project.write(("clauses", "project.clauses"), "two", None, "clauses")
    settle(project, "01", "seen", "raw milk", "", "")
    write_note(project, "01", [{"service": "steam"}], "1.1", "Revise.", "open", ("", ""))
    write_note(project, "01", [{"service": "steam"}], "1.1", "Accepted.", "settled", ("Revise.", "open"))
    while last(project):
        project.undo(last(project))
    left = [one.name for one in project.folder.rglob("*") if one.is_file() and one.name != ".lock"]
    assert left == []


def test_only_the_last_writes_are_remembered(project: Project, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder that is used for years does not grow without end; what is remembered can still be undone."""
    monkeypatch.setattr("speccheck.desk.history.MOST_WRITES", 5)
    for number in range(12):
        project.write(("clauses", "project.clauses"), f"{number}", None, "clauses")
    assert len(list((project.folder / "history").iterdir())) == 10
    for _ in range(5):
        project.undo(last(project))
    assert (last(project), project.read("clauses", "project.clauses")) == ("", "6")


def test_a_file_that_somebody_wrote_by_hand_is_built_upon(project: Project) -> None:
    """A mapping file changed in a text editor before the page was opened: the answer is added, the rest stays."""
    path = project.folder / "rounds" / "01" / "mapping.toml"
    path.write_text('# what the office agreed\nignore = ["Rev"]\n', "utf-8")
    settle(project, "01", "seen", "raw milk", "", "", fingerprint(path))
    assert path.read_text("utf-8").startswith("# what the office agreed\n")
    assert tomllib.loads(path.read_text("utf-8")) == {"ignore": ["Rev"], "seen": ["raw milk"]}
    project.undo(last(project))
    assert path.read_text("utf-8") == '# what the office agreed\nignore = ["Rev"]\n'


@pytest.mark.parametrize(
    ("kind", "key", "term", "mine", "yours"),
    [
        ("values", "WJ-2", "jacket", "PVC", "aluminum"),
        ("columns", "Svc", "service", "", "in"),
        ("units", "units", "", "metric", "inch-pound"),
    ],
)
def test_another_answer_given_meanwhile_is_shown(
    project: Project, kind: str, key: str, term: str, mine: str, yours: str
) -> None:
    """Two tabs show a question as open: the second answer is not written over the first, an equal one is no quarrel."""
    settle(project, "01", kind, key, term, mine, "")
    before = project.read("rounds", "01", "mapping.toml")
    with pytest.raises(Changed) as stop:
        settle(project, "01", kind, key, term, yours, "")
    assert stop.value.now.startswith(f"{key} = ")
    settle(project, "01", kind, key, term, mine, "")
    assert project.read("rounds", "01", "mapping.toml") == before
    settle(project, "01", "seen", "raw milk", "", "", "")
    assert tomllib.loads(project.read("rounds", "01", "mapping.toml"))["seen"] == ["raw milk"]


def test_undoing_does_not_take_back_what_somebody_else_wrote(project: Project) -> None:
    """A file that was changed after the step is left alone."""
    settle(project, "01", "ignore", "Rev", "", "")
    (project.folder / "rounds" / "01" / "mapping.toml").write_text('ignore = ["Mine"]\n', "utf-8")
    with pytest.raises(Changed):
        project.undo(last(project))
    assert 'ignore = ["Mine"]' in project.read("rounds", "01", "mapping.toml")


def test_what_is_settled_is_a_mapping_file_that_the_commands_read(project: Project) -> None:
    """Every kind of answer comes out as the mapping file of `check` has it, whatever characters are in the words."""
    settle(project, "01", "columns", 'Pipe "Dia."', "pipe size", "in")
    settle(project, "01", "columns", "Svc", "service", "")
    settle(project, "01", "units", "", "", "metric")
    vocabulary = load_vocabulary("mechanical insulation").vocabulary
    assert vocabulary is not None
    mapping, problems = read_mapping(project.folder / "rounds" / "01" / "mapping.toml", vocabulary)
    assert problems == ()
    assert mapping is not None
    assert (mapping.columns['Pipe "Dia."'].term, mapping.columns['Pipe "Dia."'].unit) == ("pipe size", "in")
    assert (mapping.columns["Svc"].term, mapping.units) == ("service", "metric")


def test_every_kind_of_answer_can_follow_every_other(project: Project) -> None:
    """In any order the entries stand where TOML wants them: keys of the file before its tables."""
    answers = [
        ("values", "WJ-2", "jacket", "PVC"), ("columns", "Svc", "service", ""), ("ignore", "Rev.", "", ""),
        ("seen", "raw milk", "", ""), ("notes", "Note 1", "", ""), ("ignore-sheets", "Cover", "", ""),
        ("units", "units", "", "metric"), ("read-hidden", "true", "", ""), ("header-row", "4", "", ""),
        ("headers", "Thk.", "thickness", "mm"),
    ]  # fmt: skip
    for kind, key, term, value in (*answers, *reversed(answers)):
        settle(project, "01", kind, key, term, value)
    assert tomllib.loads(project.read("rounds", "01", "mapping.toml")) == {
        "values": {"jacket": {"WJ-2": "PVC"}},
        "columns": {"Svc": "service", "Thk.": {"term": "thickness", "unit": "mm"}},
        "ignore": ["Rev."], "seen": ["raw milk"], "notes": ["Note 1"], "ignore-sheets": ["Cover"],
        "units": "metric", "read-hidden": True, "header-row": 4,
    }  # fmt: skip
    vocabulary = load_vocabulary("mechanical insulation").vocabulary
    assert vocabulary is not None
    assert read_mapping(project.folder / "rounds" / "01" / "mapping.toml", vocabulary)[1] == ()


def test_a_path_that_leads_outside_is_none(project: Project, tmp_path: Path) -> None:
    """Neither dots nor a link lead out of the folder of the project."""
    (project.folder / "out").symlink_to(tmp_path)
    for parts in (("..", "other"), ("out", "file"), ("/etc/passwd",)):
        with pytest.raises(NoSuch):
            project.inside(*parts)


def test_two_people_who_write_the_same_note_both_see_it(project: Project) -> None:
    """The second is shown the note of the first, and nothing is overwritten."""
    line = {"service": "steam"}
    write_note(project, "01", [line], "1.1", "mine", "open", ("", ""))
    with pytest.raises(Changed) as stop:
        write_note(project, "01", [line], "1.1", "yours", "", ("", ""))
    assert stop.value.now == "mine\nopen"


def test_a_note_on_lines_alike_is_one_step(project: Project) -> None:
    """Three lines get the same note, one undoing takes it from all of them, and an emptied note is none."""
    lines = [{"service": "steam", "pipe size": f"{size} in"} for size in (1, 2, 3)]
    write_note(project, "01", lines, "1.1", "Revise.", "open", ("", ""))
    notes = tomllib.loads(project.read("rounds", "01", "notes.toml"))["note"]
    assert [(one["line"], one["text"]) for one in notes] == [(line, "Revise.") for line in lines]
    write_note(project, "01", lines[:1], "1.1", "", "", ("Revise.", "open"))
    notes = tomllib.loads(project.read("rounds", "01", "notes.toml"))["note"]
    assert [one["line"] for one in notes] == lines[1:]
    project.undo(last(project))
    project.undo(last(project))
    assert project.read("rounds", "01", "notes.toml") == ""


def _many_notes(folder: str, who: str) -> None:
    for number in range(15):
        write_note(Project(Path(folder)), "01", [{"service": f"{who}{number}"}], "1.1", f"{who}{number}", "", ("", ""))


def test_lines_that_nothing_tells_apart_have_one_note(project: Project) -> None:
    """Two lines of one service, without marks: a note on both is written once, and is no quarrel with itself."""
    line = {"service": "steam"}
    write_note(project, "01", [line, {"service": "brine"}, line], "2.1", "Revise.", "open", ("", ""))
    notes = tomllib.loads(project.read("rounds", "01", "notes.toml"))["note"]
    assert [one["line"] for one in notes] == [line, {"service": "brine"}]


def test_two_desks_on_one_folder_lose_no_note(project: Project) -> None:
    """Two processes that write notes at the same time leave the notes of both."""
    with ProcessPoolExecutor(2) as both:
        list(both.map(_many_notes, [str(project.folder)] * 2, ["a", "b"]))
    notes = tomllib.loads(project.read("rounds", "01", "notes.toml"))["note"]
    assert sorted(one["text"] for one in notes) == sorted(f"{who}{number}" for who in "ab" for number in range(15))


WRITER = """
import sys
from pathlib import Path
from speccheck.desk.mapping_file import write_note
from speccheck.desk.projects import Project, Unreadable
for number in range(10000):
    write_note(Project(Path(sys.argv[1])), "01", [{"service": f"{sys.argv[2]}-{number}"}], "1.1", "text", "", ("", ""))
    print(f"{sys.argv[2]}-{number}", flush=True)
"""


def test_killed_while_saving_no_note_that_was_saved_is_lost(project: Project) -> None:
    """Ten times a process that saves notes is killed at some moment: the file is whole and has all that was told."""
    moments, saved = random.Random(15), []
    for run in range(10):
        writer = subprocess.Popen(
            [sys.executable, "-c", WRITER, str(project.folder), str(run)], stdout=subprocess.PIPE, text=True
        )
        assert writer.stdout is not None
        saved.append(writer.stdout.readline().strip())  # it has begun
        time.sleep(moments.random() * 0.1)
        writer.send_signal(signal.SIGKILL)
        saved += writer.stdout.read().split()
        writer.stdout.close()
        writer.wait()
        notes = tomllib.loads(project.read("rounds", "01", "notes.toml"))["note"]
        assert set(filter(None, saved)) <= {one["line"]["service"] for one in notes}
        assert last(project)
        project.undo(last(project))
        saved = [one["line"]["service"] for one in tomllib.loads(project.read("rounds", "01", "notes.toml"))["note"]]


PACKER = """
import sys
from pathlib import Path
from speccheck.desk.projects import Project
project = Project(Path(sys.argv[1]))
print("begun", flush=True)
for number in range(int(sys.argv[2]), 100):
    files = dict.fromkeys(map(str, range(6)), b"x" * 200_000)
    project.write_folder(("rounds", f"{number:02d}", "submittal"), files, "package")
"""


def test_killed_while_storing_a_package_it_is_whole_or_not_there(project: Project) -> None:
    """Ten times a process that stores packages of six files is killed at some moment: no round has fewer, none is half.

    What was left unfinished is no round; it is written over by the package that comes next, and can be undone.
    """
    moments = random.Random(6)
    for _ in range(10):
        begin = int(project.rounds[-1]) + 1
        writer = subprocess.Popen(
            [sys.executable, "-c", PACKER, str(project.folder), str(begin)], stdout=subprocess.PIPE, text=True
        )
        assert writer.stdout is not None
        writer.stdout.readline()
        time.sleep(moments.random() * 0.15)
        writer.send_signal(signal.SIGKILL)
        writer.stdout.close()
        writer.wait()
        for round in project.rounds[1:]:
            assert [one.stat().st_size for one in project.submitted(round)] == [200_000] * 6
    assert len(project.rounds) > 1
    fresh = f"{int(project.rounds[-1]) + 1:02d}"
    project.write_folder(("rounds", fresh, "submittal"), {"a.csv": b"Service\nsteam\n", "b.csv": b"b"}, "package")
    assert [one.name for one in project.submitted(fresh)] == ["a.csv", "b.csv"]
    assert [one.name for one in (project.folder / "rounds" / fresh).iterdir()] == ["submittal"]
    with pytest.raises(Changed):
        project.write_folder(("rounds", fresh, "submittal"), {"c.csv": b"c"}, "another")
    assert project.undo(last(project)) == "package"
    assert project.submittal(fresh) is None
    project.write_folder(("rounds", fresh, "submittal"), {"c.csv": b"c"}, "another")
    assert [one.name for one in project.submitted(fresh)] == ["c.csv"]


def test_two_desks_make_two_projects_of_one_name(tmp_path: Path) -> None:
    """A folder that turns up while a project is made is not taken, be it a project or not."""
    (tmp_path / "plant").mkdir()
    (tmp_path / "plant-2").write_text("a file of somebody")
    assert Projects(tmp_path).make("Plant", "fire").name == "plant-3"


def test_two_desks_that_add_a_round_at_once_add_two(project: Project) -> None:
    """Which round comes next is asked within the lock, so that two resubmittals never share a round."""
    with ProcessPoolExecutor(2) as both:
        list(both.map(_many_rounds, [str(project.folder)] * 2, [".csv", ".xlsx"]))
    assert len(project.rounds) == 11
    assert all(len(list((project.folder / "rounds" / round).glob("submittal*"))) == 1 for round in some(project.rounds))


def _many_rounds(folder: str, suffix: str) -> None:
    for _ in range(5):
        add_round(Project(Path(folder)), [Received("schedule", suffix, b"x")])
