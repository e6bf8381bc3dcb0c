"""Documents and relations whose conditions no line can meet."""

from __future__ import annotations

import pytest

from speccheck.language import parse_ruleset
from speccheck.proofread.proofreading import proofread

HEAD = 'ruleset "t"\n  speaks mechanical insulation\n\nclause 1 "any"\n  shall thickness be at least 1 in\n\n'
NEVER = "service is steam and service is chilled water"


def told(text: str) -> list[tuple[str, str, str]]:
    """The code, the sentence and the help of what is found of documents and relations."""
    ruleset = parse_ruleset(HEAD + text).ruleset
    assert ruleset is not None
    return [(one.code, one.message, one.help) for one in proofread(ruleset).findings if one.code == "P316"]


@pytest.mark.parametrize(
    ("text", "message", "help"),
    [
        (
            f'document 2 "D"\n  submit sample\n  where {NEVER}\n',
            "document `2` is never asked for: no line meets all its conditions",
            "correct the conditions, or leave the document out",
        ),
        (
            f'relation 3 "R"\n  where {NEVER}\n  alike in room\n  shall have the same jacket\n',
            "relation `3` is of no line: no line meets all its conditions",
            "correct the conditions, or leave the relation out",
        ),
        (
            'relation 4 "R"\n  where pipe size is over 2 in\n  except where pipe size is at least 1 in because "s"\n'
            "  alike in room\n  shall have the same jacket\n",
            "relation `4` is of no line: no line meets all its conditions",
            "correct the conditions, or leave the relation out",
        ),
        (
            'relation 6 "R"\n  except where pipe size is at least 1 in because "s"\n'
            '  except where pipe size is under 1 in because "s"\n  except where pipe size is not given because "s"\n'
            "  alike in room\n  shall have the same jacket\n",
            "relation `6` is of no line: no line meets all its conditions",
            "correct the conditions, or leave the relation out",
        ),
        (
            f'relation 5 "R"\n  where component is valve\n  beside where {NEVER}\n  alike in room\n'
            "  shall have a line\n",
            "relation `5` has no line to stand beside: no line meets all its conditions",
            "correct the conditions, or leave the relation out",
        ),
    ],
)
def test_conditions_that_no_line_meets_are_told(text: str, message: str, help: str) -> None:
    """By its own conditions, by its exceptions, or by those of the lines beside it, it can never be of any line."""
    assert told(text) == [("P316", message, help)]


def test_nothing_is_told_of_documents_and_relations_that_lines_can_meet() -> None:
    """Conditions that some line meets, and none at all, are no finding."""
    assert (
        told(
            'document 2 "D"\n  submit sample\n\n'
            'relation 3 "R"\n  where component is valve\n  beside where component is pipe\n  alike in room\n'
            "  shall have the same jacket\n  except where service is steam\n"
        )
        == []
    )
