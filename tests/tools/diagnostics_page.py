"""The page of all diagnostics, `grammar/diagnostics.md`, made from the tables of codes and the examples of the tests.

Run `python -m tests.tools.diagnostics_page` after a code was added or its words were changed.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path
from textwrap import fill

from speccheck.language.diagnostic_rules import Rule
from speccheck.report.all_codes import chapters, sentences

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "grammar" / "diagnostics.md"
WIDTH = 120
INTRODUCTION = """# Diagnostics

What a person can get wrong is told in one form everywhere: how much it weighs and its code, one sentence with the
offending text, the place, the line with the text underlined, and a help line that says what to write instead. An
error makes its input unusable; a warning does not; a note only tells what was done.

This page is made by `python -m tests.tools.diagnostics_page`.
"""


def page() -> str:
    """Return the page: a chapter for each floor, a section for each code."""
    examples = dict(_examples())
    written = [f"## {title}\n\n{_chapter(codes, examples)}" for title, codes in chapters().items()]
    return "\n".join([INTRODUCTION, *written])


def _chapter(rules: Mapping[str, Rule], examples: Mapping[str, str]) -> str:
    return "\n".join(_section(rules[code], examples.get(code, "")) for code in sorted(rules))


def _section(rule: Rule, example: str) -> str:
    title = rule.title[0].lower() + rule.title[1:]
    shown = f"\n```text\n{example}\n```\n" if example else ""
    told = [fill(one, WIDTH, initial_indent="- ", subsequent_indent="  ") for one in sentences(rule)]
    listed = "".join(["\n", *(f"{one}\n" for one in told)]) if told else ""
    return f"### {rule.code}: {title}\n\n{fill(rule.documentation, WIDTH)}\n{listed}{shown}"


def _examples() -> Iterator[tuple[str, str]]:
    """Yield codes with the first diagnostic of theirs in the expectations of the tests, files named by it first."""
    files = sorted(ROOT.glob("tests/**/*.expected"), key=lambda path: path.relative_to(ROOT).as_posix(), reverse=True)
    for whole_file_first in (False, True):
        for path in files:
            for block in reversed(path.read_text(encoding="utf-8").strip().split("\n\n")):
                code = block.partition("[")[2].partition("]")[0]
                if code and path.name.startswith(code) is whole_file_first:
                    yield code, block


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
