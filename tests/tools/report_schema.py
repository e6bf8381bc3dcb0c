"""The published schema of the JSON report, `speccheck/report/json/matrix.schema.json`, made from the report's models.

Run `python -m tests.tools.report_schema` after a field was added.
"""

from __future__ import annotations

import json
from pathlib import Path

from speccheck.report.json import models

PUBLISHED = Path(models.__file__).parent / "matrix.schema.json"
DIALECT = "https://json-schema.org/draft/2020-12/schema"


def report_schema() -> str:
    """Return the JSON schema (draft 2020-12) of the report."""
    schema = {"$schema": DIALECT, **models.MatrixModel.model_json_schema()}
    return json.dumps(schema, indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    PUBLISHED.write_text(report_schema(), encoding="utf-8")
