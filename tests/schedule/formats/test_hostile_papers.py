"""Malformed and hostile PDF and Word files end as one diagnostic each, in bounded time and memory."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner

from speccheck.cli.check import command as check
from speccheck.cli.markup import command as markup
from speccheck.inputs import UnusableInput
from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.schedule.formats.opening import open_schedule
from tests.report.markup.building import CLAUSES, marked
from tests.schedule.formats import hostile
from tests.some import some

DAMAGED_PDF = (
    "S104",
    "`{}` is damaged and cannot be read as a PDF",
    "ask for the file to be sent again, or print it to a new PDF",
)
WORD_AGAIN = "open the document in a word processor and save it again as .docx"
ENTITIES = ("S106", "`{}` declares XML entities, which no spreadsheet and no document does", WORD_AGAIN)
PAPERS: dict[str, tuple[Callable[[Path], Path], tuple[str, str, str]]] = {
    "content that unpacks to 4 GB.pdf": (hostile.stream_bomb, DAMAGED_PDF),
    "ten thousand pages.pdf": (
        hostile.many_pages,
        ("S105", "`{}` has 10000 pages, and the limit is 200", "leave only the pages of the schedule in the file"),
    ),
    "parents of parents.pdf": (hostile.deep_pages, DAMAGED_PDF),
    "lists in lists.pdf": (
        hostile.nested_lists,
        ("S114", "`{}` holds no text at all", "ask for the file that was printed"),
    ),
    "a trailer before itself.pdf": (hostile.endless_trailers, DAMAGED_PDF),
    "a billion words.docx": (hostile.entity_bomb, ENTITIES),
    "a file of the machine.docx": (hostile.file_entity, ENTITIES),
    "elements in elements.docx": (hostile.deep_document, ("S104", "`{}` nests more than 250 elements", WORD_AGAIN)),
    "a bomb.docx": (
        hostile.document_bomb,
        (
            "S105",
            "`{}` unpacks to 1027 times its size, and the limit is 250 times",
            "leave only the schedule in the file",
        ),
    ),
    "broken off.docx": (hostile.unending_document, ("S104", "`{}` is not a complete .docx document", WORD_AGAIN)),
}


@pytest.mark.parametrize("name", PAPERS)
def test_what_cannot_be_read_is_refused_for_check_and_for_markup(name: str, tmp_path: Path) -> None:
    """Both commands end with the same error, and no copy is written."""
    write, (code, message, help) = PAPERS[name]
    path = write(tmp_path / name)
    (tmp_path / "small.clauses").write_text(CLAUSES, encoding="utf-8")
    expected = Diagnostic(code, Severity.ERROR, message.format(name), Place(name), help)
    asked = [str(path), "--against", str(tmp_path / "small.clauses")]
    into = tmp_path / f"copy{path.suffix}"
    for command, more in ((check, []), (markup, ["--into", str(into)])):
        ended = CliRunner().invoke(command, [*asked, *more], standalone_mode=False).exception
        assert isinstance(ended, UnusableInput)
        assert tuple(ended.diagnostics) == (expected,)
    assert not into.exists()


def test_a_page_that_takes_too_long(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A page with hundreds of thousands of words ends at the limit of time, here one second."""
    monkeypatch.setattr("speccheck.schedule.formats.child.MOST_SECONDS", 1)
    path = hostile.long_page(tmp_path / "long.pdf")
    message = "`long.pdf` takes more than 1 seconds to read, which is the limit"
    expected = Diagnostic("S105", Severity.ERROR, message, Place("long.pdf"), "leave only the schedule in the file")
    assert open_schedule(path) == ([], [expected])


@pytest.mark.parametrize("write", [hostile.with_actions, hostile.form_within_itself])
def test_actions_and_forms_are_let_be(write: Callable[[Path], Path], tmp_path: Path) -> None:
    """Scripts, programs to start, embedded files and forms that draw themselves: the table is read, nothing else done.

    The marked copy has the bytes of the file in front, and none of its actions twice.
    """
    path = write(tmp_path / "s.pdf")
    grids, diagnostics = open_schedule(path)
    assert diagnostics == []
    assert [grids[0].text(row, column) for row in range(3) for column in range(3)] == [
        "Mark", "Service", "Thk", "P-1", "CHW", "1", "P-2", "HHW", "2",
    ]  # fmt: skip
    copy, comments = marked(path)
    assert comments.marks
    assert copy.startswith(path.read_bytes())
    assert copy.count(b"/JavaScript") == path.read_bytes().count(b"/JavaScript")
    assert copy[len(path.read_bytes()) :].count(b"/Launch") <= path.read_bytes().count(b"/Launch")


@pytest.mark.parametrize("write", [hostile.tables_within_tables, hostile.wide_cells])
def test_odd_tables_in_documents(write: Callable[[Path], Path], tmp_path: Path) -> None:
    """Tables forty deep and cells a billion columns wide are read within the limits, and never as lines."""
    grids, _ = open_schedule(write(tmp_path / "d.docx"))
    assert all(block.right < 100_000 for grid in some(grids) for block in grid.blocks)


@pytest.mark.skipif(sys.platform == "win32", reason="Windows does not tell the memory of a child")
def test_the_children_stay_within_their_memory(tmp_path: Path) -> None:
    """The largest child that reads a bomb, ten thousand pages and forms in themselves stays under 1 GB."""
    paths = [
        write(tmp_path / f"{write.__name__}.pdf")
        for write in (hostile.stream_bomb, hostile.many_pages, hostile.form_within_itself)
    ]
    script = (
        "import json, resource, sys; from pathlib import Path\n"
        "from speccheck.schedule.formats.opening import open_schedule\n"
        "for path in json.loads(sys.argv[1]): open_schedule(Path(path))\n"
        "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)\n"
    )
    run = subprocess.run(
        [sys.executable, "-c", script, json.dumps(list(map(str, paths)))], capture_output=True, text=True, check=True
    )
    unit = 1 if sys.platform == "darwin" else 1024
    assert int(run.stdout) * unit < 1_000 * 1024 * 1024
