"""Every sentence that is said of portfolios, beside the rule that it belongs to."""

from __future__ import annotations

from speccheck.language.diagnostic_rules import Rule

NO_FOLDER = Rule(
    "V501",
    "portfolio not there",
    "A portfolio is a folder with schedules in it, at any depth, or one Parquet file.",
)
PORTFOLIO_NOT_THERE = NO_FOLDER.says("`{portfolio}` is neither a folder nor a file", "name the folder of the schedules")

OUTPUT_FOLDER = Rule(
    "V502",
    "output folder not usable",
    "The results of a portfolio go into a folder of their own: a new one, an empty one, or that of an "
    "earlier run, which is then taken up. Other folders are left alone, so that no file of somebody else "
    "is replaced.",
)
FOLDER_NOT_WRITABLE = OUTPUT_FOLDER.says(
    "`{folder}` cannot be written: {why}", "name a new folder, or that of an earlier run of a portfolio"
)
FOLDER_HOLDS_SCHEDULES = OUTPUT_FOLDER.says(
    "`{folder}` holds the schedules themselves", "name a new folder, or that of an earlier run of a portfolio"
)
NO_FOLDER_FOR_RESULTS = OUTPUT_FOLDER.says(
    "`{folder}` is no folder", "name a new folder, or that of an earlier run of a portfolio"
)
FOLDER_OF_OTHERS = OUTPUT_FOLDER.says(
    "`{folder}` has files in it that are no results of a portfolio",
    "name a new folder, or that of an earlier run of a portfolio",
)

PROGRAM_FAILED = Rule(
    "V503",
    "schedule on which the program failed",
    "The program failed on this schedule, or the process that read it was ended: by the system where "
    "memory ran out, for example. The schedule was skipped and the others were judged; the next run "
    "tries it again. Please report it with the file.",
)
ENTRY_NOT_READ = PROGRAM_FAILED.says("it cannot be read: {why}", "please report it with the file")
FAILED_ON_ENTRY = PROGRAM_FAILED.says("the program failed on it ({why})", "please report it with the file")
PROCESS_ENDED = PROGRAM_FAILED.says("the process that read it was ended", "please report it with the file")

CHANGED = Rule(
    "V504",
    "schedule that changed while it was read",
    "Somebody wrote to the file while it was being judged, so that it is not known which state was "
    "judged. It was skipped; the next run tries it again.",
)
FILE_CHANGED = CHANGED.says("the file changed while it was being judged", "run again when nobody writes to it")

NEEDS_LIBRARY = Rule(
    "V505",
    "optional library not installed",
    "Parquet files need the optional extra `portfolio`, a cluster the optional extra `distributed`.",
)
PARQUET_NEEDS_PYARROW = NEEDS_LIBRARY.says("Parquet files need pyarrow, which is not installed", "{install}")
CLUSTER_NEEDS_DASK = NEEDS_LIBRARY.says("a cluster needs Dask, which is not installed", "{install}")

NO_CLUSTER = Rule(
    "V506",
    "no cluster at this address",
    "The address after `--cluster` is that of the scheduler of a running Dask cluster, such as "
    "tcp://10.0.0.5:8786, or the word `local` for worker processes of this machine. Workers see the "
    "schedules, the ruleset and the output folder under the same names as the machine that starts the "
    "run.",
)
NO_CLUSTER_ANSWERS = NO_CLUSTER.says(
    "no cluster answers at `{address}`",
    "write the address of a running Dask scheduler, such as `tcp://10.0.0.5:8786`, or `local`",
)

OTHER_RULES = Rule(
    "V507",
    "worker with another program or ruleset",
    "A worker of the cluster found another ruleset, or has another version of the program, than the "
    "machine that started the run. Its verdicts could differ, so it judged nothing. Install the same "
    "version everywhere.",
)
WORKER_HAS_OTHERS = OTHER_RULES.says(
    "a worker has another ruleset or program than this machine", "install the same version everywhere"
)

BAD_DATASET = Rule(
    "V508",
    "Parquet file not usable",
    "A Parquet file of schedules has one row for each line, and columns headed as those of a schedule "
    "are. A column `submittal` names the schedule to which a line belongs; the lines of one schedule "
    "stand together.",
)
NO_PARQUET = BAD_DATASET.says(
    "`{file}` is not a Parquet file that can be read, or has no rows",
    "write the file again, or take it out of the portfolio",
)
PARQUET_DAMAGED = BAD_DATASET.says(
    "`{file}` is damaged and cannot be read to its end", "write the file again, or take it out of the portfolio"
)
NO_COLUMN_OF_TERMS = BAD_DATASET.says(
    "`{file}` has no column that is a term of the vocabulary", "head the columns as a schedule does"
)
