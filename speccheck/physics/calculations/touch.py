"""Calculations about hands on surfaces: the temperature from which a touch may burn."""

from __future__ import annotations

import numpy as np

from speccheck.physics.burns import burn_thresholds, touched_surface
from speccheck.physics.calculations.calculation import TEXT, Calculation, Input, Inputs, Outcome, Words
from speccheck.physics.calculations.dimensions import any_of, outer_material_lacks

CONTACT = Input("contact time", "time", least=0.0)


def _touched(inputs: Inputs) -> Words:
    """Return the surface of the table that a hand meets on each line: the jacket, or the pipe where it is bare."""
    jacket, pipe = inputs.words("jacket"), inputs.words("pipe material")
    bare = (inputs.words("insulation") == "none") & np.isin(jacket, ("", "none"))
    return np.asarray(np.where(bare, _surfaces("pipe material", pipe), _surfaces("jacket", jacket)))


def _surfaces(term: str, words: Words) -> Words:
    """Return the surface of the table for each word, each word looked up once."""
    different, places = np.unique(words, return_inverse=True)
    return np.array([touched_surface(term, str(word)) for word in different], dtype=np.str_)[places]


def _burn_threshold(inputs: Inputs) -> Outcome:
    """Least threshold of the surface at the next printed time of contact that is not shorter."""
    surface, contact = _touched(inputs), inputs.numbers("contact time")
    values, printed, other = (np.full(contact.shape, np.nan) for _ in range(3))
    for name, thresholds in burn_thresholds().items():
        here = surface == name
        if np.any(here):
            values[here], printed[here], other[here] = thresholds.at(contact[here])
    lacks = outer_material_lacks(inputs)
    unknown = (surface == "") & ~any_of(lacks)
    steps = (
        ("surface in the table", TEXT, surface),
        ("time of contact in the table", "time", printed),
        ("threshold in another transcription", "temperature", other),
    )
    why = "no threshold is published here for this outer material"
    return Outcome(values, steps, ((unknown, why),), lacks)


TOUCH = (
    Calculation(
        "burn threshold",
        "temperature",
        (
            CONTACT,
            Input("jacket", TEXT, required=False),
            Input("insulation", TEXT, required=False),
            Input("pipe material", TEXT, required=False),
        ),
        "lowest printed threshold of the outer material, at the next printed time of contact that is not shorter",
        "DIN EN 563:1994 and EN ISO 13732-1, both second hand",
        _burn_threshold,
    ),
)
