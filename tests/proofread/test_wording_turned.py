"""What wording and rule say the other way round: each told in full, and what looks alike is not told."""

from __future__ import annotations

import pytest

from speccheck.language import parse_ruleset
from speccheck.proofread.proofreading import proofread

HEAD = 'ruleset "case"\n  speaks mechanical insulation\n\n'


def _found(text: str) -> list[tuple[str, str, str]]:
    loaded = parse_ruleset(HEAD + text)
    assert loaded.ruleset is not None, [str(one) for one in loaded.diagnostics]
    return [(one.code, one.message, one.help) for one in proofread(loaded.ruleset).findings]


def _clause(wording: str, *rule: str) -> str:
    return "\n  ".join(['clause 1 "c"', f'wording "{wording}"', *rule]) + "\n"


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (
            _clause(
                "Set vapor stops at valves, flanges and hangers.",
                "shall vapor stop locations include any of valves, flanges, hangers",
            ),
            (
                "P711",
                "the wording of clause `1` asks for all of `at valves` to `hangers`, and its rule for any of them as "
                "`vapor stop locations`",
                "write `include` for all, and `include any of` where one is enough",
            ),
        ),
        (
            _clause("Staples shall not be used.", "shall seam closure be staples"),
            (
                "P712",
                "the wording of clause `1` forbids `Staples`, and its rule asks for it",
                "turn one of the two round: the rule, or the wording",
            ),
        ),
        (
            _clause("Jacket piping with PVC or stainless steel.", "shall jacket be not one of PVC, stainless steel"),
            (
                "P712",
                "the wording of clause `1` asks for `PVC`, and its rule forbids it",
                "turn one of the two round: the rule, or the wording",
            ),
        ),
        (
            _clause(
                "Where the ambient temperature is below 32 F use 1 in or more.",
                "where operating temperature is less than 32 F",
                "shall thickness be at least 1 in",
            ),
            (
                "P713",
                "the wording of clause `1` says `32 F` of `ambient temperature`, and its rule of `operating "
                "temperature`",
                "name one term in both",
            ),
        ),
        (
            _clause(
                "Piping below ambient temperature shall have 1 in or more.",
                "where operating temperature is more than ambient temperature",
                "shall thickness be at least 1 in",
            ),
            (
                "P703",
                "the wording of clause `1` limits in one direction, and its rule in the other, at `below ambient "
                "temperature`",
                "the rule says `is more than ambient temperature`; one of the two is wrong",
            ),
        ),
        (
            _clause(
                "Condensate return: not less than 1-1/2 in, unless pumped.",
                "where service is steam condensate",
                "shall thickness be at least 1-1/2 in",
            ),
            (
                "P707",
                "the wording of clause `1` says `unless pumped`, and its rule leaves nothing out",
                "write `except where` and why, or leave it out of the wording; where no term says it, a vocabulary of "
                "your own can",
            ),
        ),
        (
            _clause("On pipe of 2 in and larger close seams with staples.", "shall seam closure be staples"),
            (
                "P707",
                "the wording of clause `1` says `pipe of 2 in`, and its rule does not ask for the size",
                "add the condition to the rule, or leave it out of the wording",
            ),
        ),
        (
            "table asked in inches\n  by pipe size\n  up to 2 in        | 1\n  over 2 in to 8 in | 1-1/2\n"
            '  over 8 in         | 1\n\nclause 1 "c"\n  shall thickness be at least asked\n',
            (
                "P106",
                "`asked` falls from `1-1/2 in` at `over 2 in to 8 in` to `1 in` at `over 8 in`, where all other steps "
                "rise",
                "correct the cell, or write in a note of the table that `P106 is meant`",
            ),
        ),
    ],
)
def test_what_is_turned_round_is_told_in_full(text: str, found: tuple[str, str, str]) -> None:
    """Each pair of wording and rule says two things, which anybody can read in it."""
    assert _found(text) == [found]


@pytest.mark.parametrize(
    "text",
    [
        _clause("Set them at valves or flanges.", "shall vapor stop locations include any of valves, flanges"),
        _clause("Set them at valves and flanges.", "shall vapor stop locations include valves, flanges"),
        _clause("Staples shall not be used.", "shall seam closure be not staples"),
        _clause("Use no staples but tape.", "shall seam closure be not staples"),
        _clause("Do not leave piping bare.", "shall insulation be not none"),
        _clause("Close seams with staples, or approved equal.", "shall seam closure be staples or approved equal"),
        _clause(
            "Close seams with staples unless seen by visitors.",
            "shall seam closure be staples",
            'except where concealed because "nobody sees it"',
        ),
        _clause(
            "Close seams with staples unless the duct is concealed.",
            "where not concealed",
            "shall seam closure be staples",
        ),
        _clause(
            "Chilled water: 1 in up to NPS 2, 1-1/2 in above.",
            "where service is chilled water",
            "shall thickness be at least 1-1/2 in if pipe size is more than 2 in otherwise thickness be at least 1 in",
        ),
        _clause(
            "Hot piping: mineral fiber or calcium silicate.",
            "shall insulation be one of mineral fiber, calcium silicate",
        ),
        _clause(
            "Where ambient temperature is below 32 F use 1 in or more.",
            "where ambient temperature is less than 32 F",
            "shall thickness be at least 1 in",
        ),
        _clause(
            "Piping not above ambient temperature shall have 1 in or more.",
            "where operating temperature is at most ambient temperature",
            "shall thickness be at least 1 in",
        ),
        "table asked in inches\n  by pipe size\n  up to 2 in        | 1\n  over 2 in to 8 in | 1-1/2\n"
        '  over 8 in         | 0\n\nclause 1 "c"\n  shall thickness be at least asked\n',
    ],
)
def test_what_says_the_same_is_not_told(text: str) -> None:
    """Each pair says one thing, or nothing that can be told apart; a cell of 0 asks for nothing."""
    assert _found(text) == []


def test_a_wording_and_a_rule_that_differ_at_one_value_are_told_so() -> None:
    """Wording that includes 15 ft beside a rule that does not: the two differ there, and in a metric ruleset in DN."""
    text = _clause("Vapor stops up to 15 ft apart.", "shall vapor stop spacing be less than 15 ft")
    assert _found(text) == [
        (
            "P703",
            "the wording of clause `1` and its rule differ where the value is exactly `15 ft`: only one of the two "
            "includes it",
            "the rule says `vapor stop spacing is less than 15 ft`; one of the two is wrong",
        )
    ]


def test_a_size_is_told_as_a_metric_ruleset_writes_it() -> None:
    """`DN 50` in the rule is `DN 50` in the help, and not NPS 2."""
    text = _clause("Close seams of pipe up to DN 50 with staples.", "where pipe size is more than DN 50")
    loaded = parse_ruleset(
        HEAD.replace("insulation\n", "insulation\n  units metric\n") + text + "  shall seam closure be staples\n"
    )
    assert loaded.ruleset is not None, loaded.diagnostics
    assert [(one.code, one.message, one.help) for one in proofread(loaded.ruleset).findings] == [
        (
            "P703",
            "the wording of clause `1` limits in one direction, and its rule in the other, at `of pipe up to "
            "DN 50 with staples.`",
            "the rule says `pipe size is more than DN 50`; one of the two is wrong",
        )
    ]
