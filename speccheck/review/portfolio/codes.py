"""The codes of the diagnostics of portfolios: a title and what a reviewer needs to know about each."""

from __future__ import annotations

from collections.abc import Mapping

NO_FOLDER = "V501"
OUTPUT_FOLDER = "V502"
PROGRAM_FAILED = "V503"
CHANGED = "V504"
NEEDS_LIBRARY = "V505"
NO_CLUSTER = "V506"
OTHER_RULES = "V507"
BAD_DATASET = "V508"

DIAGNOSTICS: Mapping[str, tuple[str, str]] = {
    NO_FOLDER: (
        "portfolio not there",
        "A portfolio is a folder with schedules in it, at any depth, or one Parquet file.",
    ),
    OUTPUT_FOLDER: (
        "output folder not usable",
        "The results of a portfolio go into a folder of their own: a new one, an empty one, or that of an earlier run, "
        "which is then taken up. Other folders are left alone, so that no file of somebody else is replaced.",
    ),
    PROGRAM_FAILED: (
        "schedule on which the program failed",
        "The program failed on this schedule, or the process that read it was ended: by the system where memory ran "
        "out, for example. The schedule was skipped and the others were judged; the next run tries it again. Please "
        "report it with the file.",
    ),
    CHANGED: (
        "schedule that changed while it was read",
        "Somebody wrote to the file while it was being judged, so that it is not known which state was judged. It was "
        "skipped; the next run tries it again.",
    ),
    NEEDS_LIBRARY: (
        "optional library not installed",
        "Parquet files need the optional extra `portfolio`, a cluster the optional extra `distributed`.",
    ),
    NO_CLUSTER: (
        "no cluster at this address",
        "The address after `--cluster` is that of the scheduler of a running Dask cluster, such as "
        "tcp://10.0.0.5:8786, or the word `local` for worker processes of this machine. Workers see the schedules, the "
        "ruleset and the output folder under the same names as the machine that starts the run.",
    ),
    OTHER_RULES: (
        "worker with another program or ruleset",
        "A worker of the cluster found another ruleset, or has another version of the program, than the machine that "
        "started the run. Its verdicts could differ, so it judged nothing. Install the same version everywhere.",
    ),
    BAD_DATASET: (
        "Parquet file not usable",
        "A Parquet file of schedules has one row for each line, and columns headed as those of a schedule are. A "
        "column `submittal` names the schedule to which a line belongs; the lines of one schedule stand together.",
    ),
}
