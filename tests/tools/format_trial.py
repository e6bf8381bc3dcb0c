"""`python -m tests.tools.format_trial FILE... [--against RULESET]`: the same schedules as papers of every kind.

Each schedule is written as .xlsx, .xlsb, .xls, .ods, .csv, .docx, and as PDF with rules and without, by libraries, by
LibreOffice, by Chromium, and as word processors write; and each paper is read and judged. Without a ruleset, the one
is taken that `expected.json` names beside the file. Printed is, for each way of writing, how many schedules gave the
same lines and verdicts, and what the others gave: less (something was not read, and nothing as another value), or other
values.
"""

from __future__ import annotations

import argparse
import json
import tempfile
from collections import Counter
from collections.abc import Callable, Container, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, partial
from pathlib import Path

from speccheck.judge.judgement import Verdict
from speccheck.language import load_ruleset
from speccheck.language.core import Ruleset
from speccheck.language.vocabulary.values import NotGiven, write_value
from speccheck.review.matrix import Matrix
from speccheck.review.reviewing import judge_schedule
from speccheck.schedule import Line, read_schedule
from speccheck.schedule.formats.opening import open_schedule
from tests.schedule.formats.binary_sheets import write_xlsb
from tests.schedule.formats.papers import write_ods, write_separated
from tests.schedule.formats.producers import (
    Sheet,
    by_browser,
    by_office,
    sheets_of,
    write_document,
    write_page,
    write_pdf,
    write_word_like_pdf,
    write_workbook,
)

SAME, LESS, OTHER = "same", "less", "other"


@dataclass(frozen=True)
class Facts:
    """What a schedule says and what becomes of it: for each line its data by term and its verdicts by clause."""

    data: tuple[Mapping[str, str], ...]
    verdicts: tuple[Mapping[str, str], ...]


def facts_of(path: Path, ruleset: Ruleset) -> Facts:
    """Return the facts of a schedule file."""
    schedule = read_schedule(path, ruleset.vocabulary, units=ruleset.units)
    matrix = judge_schedule(schedule, ruleset)
    return Facts(tuple(_data(line, ruleset) for line in schedule.lines), _verdicts(matrix))


def _data(line: Line, ruleset: Ruleset) -> dict[str, str]:
    """Return the data of a line in words; a name that says only in which row it stands is none."""
    return {
        name: write_value(datum.value, ruleset.vocabulary.terms[name])
        for name, datum in line.data.items()
        if not isinstance(datum.value, NotGiven)
    }


def _verdicts(matrix: Matrix) -> tuple[Mapping[str, str], ...]:
    names = [clause.name for clause in matrix.ruleset.clauses]
    return tuple(dict(zip(names, (str(cell.verdict) for cell in row), strict=True)) for row in matrix.cells)


def compared(expected: Facts, found: Facts) -> tuple[str, str]:
    """Return how what a paper gave stands to what its schedule gives, and the first thing that differs."""
    if found == expected:
        return SAME, ""
    if len(found.data) != len(expected.data):
        less = [one for one in found.data if not any(one.items() <= other.items() for other in expected.data)]
        why = f"{len(found.data)} lines, not {len(expected.data)}"
        return (OTHER, f"{why}: {less[0]}") if less else (LESS, why)
    worst = SAME, ""
    for number, (one, other) in enumerate(zip(expected.data, found.data, strict=True), start=1):
        for name in sorted({*one, *other}):
            if one.get(name) != other.get(name):
                told = f"line {number}: {name} {other.get(name, 'not read')}, not {one.get(name, 'stated')}"
                if name in other:
                    return OTHER, told
                worst = (LESS, told) if worst[0] == SAME else worst
    for number, (one, other) in enumerate(zip(expected.verdicts, found.verdicts, strict=True), start=1):
        for clause, verdict in one.items():
            if verdict != other[clause]:
                told = f"line {number}: clause {clause} {other[clause]}, not {verdict}"
                # A line that says less complies where its scope is not known and it meets the clause either way.
                passes = other[clause] == str(Verdict.COMPLIES) and verdict != str(Verdict.NOT_APPLICABLE)
                if passes or worst[0] == SAME:
                    return OTHER, told
    return worst


@cache
def ruleset_of(path: Path) -> Ruleset:
    """Return the ruleset of a file."""
    loaded = load_ruleset(path)
    assert loaded.ruleset is not None, [found.message for found in loaded.diagnostics]
    return loaded.ruleset


# ---- the ways of writing ---------------------------------------------------------------------------------------------

Sources = Mapping[str, Sequence[Sheet]]
Papers = Mapping[str, Path]


def written_in_every_way(sources: Sources, folder: Path, without: Container[str] = ()) -> dict[str, Papers]:
    """Return the papers by the way in which they were written, each by the name of its schedule.

    `without` are ways of programs that are to be left out.
    """
    ways = {way: _each(sources, folder / way.replace(" ", "-"), *how) for way, how in _LIBRARIES.items()}
    pages = {ruled: _pages(sources, folder / f"pages-{ruled}", ruled) for ruled in (True, False)}
    books = ways["xlsx openpyxl"]
    converted: dict[str, tuple[Papers, str, str]] = {
        "xlsx LibreOffice": (ways["ods"], ".xlsx", ""),
        "xls LibreOffice": (books, ".xls", ""),
        "ods LibreOffice": (books, ".ods", ""),
        "csv LibreOffice": ({name: books[name] for name in ways["csv"]}, ".csv", ""),
        "docx LibreOffice": (pages[True], ".docx", "HTML (StarWriter)"),
        "ruled pdf LibreOffice": (ways["docx python-docx"], ".pdf", ""),
        "unruled pdf LibreOffice Writer": (ways["docx without rules"], ".pdf", ""),
        "unruled pdf LibreOffice Calc": (books, ".pdf", ""),
    }
    for way, (papers, ending, reader) in converted.items():
        if way not in without:
            made = by_office(list(papers.values()), ending, folder / way.replace(" ", "-"), reader=reader)
            ways[way] = {name: made[path] for name, path in papers.items() if path in made}
    for ruled in (True, False):
        prints = {name: path.with_suffix(".pdf") for name, path in pages[ruled].items()}
        by_browser({pages[ruled][name]: prints[name] for name in prints})
        way = f"{'ruled' if ruled else 'unruled'} pdf Chromium"
        ways[way] = {name: path for name, path in prints.items() if path.exists()}
    return {way: papers for way, papers in ways.items() if papers}


def _each(sources: Sources, folder: Path, ending: str, write: Callable[[Path, Sequence[Sheet]], object]) -> Papers:
    folder.mkdir()
    made = {}
    for name, sheets in sources.items():
        if ending not in (".csv", ".ods") or len(sheets) == 1:
            made[name] = folder / f"{name}{ending}"
            write(made[name], sheets)
    return made


_LIBRARIES: dict[str, tuple[str, Callable[[Path, Sequence[Sheet]], object]]] = {
    "xlsx openpyxl": (".xlsx", write_workbook),
    "xlsb": (".xlsb", write_xlsb),
    "ods": (".ods", lambda path, sheets: write_ods(path, sheets[0].rows)),
    "csv": (".csv", lambda path, sheets: write_separated(path, sheets[0].rows, separator=",")),
    "docx python-docx": (".docx", write_document),
    "docx without rules": (".docx", partial(write_document, ruled=False)),
    "docx like Word": (".docx", partial(write_document, broken=True)),
    "ruled pdf reportlab": (".pdf", write_pdf),
    "ruled pdf like Word": (".pdf", write_word_like_pdf),
    "unruled pdf reportlab": (".pdf", partial(write_pdf, ruled=False)),
    "unruled pdf like Word": (".pdf", partial(write_word_like_pdf, ruled=False)),
}


def _pages(sources: Sources, folder: Path, ruled: bool) -> Papers:
    return _each(sources, folder, ".html", partial(write_page, ruled=ruled))


def main() -> None:
    """Write, read and compare, and print the figures."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("files", type=Path, nargs="+")
    parser.add_argument("--against", type=Path)
    parser.add_argument("--into", type=Path, help="keep the papers in this folder")
    asked = parser.parse_args()
    expected, sources, rulesets = {}, {}, {}
    for path in asked.files:
        against = (
            asked.against or path.parent / json.loads((path.parent / "expected.json").read_text())[path.name]["against"]
        )
        rulesets[path.stem] = ruleset_of(against)
        expected[path.stem] = facts_of(path, rulesets[path.stem])
        sources[path.stem] = sheets_of(open_schedule(path)[0])
    with tempfile.TemporaryDirectory() as temporary:
        folder = asked.into or Path(temporary)
        folder.mkdir(exist_ok=True)
        sums: Counter[str] = Counter()
        for way, papers in written_in_every_way(sources, folder).items():
            told = {name: compared(expected[name], facts_of(paper, rulesets[name])) for name, paper in papers.items()}
            counts = Counter(kind for kind, _ in told.values())
            sums += counts
            print(f"{way}: {', '.join(f'{number} {kind}' for kind, number in sorted(counts.items()))}")
            for name, (kind, what) in told.items():
                if kind != SAME:
                    print(f"    {name}: {kind}, {what}")
        print(f"in all: {dict(sums)}")


if __name__ == "__main__":
    main()
