"""The cautions that stand in every report and on every screen, whatever the ruleset."""

from __future__ import annotations

STANDING_CAUTIONS: tuple[str, ...] = (
    "This report is an aid to a reviewer and no approval. It judges only what the schedule states, by the clauses "
    "that were written down; the contract documents govern.",
    "Hot surfaces, fire ratings, adhesives and their fumes, and work at height can hurt people. Follow the adopted "
    "code, the manufacturer's instructions and licensed practice.",
)

SHORT_CAUTION = (
    "An aid to a reviewer, no approval: the contract documents govern. Mind hot surfaces, fire, adhesives and heights: "
    "follow the adopted code, the manufacturer's instructions and licensed practice."
)
"""The same, for a report that has to fit a screen."""
