"""Instructions to change other paragraphs, as addenda give them: "Delete paragraph 2.2.B", "in lieu of 1-1/2 inches".

What they say holds once it is written into the paragraph that they speak of, which a person does.
"""

from __future__ import annotations

import re

_CHANGE = r"(?:delete|omit|strike|revise|amend|replace|substitute|insert|add|change)[ds]?"
_PLACE = (
    r"(?:paragraphs?|articles?|clauses?|words?|tables?|sentences?|rows?|columns?|sections?|\d+\.\d+(?:\.\w+)*|[\"“″])"
)
_AMENDS = re.compile(
    rf"(?:in\s+{_PLACE}[^:]*?,\s*)?{_CHANGE}\b.*{_PLACE}|paragraph\s+\d+(?:\.\w+)*\s*:|.*\bin\s+(?:lieu|place)\s+of\b"
    rf"|in\s+(?:the\s+)?{_PLACE}.*\b{_CHANGE}\b",
    re.IGNORECASE | re.DOTALL,
)
AMENDS = "it changes what another paragraph says; write the change into that one"


def is_amendment(text: str) -> bool:
    """Whether words change what stands elsewhere, instead of asking something themselves."""
    return _AMENDS.match(text.strip()) is not None
