"""Calculations about hands on surfaces: the temperature from which a touch may burn."""

from __future__ import annotations

import numpy as np

from speccheck.physics.burns import burn_thresholds, touched_surface
from speccheck.physics.calculations.calculation import TEXT, Calculation, CalculationOutcome, Input, Inputs, Words
from speccheck.physics.calculations.dimensions import any_of, outer_material_lacks

CONTACT = Input("contact time", "time", least=0.0)


LEAST_COAT = 50e-6
"""Thickness (m) of the coat that coated metal has in the table."""

CLOTHS = ("canvas", "glass cloth")


def _touched(inputs: Inputs) -> Words:
    """Return the surface of the table that a hand meets on each line: the jacket, or the pipe where it is bare.

    Painted metal is coated metal where its coat is stated and thick enough, and cloth is that of the table where a coat
    is stated. What the line says of the touched surface counts where none of this is in the table.
    """
    jacket, pipe = inputs.words("jacket"), inputs.words("pipe material")
    bare = (inputs.words("insulation") == "none") & np.isin(jacket, ("", "none"))
    found = np.where(bare, _surfaces("pipe material", pipe), _surfaces("jacket", jacket)).astype("<U32")
    coat = inputs.numbers("coating thickness")
    painted = (inputs.words("jacket surface") == "painted") & (coat >= LEAST_COAT * (1 - 1e-9)) & ~bare
    found[painted & (found == "bare metal")] = "coated metal"
    found[np.isin(jacket, CLOTHS) & (coat > 0)] = "cloth, densely coated"
    stated = _surfaces("touched surface", inputs.words("touched surface"))
    return np.where(found == "", stated, found)


def _surfaces(term: str, words: Words) -> Words:
    """Return the surface of the table for each word, each word looked up once."""
    different, places = np.unique(words, return_inverse=True)
    return np.array([touched_surface(term, str(word)) for word in different], dtype=np.str_)[places]


def _burn_threshold(inputs: Inputs) -> CalculationOutcome:
    """Least threshold of the surface at the next printed time of contact that is not shorter."""
    surface, contact = _touched(inputs), inputs.numbers("contact time")
    values, printed, other = (np.full(contact.shape, np.nan) for _ in range(3))
    for name, thresholds in burn_thresholds().items():
        here = surface == name
        if np.any(here):
            values[here], printed[here], other[here] = thresholds.at(contact[here])
    lacks = tuple((rows & (surface == ""), name) for rows, name in outer_material_lacks(inputs))
    unknown = (surface == "") & ~any_of(lacks)
    steps = (
        ("surface in the table", TEXT, surface),
        ("time of contact in the table", "time", printed),
        ("threshold in another transcription", "temperature", other),
    )
    why = "no threshold is published here for this outer material"
    return CalculationOutcome(values, steps, ((unknown, why),), lacks)


TOUCH = (
    Calculation(
        "burn threshold",
        "temperature",
        (
            CONTACT,
            Input("jacket", TEXT, required=False),
            Input("insulation", TEXT, required=False),
            Input("pipe material", TEXT, required=False),
            Input("jacket surface", TEXT, required=False),
            Input("coating thickness", "length", required=False, least=0.0),
            Input("touched surface", TEXT, required=False),
        ),
        "lowest printed threshold of the outer material, at the next printed time of contact that is not shorter",
        "DIN EN 563:1994 and EN ISO 13732-1, both second hand",
        _burn_threshold,
    ),
)
