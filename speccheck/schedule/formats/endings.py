"""The endings of the files that schedules are read from: one list, for opening a file, folders, the desk and messages.

What a file is the first bytes say where they are plain; an ending only says what to expect.
"""

from __future__ import annotations

WORKBOOKS = (".xlsx", ".xlsm", ".xltx", ".xls", ".xlsb", ".ods")
DOCUMENTS = (".docx",)
PDF = (".pdf",)
PAGES = (".html", ".htm", ".mht")
SEPARATED = (".csv", ".tsv", ".tab", ".txt")
JSON = (".json",)
TOML = (".toml",)

READ = (*WORKBOOKS, *DOCUMENTS, *PDF, *PAGES, *SEPARATED, *JSON, *TOML)
"""All endings of files that a schedule is read from when it is named."""

IN_FOLDERS = tuple(ending for ending in READ if ending not in (".txt", *TOML))
"""Those that are looked for in a folder, where plain text and TOML files are notes and mapping files more often."""

CORRECTED = (".xlsx", ".xlsm")
"""Those of the workbooks into which corrections can be written."""

PACKAGES = (".xlsx", ".xlsm", *DOCUMENTS)
"""Those of zipped packages of XML parts; one in another shape is locked by a password."""

MARKED = (*PDF, *PACKAGES)
"""Those of the files of which a copy with comments in it can be made."""
