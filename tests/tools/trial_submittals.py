"""`python -m tests.tools.trial_submittals FOLDER`: how the files of a folder of trial submittals are read and judged.

A folder has an `expected.json`: by file the ruleset and, for chosen cells, the verdict that a careful reviewer reaches
(sheet, row, clause, verdict). Each such cell is right, left open (it cannot be determined, or was not read), or wrong.
Files without expected cells are checked against the ruleset that `--against` names, and their outcome is shown.
`--mappings` names a folder of mapping files, NAME.toml for the schedule NAME: how many lines each has, and which of its
entries the starter that `speccheck read` writes for the schedule does not offer, is told.
"""

from __future__ import annotations

import argparse
import json
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from speccheck.judge.judgement import Verdict
from speccheck.language import load_ruleset
from speccheck.language.core import Ruleset
from speccheck.language.diagnostics import has_errors
from speccheck.review.matrix import Matrix
from speccheck.review.outcome import outcome_of
from speccheck.review.reviewing import judge_schedule
from speccheck.schedule import read_mapping, read_schedule
from speccheck.schedule.questions import questions_of
from speccheck.schedule.starter import starter_mapping
from speccheck.schedule.what_was_read import what_was_read

_WORDS = {"cannot tell": str(Verdict.CANNOT_TELL)}  # what verdicts are called in lists of expected cells
SCHEDULES = {".xlsx", ".xlsm", ".xls", ".csv", ".tsv", ".txt", ".docx", ".pdf", ".json", ".html"}


def main() -> None:
    """Run every file of the folder and print a line for each, then the sums."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--against", type=Path, help="the ruleset of the files without expected cells")
    parser.add_argument("--mappings", type=Path, help="the folder of the mapping files that settle what is open")
    asked = parser.parse_args()
    named = asked.folder / "expected.json"
    expected = json.loads(named.read_text()) if named.exists() else {}
    sums: Counter[str] = Counter()
    for path in sorted(asked.folder.iterdir()):
        if path.suffix not in SCHEDULES or path.name.endswith(("expected.json", "-texts.json")):
            continue
        wanted = expected.get(path.name)
        against = asked.folder / wanted["against"] if wanted else asked.against
        if against is not None:
            matrix = _matrix(path, against, asked.mappings)
            found = Counter(_cells(matrix, wanted["cells"] if wanted else ()))
            for (kind, _), number in found.items():
                sums[kind] += number
            print(f"{path.name}: {_words(found)} [{outcome_of(matrix).status}, {len(matrix.schedule.lines)} lines]")
            for (kind, what), _ in found.items():
                if kind == "WRONG":
                    print(f"    {what}")
    print(f"in all: {dict(sums)}")


def _matrix(path: Path, against: Path, mappings: Path | None = None) -> Matrix:
    """Return the compliance matrix of one file, with its mapping file where there is one."""
    ruleset = _ruleset(against)
    schedule = read_schedule(path, ruleset.vocabulary, units=ruleset.units)
    answers = mappings / f"{path.stem}.toml" if mappings is not None else None
    if answers is not None and answers.exists():
        mapping, problems = read_mapping(answers, ruleset.vocabulary)
        if mapping is None:
            raise SystemExit("\n".join(found.message for found in problems))
        lines = [line for line in answers.read_text(encoding="utf-8").splitlines() if line.strip()]
        read = what_was_read(path, ruleset.vocabulary, units=ruleset.units)
        starter = starter_mapping(path.name, questions_of(read))
        others = [line for line in lines if line.partition(" = ")[0] not in starter]
        print(f"{path.name}: a mapping file of {len(lines)} lines; not offered by the starter: {others or 'none'}")
        schedule = read_schedule(path, ruleset.vocabulary, mapping, units=ruleset.units)
    return judge_schedule(schedule, ruleset)


def _ruleset(path: Path) -> Ruleset:
    loaded = load_ruleset(path)
    if loaded.ruleset is None or has_errors(loaded.diagnostics):
        raise SystemExit("\n".join(found.message for found in loaded.diagnostics))
    return loaded.ruleset


def _cells(matrix: Matrix, cells: Sequence[Mapping[str, Any]]) -> Iterator[tuple[str, str]]:
    """Yield for each expected cell what became of it, and which it is."""
    clauses = [clause.name for clause in matrix.ruleset.clauses]
    by_row: dict[tuple[str, int], list[int]] = {}
    for index, line in enumerate(matrix.schedule.lines):
        row = int("0" + "".join(filter(str.isdecimal, line.place.cell)))
        by_row.setdefault((line.place.sheet, row), []).append(index)
        by_row.setdefault(("", row), []).append(index)
    for cell in cells:
        lines = by_row.get((cell["sheet"], cell["row"]), []) if cell["verdict"] != "hidden" else []
        verdicts = {str(matrix.cells[index][clauses.index(cell["clause"])].verdict) for index in lines}
        what = f"row {cell['row']} {cell['about']}, clause {cell['clause']}: {cell['verdict']}, not {sorted(verdicts)}"
        if _WORDS.get(cell["verdict"], cell["verdict"]) in verdicts:
            yield "right", what
        elif verdicts <= {str(Verdict.CANNOT_TELL)}:
            yield "open" if verdicts else "not read", what
        else:
            yield "WRONG", what


def _words(found: Counter[tuple[str, str]]) -> str:
    """Write "8 right, 1 open"."""
    kinds: Counter[str] = Counter()
    for (kind, _), number in found.items():
        kinds[kind] += number
    return ", ".join(f"{number} {kind}" for kind, number in sorted(kinds.items())) or "shown only"


if __name__ == "__main__":
    main()
