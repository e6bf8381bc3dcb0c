"""The mapping file and the notes of a round, changed entry by entry; what a person wrote around the entry stays.

Both are read, changed and written under the lock of the project, so that two desks on one folder lose nothing: each
changes its own entry, and an entry that is not as the page saw it is shown and not overwritten.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tomlkit import TOMLDocument, aot, dumps, inline_table, parse, table
from tomlkit.exceptions import TOMLKitError

from speccheck.desk.projects import Changed, FileNotWritten, Project, fingerprint

MAPPING, NOTES = "mapping.toml", "notes.toml"
LONGEST_NOTE = 20_000


def _document(project: Project, round: str, name: str) -> TOMLDocument:
    try:
        return parse(project.read("rounds", round, name))
    except (TOMLKitError, RecursionError):
        raise FileNotWritten(f"`{name}` is not TOML as it stands; mend it in a text editor first") from None


LISTS = {
    "ignore": "column {} left out",
    "ignore-sheets": "sheet {} left out",
    "seen": "read: {}",
    "notes": "a note: {}",
}
"""The lists of a mapping file, and what the history says of an entry."""


def settle(project: Project, round: str, kind: str, key: str, term: str, value: str, seen: str | None = None) -> None:
    """Write one answer to the mapping file.

    `seen` is the fingerprint of the file as the page showed it. Where somebody else has written to it meanwhile, an
    answer to another question is kept beside this one; another answer to this question raises `Changed` with it.

    `kind` is the key of the mapping file under which the answer stands. "columns" and "headers": the column `key` is
    `term` in the unit `value` (may be ""); "values": the words `key` in cells of `term` mean `value`; "units": numbers
    without a unit are of the system `value`; a list: `key` is added to it.
    """
    with project.alone():
        document = _document(project, round, MAPPING)
        now = fingerprint(project.inside("rounds", round, MAPPING))
        theirs = _answered(document, kind, key, term) if seen not in (None, now) else None
        what = _answer(document, kind, key, term, value)
        if theirs is not None and theirs != _answered(document, kind, key, term):
            raise Changed(f"rounds/{round}/{MAPPING}", f"{key} = {theirs.as_string()}")
        project.write(("rounds", round, MAPPING), dumps(document), now, what)


def settle_seen(project: Project, round: str, keys: Sequence[str]) -> None:
    """Write to the mapping file, in one step, that a person has read these remarks and cells."""
    with project.alone():
        document = _document(project, round, MAPPING)
        now = fingerprint(project.inside("rounds", round, MAPPING))
        for key in keys:
            _answer(document, "seen", key, "", "")
        project.write(("rounds", round, MAPPING), dumps(document), now, f"{len(keys)} remarks and cells read")


def _answered(document: TOMLDocument, kind: str, key: str, term: str) -> Any:
    """Return the answer to a question that the document has, None for none; lists hold many answers, and no other."""
    if kind in ("columns", "headers"):
        return document.get("columns", {}).get(key)
    if kind == "values":
        return document.get("values", {}).get(term, {}).get(key)
    return document.get(kind) if kind in ("units", "header-row") else None


def _answer(document: TOMLDocument, kind: str, key: str, term: str, value: str) -> str:
    """Put one answer into the document, and return what was done in a few words."""
    if kind in LISTS:
        known = [str(one) for one in document.get(kind, [])]
        document[kind] = [*known, key] if key not in known else known
        return LISTS[kind].format(f"{key[:40]}…" if len(key) > 40 else key)
    if kind == "units":
        document["units"] = value
        return f"units of the schedule: {value}"
    if kind == "read-hidden":
        document["read-hidden"] = True
        return "what is hidden is read"
    if kind == "header-row":
        document["header-row"] = int(key)
        return f"row {key} is the header"
    if kind in ("columns", "headers"):
        document.setdefault("columns", table())[key] = _column(term, value)
        return f"column {key} is {term}"
    document.setdefault("values", table(is_super_table=True)).setdefault(term, table())[key] = value
    return f"{key} means {value}"


def _column(term: str, unit: str) -> Any:
    if not unit:
        return term
    entry = inline_table()
    entry.update({"term": term, "unit": unit})
    return entry


def write_note(
    project: Project,
    round: str,
    lines: Sequence[dict[str, str]],
    clause: str,
    text: str,
    status: str,
    seen: tuple[str, str],
) -> None:
    """Write the note to a clause on some lines, in one step; a note without text and status is taken away.

    Lines that nothing tells apart have one note. `seen` are its text and status as the page showed them, ("", "") for
    none. Raises `Changed` with the note that is
    there now where somebody else has written it meanwhile on any of the lines; then none is written.
    """
    with project.alone():
        document = _document(project, round, NOTES)
        entries = document.setdefault("note", aot())
        for line in (one for number, one in enumerate(lines) if one not in lines[:number]):
            mine = [one for one in entries if dict(one.get("line", {})) == line and one.get("clause", "") == clause]
            now = (str(mine[0].get("text", "")), str(mine[0].get("status", ""))) if mine else ("", "")
            if now != seen:
                raise Changed(f"rounds/{round}/{NOTES}", f"{now[0]}\n{now[1]}".strip())
            _put(entries, mine[0] if mine else None, _note(line, clause, text, status))
        before = fingerprint(project.inside("rounds", round, NOTES))
        on = f" on {len(lines)} lines" if len(lines) > 1 else ""
        project.write(("rounds", round, NOTES), dumps(document), before, f"note on clause {clause}{on}")


def _put(entries: Any, entry: Any, note: dict[str, Any]) -> None:
    """Change an entry, add it, or take it away where it says nothing any more."""
    if entry is None:
        entry = table()
        entries.append(entry)
    entry.update(note)
    if not note["text"] and not note["status"]:
        entries.remove(entry)


def _note(line: dict[str, str], clause: str, text: str, status: str) -> dict[str, Any]:
    words = inline_table()
    words.update(line)
    return {"line": words, "clause": clause, "status": status, "text": text}
