"""The command line: one file for each command; a command parses its options, calls the floors below, and prints.

Exit status of every command: 0 all is well, 1 something does not comply (or an example does not come out), 2 something
cannot be determined, 3 the input, the ruleset or the call cannot be used, 130 somebody stopped the run.

Files:

    blank         `speccheck blank`: a blank schedule workbook with the columns that a ruleset needs
    check         `speccheck check`: a schedule checked against every clause of a ruleset
    common_arguments
                  what most commands are asked: a schedule, the ruleset to check it against, and what settles how it is
                  read
    compare       `speccheck compare`: a resubmittal checked against the round before, or two editions of a ruleset
    corrections   `speccheck corrections`: the corrections with which the lines of a schedule would comply
    coverage      `speccheck coverage`: what becomes of each paragraph of a section
    desk          `speccheck desk`: a local page for people without a terminal
    draft         `speccheck draft`: a section turned into clauses that a person has to confirm
    examples      `speccheck examples`: which typing errors the examples of a ruleset would notice, and which
                  example would
    explain       `speccheck explain`: the working of one line and one clause, in full
    format        `speccheck format`: a ruleset or vocabulary file in the house style
    guessed_commands
                  what people call the commands before they know their names
    guide         `speccheck guide`: what the code of a diagnostic means
    inputs        rulesets and schedules loaded, their diagnostics printed, unusable ones ending the run
    language_server
                  `speccheck language-server`: the language server for text editors, over standard input and
                  output
    markup        `speccheck markup`: the contractor's own file with the comments in it, to be sent back
    outputs       the files that commands write: over no work of others, told at the end
    portfolio     `speccheck portfolio`: a folder of schedules, or a Parquet file of them, checked against a ruleset
    proofread     `speccheck proofread`: what is wrong with the wording of a ruleset, for every system that anyone
                  could propose
    prose         `speccheck prose`: a ruleset written out as a specification section in three parts
    read          `speccheck read`: what every table and column of a schedule became, and a starter of a mapping
                  file
    reply         `speccheck reply`: review comments to send back, as a page and as a document, with the reviewer's
                  own notes
    reports       the reports that commands write: their options, and each of them written whole or not at all
    requirements  `speccheck requirements`: which published requirements apply to a line, with their numbers and
                  sources
    review_options
                  what else a schedule is checked against: a design list, product data, a register of deviations, a day
    saying        sentences printed without the control codes that a file, or its name, may hold
    rulesets      `speccheck rulesets`: the shipped rulesets, what they were taken from, and what is not there
    sweep         `speccheck sweep`: every combination of stated values judged by a ruleset, and counted
    terms         `speccheck terms`: the terms of a vocabulary, with their kinds, their values and what schedules call
                  them
    weather       `speccheck weather`: what a weather file says of humidity, and a ruleset that assumes its hours
    waiting       what a person at a terminal sees while a command works for longer than a second
    test          `speccheck test`: a ruleset's diagnostics, its examples judged, and what no example touches
    system        `speccheck system`: surface temperature, heat flow and minimum thickness of one system
"""

from __future__ import annotations

import gc
import os
import sys
from contextlib import suppress
from importlib import import_module
from io import StringIO, TextIOWrapper
from threading import Event
from typing import Any, NoReturn

import click

UNUSABLE = 3
INTERRUPTED = 130
"""The exit status of a run that somebody stopped, as shells have it for Ctrl-C."""
WRITTEN: list[str] = []
"""The files that this run has written, for somebody who interrupts it."""
LEAVING = Event()
"""Set when a run has nothing left to do but to end, which nothing interrupts any more."""

COMMANDS = {
    "check": "check a schedule against every clause of a ruleset",
    "read": "show what a schedule was read as, and write a starter of a mapping file",
    "compare": "check a resubmittal against the round before, or two rulesets",
    "portfolio": "check a whole folder of schedules against a ruleset, and sum up",
    "sweep": "judge every combination of stated values, and count the verdicts",
    "corrections": "look for the smallest corrections with which each line would comply",
    "reply": "write review comments to send back, as a document and as a page",
    "markup": "write the contractor's own file with a comment at the cell of each finding",
    "desk": "open a local page that reviews submittals, for people without a terminal",
    "explain": "show the working of one line and clause in full",
    "requirements": "list the published requirements that apply to a line",
    "rulesets": "list the shipped rulesets, their documents and editions, and what is not there",
    "test": "try a ruleset: its wording, its examples, what no example touches",
    "proofread": "look for gaps, clashes and redundant wording; compare with a code or a base",
    "examples": "try how good the examples of a ruleset are, and propose missing ones",
    "system": "work one system out: will it sweat, will it burn, how thick must it be",
    "weather": "sum up a weather file, and write a ruleset that assumes its hours",
    "terms": "list the terms of a vocabulary, with what schedules call them",
    "blank": "write a blank schedule workbook for a ruleset",
    "guide": "say what the code of a diagnostic means",
    "draft": "draft clauses from a specification section",
    "coverage": "say which paragraphs of a section are checked, and which are not",
    "prose": "write a ruleset out as a specification section",
    "language-server": "help a text editor with rulesets and vocabularies (language server)",
    "format": "put a ruleset or vocabulary file in the house style",
}


OWN_WAITS = ("portfolio", "desk", "language-server")
"""Commands that show how far they are themselves, or wait for somebody."""


class Commands(click.Group):
    """The commands, each imported only when it is called, so that none pays for another."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names of the commands in the order in which a newcomer needs them."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return a command by its name."""
        if cmd_name not in COMMANDS:
            return None
        command: click.Command = import_module(f"speccheck.cli.{cmd_name.replace('-', '_')}").command
        return _with_help(command)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Return the command that is called, and what is left of the call."""
        from speccheck.cli.waiting import show_no_wait

        if args and args[0] not in COMMANDS and not args[0].startswith("-"):
            from speccheck.cli.guessed_commands import instead_of

            raise click.UsageError(f"there is no command `{args[0]}`; {instead_of(args[0], COMMANDS)}", ctx)
        name, found, rest = super().resolve_command(ctx, args)
        if name in OWN_WAITS:
            show_no_wait()
        return name, found, rest

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; an input that cannot be used ends it with what is wrong."""
        from speccheck.cli.waiting import shown_while_waiting

        try:
            with shown_while_waiting("working"):
                return super().invoke(ctx)
        except ValueError as problem:
            from speccheck.cli.inputs import stop
            from speccheck.inputs import UnusableInput

            if not isinstance(problem, UnusableInput):
                raise
            stop(problem)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the list of commands without importing them."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


def _with_help(command: click.Command) -> click.Command:
    """Return a command with its help, from the source where Python left docstrings out (`PYTHONOPTIMIZE=2`)."""
    if not command.help and command.callback is not None:
        import ast
        import inspect
        from textwrap import dedent

        with suppress(OSError):  # there is no source in some bundles; options are listed all the same
            function = ast.parse(dedent(inspect.getsource(command.callback))).body[0]
            command.help = ast.get_docstring(function) if isinstance(function, ast.FunctionDef) else None
    return command


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 80})
@click.version_option(package_name="speccheck", message="%(prog)s %(version)s")
def speccheck() -> None:
    """Check a proposed mechanical-insulation schedule against a specification.

    \b
    Example:
      speccheck check schedule.xlsx --against project.clauses --page report.html

    What it reports is an aid to a reviewer, not an approval. Hot surfaces, fire
    ratings, adhesives and work at height: follow the adopted code, the manufacturer's
    instructions and licensed practice.
    """


def main() -> None:
    """Run the command line; a call that cannot be understood ends with status 3, as all unusable input does."""
    # A run makes much and lets go of little, so that looking for garbage often is time lost.
    gc.set_threshold(200_000, 50, 50)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):  # a sign that the terminal cannot show, as in a name, is no fault
            stream.reconfigure(errors="backslashreplace")
    WRITTEN.clear()
    LEAVING.clear()
    try:
        status = _with_help(speccheck).main(standalone_mode=False)
        if not sys.stdout.closed:  # as the server of an editor leaves it
            sys.stdout.flush()
    except click.ClickException as problem:
        told = StringIO()
        problem.show(told)
        _say(told.getvalue().rstrip("\n"))
        sys.exit(UNUSABLE)
    except (click.Abort, KeyboardInterrupt):
        LEAVING.set()  # somebody who presses twice is told once
        _say(f"stopped; {_written_so_far()}")
        sys.exit(INTERRUPTED)
    except SystemExit as stop:
        # The library of consoles ends with status 1 where the output was closed ("... | head"), which is no verdict.
        if isinstance(stop.__context__, BrokenPipeError):
            _stop_printing(stop.__context__)
        raise
    except Exception as problem:
        if _is_of_the_output(problem):
            _stop_printing(problem)
        _stop_at_fault(problem)
    finally:
        LEAVING.set()  # all is written and said
    sys.exit(status if isinstance(status, int) else 0)


def interrupt(*_: object) -> None:
    """End a run by Ctrl-C, or as the system asks it: what is half written is taken away."""
    if not LEAVING.is_set():
        raise KeyboardInterrupt


def _say(text: str) -> None:
    """Print why a run ended; what prints is imported only then."""
    from speccheck.cli.saying import say

    say(text, err=True)


def _written_so_far() -> str:
    """Return which files were written before a run was stopped."""
    return f"written before that: {', '.join(WRITTEN)}" if WRITTEN else "nothing was written"


def _is_of_the_output(problem: BaseException) -> bool:
    """Whether a failure is that of the terminal or the pipe that is printed to, and not of a file."""
    return isinstance(problem, BrokenPipeError) or (
        type(problem) is OSError and problem.errno is not None and problem.filename is None
    )


def _stop_printing(problem: BaseException) -> NoReturn:
    """End with status 3 where the output cannot be printed, without a word where its reader has only closed it."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # else Python fails once more when it flushes
    if not isinstance(problem, BrokenPipeError):
        why = (getattr(problem, "strerror", None) or "the output cannot be printed").lower()
        _say(f"stopped: {why}")
    sys.exit(UNUSABLE)


def _stop_at_fault(problem: Exception) -> NoReturn:
    """End with status 3 where the program itself failed, which is neither a verdict nor the fault of any file."""
    from traceback import extract_tb, print_exception

    if os.environ.get("SPECCHECK_TRACEBACK"):
        print_exception(problem)
    frames = extract_tb(problem.__traceback__)
    ours = next((one for one in reversed(frames) if f"{os.sep}speccheck{os.sep}" in one.filename), frames[-1])
    where = f"{os.path.basename(ours.filename)}, line {ours.lineno}"
    _say(
        f"speccheck failed: a fault of the program, and no verdict on anything ({type(problem).__name__} in {where}); "
        f"{_written_so_far()}\n"
        "help: please report it with the command and the files; SPECCHECK_TRACEBACK=1 in the environment shows more",
    )
    sys.exit(UNUSABLE)
