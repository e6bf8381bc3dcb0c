"""What people write in TOML: mapping files, registers of deviations, notes, settings of projects, product data.

In: a file, and the pydantic model of what it may hold. Out: its content, the place of each entry, and what is wrong.

    reading.py      the file as a whole: its text, its entries, and diagnostics where it cannot be used
    places.py       where in the text each key and each value stands
    misshapen.py    what is wrong with entries that the model refuses, in words of our own
    messages.py     the sentences of both
"""

from __future__ import annotations

from speccheck.toml_files.reading import FileKind, TomlFile, TomlText, load_toml, read_toml_file

__all__ = ["FileKind", "TomlFile", "TomlText", "load_toml", "read_toml_file"]
