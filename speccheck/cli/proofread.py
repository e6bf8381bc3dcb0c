"""`speccheck proofread`: what is wrong with the wording of a ruleset, for every system that anyone could propose."""

from __future__ import annotations

from pathlib import Path

import click

from speccheck.cli.inputs import EXISTING_FILE, UNITS, ruleset_or_stop, schedule_or_stop


@click.command()
@click.argument("ruleset", type=EXISTING_FILE)
@click.option("--against", type=EXISTING_FILE, metavar="CODE", help="Ruleset of the code that RULESET must meet.")
@click.option("--since", type=EXISTING_FILE, metavar="BASE", help="Ruleset that RULESET is a revision of.")
@click.option("--schedule", type=EXISTING_FILE, help="With --since: a schedule, to see which of its verdicts turn.")
@click.option("--mapping", type=EXISTING_FILE, help="Mapping file (.toml) for the schedule.")
@click.option("--units", type=UNITS, help="Units of numbers for which the schedule states none.")
def command(
    ruleset: Path,
    against: Path | None,
    since: Path | None,
    schedule: Path | None,
    mapping: Path | None,
    units: str | None,
) -> int:
    """Proofread RULESET: gaps, clauses that clash, wording that does nothing.

    Each finding comes with a line of a schedule that shows it. With --against,
    says where RULESET is looser or stricter than a code; with --since, which
    systems it treats differently from the ruleset before it.

    \b
    Example:
      speccheck proofread project.clauses --against energy/ashrae-90.1

    Exit status: 0 nothing was found, 1 something was found, 2 a question could
    not be decided, 3 a ruleset or the schedule cannot be used.
    """
    if schedule is not None and since is None:
        raise click.UsageError("--schedule needs --since: it shows which verdicts turn")
    if against is not None and since is not None:
        raise click.UsageError("--against and --since are two questions; ask one at a time")
    if against is not None:
        return _against(ruleset, against)
    if since is not None:
        return _since(ruleset, since, schedule, mapping, units)
    return _alone(ruleset)


def _alone(path: Path) -> int:
    from speccheck.proofread.proofreading import proofread
    from speccheck.report.terminal_proofreading import print_proofreading

    ruleset = ruleset_or_stop(path)
    found = proofread(ruleset)
    print_proofreading(ruleset, found)
    return _status(bool(found.findings), bool(found.undecided))


def _against(path: Path, code_path: Path) -> int:
    from speccheck.proofread.stringency import Stringency, compare_stringency
    from speccheck.report.terminal_proofreading import print_stringency

    specification, code = ruleset_or_stop(path), ruleset_or_stop(code_path)
    found = compare_stringency(specification, code)
    print_stringency(specification, code, found)
    kinds = {clause.stringency for clause in found}
    return _status(bool(kinds & {Stringency.LOOSER, Stringency.NOT_COMPARABLE}), Stringency.UNDECIDED in kinds)


def _since(path: Path, base_path: Path, schedule: Path | None, mapping: Path | None, units: str | None) -> int:
    from speccheck.proofread.findings import Undecided
    from speccheck.proofread.revisions import compare_revisions
    from speccheck.proofread.turned_verdicts import turned_verdicts
    from speccheck.report.terminal_proofreading import print_revisions

    base, revised = ruleset_or_stop(base_path), ruleset_or_stop(path)
    turned = None
    if schedule is not None:
        before, after = (schedule_or_stop(schedule, one, mapping, units) for one in (base, revised))
        turned = turned_verdicts(base, revised, before, after)
    changes = compare_revisions(base, revised)
    print_revisions(base, revised, changes, turned)
    open_questions = [change for change in changes if isinstance(change, Undecided)]
    return _status(len(changes) > len(open_questions), bool(open_questions))


def _status(found: bool, undecided: bool) -> int:
    return 1 if found else 2 if undecided else 0
