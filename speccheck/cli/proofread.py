"""`speccheck proofread`: what is wrong with the wording of a ruleset, for every system that anyone could propose."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from speccheck.cli.inputs import FILE, UNITS, package_or_stop, ruleset_or_stop
from speccheck.cli.outputs import Outputs, replace_option

if TYPE_CHECKING:
    from speccheck.report.proofreading.report import ProofreadingReport


@click.command()
@click.argument("ruleset", type=FILE)
@click.option("--against", type=FILE, metavar="CODE", help="Ruleset of the code that RULESET must meet.")
@click.option("--since", type=FILE, metavar="BASE", help="Ruleset that RULESET is a revision of.")
@click.option("--schedule", type=FILE, help="With --since: a schedule, to see which of its verdicts turn.")
@click.option("--mapping", type=FILE, help="Mapping file (.toml) for the schedule.")
@click.option("--units", type=UNITS, help="Units of numbers for which the schedule states none.")
@click.option("--page", type=FILE, metavar="FILE", help="Write the report as an HTML page.")
@click.option("--markdown", type=FILE, metavar="FILE", help="Write the report as Markdown.")
@replace_option
def command(
    ruleset: Path,
    against: Path | None,
    since: Path | None,
    schedule: Path | None,
    mapping: Path | None,
    units: str | None,
    page: Path | None,
    markdown: Path | None,
    replace: bool,
) -> int:
    """Proofread RULESET: gaps, clauses that clash, wording that does nothing.

    Each finding comes with a line of a schedule that shows it. With --against,
    says where RULESET is looser or stricter than a code; with --since, which
    systems it treats differently from the ruleset before it.

    \b
    Examples:
      speccheck proofread project.clauses --page proofreading.html
      speccheck proofread project.clauses --against energy/ashrae-90.1

    Exit status: 0 nothing was found, 1 something was found, 2 a question could
    not be decided, 3 a ruleset, the schedule or the call cannot be used, or a
    report was not written.
    """
    from speccheck.report.terminal.proofreading import print_proofreading

    if schedule is not None and since is None:
        raise click.UsageError("--schedule needs --since: it shows which verdicts turn")
    if against is not None and since is not None:
        raise click.UsageError("--against and --since are two questions; ask one at a time")
    outputs = Outputs({"page": page, "markdown": markdown}, replace=replace)
    if against is not None:
        report = _against(ruleset, against)
    elif since is not None:
        report = _since(ruleset, since, schedule, mapping, units)
    else:
        report = _alone(ruleset)
    _write(report, outputs)  # first, for a reader of the output may stop early
    if not outputs.own_the_screen:
        print_proofreading(report)
    return outputs.finish(report.status)


def _alone(path: Path) -> ProofreadingReport:
    from speccheck.proofread.proofreading import proofread
    from speccheck.report.proofreading.alone import proofreading_alone

    ruleset = ruleset_or_stop(path, drafts=True)
    return proofreading_alone(ruleset, proofread(ruleset))


def _against(path: Path, code_path: Path) -> ProofreadingReport:
    from speccheck.proofread.stringency import compare_stringency
    from speccheck.report.proofreading.against import proofreading_against

    specification, code = ruleset_or_stop(path), ruleset_or_stop(code_path)
    return proofreading_against(specification, code, compare_stringency(specification, code))


def _since(
    path: Path, base_path: Path, schedule: Path | None, mapping: Path | None, units: str | None
) -> ProofreadingReport:
    from speccheck.proofread.revisions import compare_revisions
    from speccheck.proofread.verdicts import turned_verdicts
    from speccheck.report.proofreading.since import proofreading_since

    base, revised = ruleset_or_stop(base_path), ruleset_or_stop(path)
    changes, turned = compare_revisions(base, revised), None
    if schedule is not None:
        before, after = (package_or_stop([schedule], one, mapping, units).schedule for one in (base, revised))
        turned = turned_verdicts(base, revised, before, after)
    return proofreading_since(base, revised, changes, turned)


def _write(report: ProofreadingReport, outputs: Outputs) -> None:
    """Write the report in the forms asked for."""
    if "page" in outputs:
        from speccheck.report.proofreading.page import render_proofreading_page

        outputs.write("page", render_proofreading_page(report))
    if "markdown" in outputs:
        from speccheck.report.proofreading.page import render_proofreading_markdown

        outputs.write("markdown", render_proofreading_markdown(report))
