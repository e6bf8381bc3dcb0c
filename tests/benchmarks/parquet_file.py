"""A Parquet file of schedule cells as they are written, ranges and missing data among them, judged by the columns.

`python -m benchmarks.parquet_file LINES` writes such a file, judges it in a process of its own and prints the times.
"""

from __future__ import annotations

import resource
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

NAMES = (
    *("mark", "service", "location", "concealed", "pipe size", "operating temperature", "ambient temperature"),
    *("insulation", "thickness", "jacket", "seam closure", "vapor stop spacing", "vapor stop locations"),
    *("flame spread", "smoke developed"),
)
UNITS = {
    **{"pipe size": "in", "operating temperature": "F", "ambient temperature": "F"},
    **{"thickness": "in", "vapor stop spacing": "ft"},
}


def write(path: Path, lines: int) -> None:
    """Write so many lines of the workload as texts."""
    import pyarrow as pa
    import pyarrow.parquet as pq
    from benchmarks.workload import schedule_rows

    rows = schedule_rows(lines)[1:]
    columns = list(zip(*rows, strict=True))
    pq.write_table(pa.table({name: pa.array(column) for name, column in zip(NAMES, columns, strict=True)}), path)


def judge(path: Path, ruleset_path: Path) -> None:
    """Judge a file and print how long it took, and the memory of the whole process."""
    import pyarrow.parquet as pq

    from speccheck.judge.vectorized import CellTexts, ColumnJudge, columns_of_texts
    from speccheck.language import load_ruleset

    ruleset = load_ruleset(ruleset_path).ruleset
    assert ruleset is not None
    start = perf_counter()
    table = pq.read_table(path, columns=list(NAMES[1:]), read_dictionary=list(NAMES[1:]))
    cells = {}
    for name in NAMES[1:]:
        column = table.column(name).combine_chunks()
        texts = column.dictionary.to_pylist()
        cells[name] = CellTexts(texts, column.indices.fill_null(-1).to_numpy(), UNITS.get(name, ""))
    read = perf_counter()
    columns = columns_of_texts(cells, ruleset)
    filled = perf_counter()
    counts = ColumnJudge(ruleset).judge(columns).counts()
    done = perf_counter()
    parts = f"read {read - start:.2f} s, understood {filled - read:.2f} s, judged and counted {done - filled:.2f} s"
    print(f"verdict counts out: {done - start:.2f} s ({parts})")
    print(f"peak memory: {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e6:.2f} GB")
    print("verdicts: " + ", ".join(f"{verdict} {int(found.sum()):,}" for verdict, found in counts.items()))


def main(lines: int) -> None:
    """Write a file and judge it in a process that did not write it."""
    from benchmarks.workload import ruleset_text

    with TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "rules.clauses").write_text(ruleset_text(), encoding="utf-8")
        write(folder / "lines.parquet", lines)
        files = [str(folder / "lines.parquet"), str(folder / "rules.clauses")]
        subprocess.run([sys.executable, "-m", "benchmarks.parquet_file", *files], check=True)


if __name__ == "__main__":
    if len(sys.argv) > 2:
        judge(Path(sys.argv[1]), Path(sys.argv[2]))
    else:
        main(int(sys.argv[1]))
