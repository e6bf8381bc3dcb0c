"""What is said where the language server cannot run."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule

NO_EDITOR_LIBRARY = Rule(
    "R202",
    "The language server needs a library that is not there",
    "The language server stands on the library pygls, which the extra `editor` installs: `pip install "
    "'.[editor]'` in the folder of this project.",
)
SERVER_NEEDS_LIBRARY = NO_EDITOR_LIBRARY.says("the language server needs the library `pygls`", "{install}")
