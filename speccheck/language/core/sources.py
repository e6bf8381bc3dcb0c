"""Sources: where a clause or a table comes from, and how sure that is."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Confidence(StrEnum):
    """How sure a published value is."""

    SEEN = "seen"
    SECOND_HAND = "second hand"
    FROM_MEMORY = "from memory"
    COMMON_PRACTICE = "common practice"
    COMPUTED = "computed"
    NOT_STATED = ""


@dataclass(frozen=True, slots=True)
class Source:
    """Where a clause or a table comes from, and how sure that is."""

    text: str
    confidence: Confidence = Confidence.NOT_STATED

    def __str__(self) -> str:
        return f"{self.text} ({self.confidence})" if self.confidence else self.text
