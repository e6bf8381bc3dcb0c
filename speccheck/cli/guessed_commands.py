"""What people call the commands before they know their names, and the commands that do it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from speccheck.english import did_you_mean

GUESSED: Mapping[str, str] = {
    **dict.fromkeys(("validate", "verify", "lint", "parse", "compile", "load"), "test"),
    **dict.fromkeys(("review", "run", "evaluate", "judge", "audit"), "check"),
    **dict.fromkeys(("vocabulary", "vocab", "words", "glossary", "dictionary"), "terms"),
    **dict.fromkeys(("fix", "correct", "repair", "mend"), "corrections"),
    **dict.fromkeys(("diff", "resubmittal"), "compare"),
    **dict.fromkeys(("fmt", "style", "tidy"), "format"),
    **dict.fromkeys(("import", "convert", "init", "new"), "draft"),
    **dict.fromkeys(("show", "preview", "view", "inspect"), "read"),
    **dict.fromkeys(("why", "detail"), "explain"),
    **dict.fromkeys(("code", "codes", "error", "errors"), "guide"),
    **dict.fromkeys(("template", "form"), "blank"),
    **dict.fromkeys(("annotate", "comment", "comments"), "markup"),
    **dict.fromkeys(("web", "gui", "ui", "start"), "desk"),
    **dict.fromkeys(("calculate", "calc", "thickness"), "system"),
    **dict.fromkeys(("serve", "lsp"), "language-server"),
}
"""Words for what a command does, and what some commands were called once."""


def instead_of(name: str, commands: Iterable[str]) -> str:
    """Return what to call in place of a command that there is not."""
    meant = GUESSED.get(name.lower())
    return f"write `speccheck {meant}`" if meant else did_you_mean(name, commands, "`speccheck --help` lists them")
