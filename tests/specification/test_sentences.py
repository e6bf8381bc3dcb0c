"""Sentences of invented sections, and what a careful writer would write for each; what is doubtful is left to do."""

from __future__ import annotations

import pytest

from speccheck.language import load_vocabulary
from speccheck.specification.sentences import Sentence, read_sentence, sentences_of

VOCABULARY = load_vocabulary("mechanical insulation").vocabulary
assert VOCABULARY is not None

HOT, CHILLED = "service is heating hot water", "service is chilled water"
UNDERSTOOD = [
    (
        "Insulate heating hot water piping with fiberglass not less than 1-1/2 inches thick",
        {HOT},
        {"thickness be at least 1-1/2 in", "insulation be fiberglass"},
    ),
    (
        "Thickness of insulation on chilled water piping shall be not less than 1 inch",
        {CHILLED},
        {"thickness be at least 1 in"},
    ),
    ("Provide aluminum or PVC jackets on outdoor piping", {"location is outdoor"}, {"jacket be one of aluminum, PVC"}),
    (
        "Where piping is below ambient, provide vapor stops at valves, flanges and fittings",
        {"operating temperature is less than ambient temperature"},
        {"vapor stop locations include valves, flanges, fittings"},
    ),
    (
        "Provide vapor stops at intervals not exceeding 15 feet on chilled water piping",
        {CHILLED},
        {"vapor stop spacing be at most 15 ft"},
    ),
    # an amount is of the value that it stands beside, as in the cells of schedules
    (
        "Insulate chilled water piping with 1-1/2 inch fiberglass and minimum 0.016 inch aluminum jacket",
        {CHILLED},
        {
            "thickness be at least 1-1/2 in",
            "insulation be fiberglass",
            "jacket thickness be at least 0.016 in",
            "jacket be aluminum",
        },
    ),
    (
        "Outdoor piping shall have minimum 2 inch polyisocyanurate and minimum 0.020 inch thick aluminum jacket",
        {"location is outdoor"},
        {
            "thickness be at least 2 in",
            "insulation be polyisocyanurate",
            "jacket thickness be at least 0.020 in",
            "jacket be aluminum",
        },
    ),
    ("Flame spread shall be not more than 25", set(), {"flame spread be at most 25"}),
    ("Flame spread shall be not above 25", set(), {"flame spread be at most 25"}),
    ("PVC jackets are not permitted in plenums", {"location is plenum"}, {"jacket be not one of PVC"}),
    (
        "Jackets exposed to weather shall be aluminum, 0.024 inch minimum thickness",
        {"location is outdoor"},
        {"jacket thickness be at least 0.024 in", "jacket be aluminum"},
    ),
    (
        "For piping 2 inches and larger, insulation thickness shall be at least 2 inches",
        {"pipe size is at least 2 in"},
        {"thickness be at least 2 in"},
    ),
    ("Retarder permeance shall not exceed 0.02 perm", set(), {"retarder permeance be at most 0.02 perm"}),
    (
        "Do not use elastomeric foam on steam piping",
        {"service is steam"},
        {"insulation be not one of elastomeric foam"},
    ),
    (
        "Steam piping shall be insulated with calcium silicate or mineral wool, 3 inches thick",
        {"service is steam"},
        {"thickness be at least 3 in", "insulation be one of calcium silicate, mineral wool"},
    ),
    ("Insulation shall not be fiberglass on chilled water piping", {CHILLED}, {"insulation be not one of fiberglass"}),
    (
        "Install insulation with a thermal conductivity of 0.25 Btu.in/(h.ft2.F) or less",
        set(),
        {"conductivity be at most 0.25 Btu.in/(h.ft2.F)"},
    ),
    (
        "Insulation on domestic hot water piping shall be at least 1 inch thick where run in unconditioned spaces",
        {"service is domestic hot water", "location is unconditioned"},
        {"thickness be at least 1 in"},
    ),
    (
        "Insulate steam piping over 4 inches with 3 inches of mineral wool",
        {"service is steam", "pipe size is more than 4 in"},
        {"thickness be at least 3 in", "insulation be mineral wool"},
    ),
    ("Provide jackets on all exposed insulation", {"not concealed"}, {"jacket be not none"}),
    ("Vapor stops shall be at least 3 inches wide", set(), {"vapor stop width be at least 3 in"}),
    (
        "Insulation shall be at least 1 inch thick and no more than 3 inches thick",
        set(),
        {"thickness be at least 1 in", "thickness be at most 3 in"},
    ),
    # what stands before a colon says of what the rest is asked, and is not asked itself
    ("PVC jacket: 20 mils, minimum", {"jacket is PVC"}, {"jacket thickness be at least 20 mil"}),
    ("Fiberglass: density at least 3 pcf", {"insulation is fiberglass"}, {"density be at least 3 lb/ft3"}),
    (
        "Heating hot water piping: fiberglass, 1-1/2 in min.",
        {HOT},
        {"insulation be fiberglass", "thickness be at least 1-1/2 in"},
    ),
    ("Chilled water: vapor stops max. 15 ft o.c.", {CHILLED}, {"vapor stop spacing be at most 15 ft"}),
    ("Surface temperature: 140 F max. within reach", {"within reach"}, {"surface temperature be at most 140 F"}),
    ("Adhesives: VOC content not to exceed 80 g/L", set(), {"adhesive VOC content be at most 80 g/L"}),
    (
        "External ductwork shall be clad with aluminium",
        {"location is outdoor", "component is duct"},
        {"jacket be aluminum"},
    ),
    (
        "Pipes DN 15 to DN 50 shall be insulated with at least 25 mm",
        {"pipe size is between DN 15 and DN 50"},
        {"thickness be at least 25 mm"},
    ),
    (
        "Fiberglass shall have a maximum use temperature of at least 850 F and a density of 3 pcf minimum",
        {"insulation is fiberglass"},
        {"maximum use temperature be at least 850 F", "density be at least 3 lb/ft3"},
    ),
    # for which lines it is, behind what is asked
    ("Use lagging adhesive for canvas jackets", {"jacket is canvas"}, {"adhesive be lagging adhesive"}),
    ("PVC cladding shall not be used externally", {"location is outdoor"}, {"jacket be not one of PVC"}),
    (
        "Elastomeric foam is not permitted above 105 °C",
        {"operating temperature is more than 105 C"},
        {"insulation be not one of elastomeric foam"},
    ),
    (
        "Install insulation 3 inches thick and thicker in at least two layers",
        {"thickness is at least 3 in"},
        {"layers be at least 2"},
    ),
    (
        "Domestic cold water pipework shall be insulated to not less than 19 mm",
        {"service is domestic cold water"},
        {"thickness be at least 19 mm"},
    ),
    ("Limit the surface temperature to 140 degrees F", set(), {"surface temperature be at most 140 F"}),
    ("The VOC content of coatings shall not exceed 50 g/L", set(), {"coating VOC content be at most 50 g/L"}),
    ("Insulation shall contain no CFC, HCFC or HFC", set(), {"excluded substances include CFC, HCFC, HFC"}),
    ("Diffusion resistance factor shall be at least 10 000", set(), {"diffusion resistance factor be at least 10000"}),
    ("Lap jackets not less than 2 inches", set(), {"jacket overlap be at least 2 in"}),
    ("Pins shall be spaced at most 300 mm", set(), {"pin spacing be at most 300 mm"}),
]
LEFT = [
    # a temperature, a place or a reach is the building's: nobody proposes it
    "Maximum operating temperature limit: not less than 850 degrees F",
    "Calcium silicate: operating temperature at least 250 degrees F",
    "Provide aluminum jackets for steam and PVC jackets for chilled water",
    "VOC content: 420 g/L maximum",
    "Jacket: none",
    "Ducts: 1-1/2 inch fiberglass, except 2 inch outdoors",
    "Glycol piping: 2 inches of polyisocyanurate minimum; outdoors 3 inches",
    "Hot and cold domestic water piping shall have at least 1 inch of fiberglass",
    "Protect outdoor insulation with UV coating",
    # a word alone that stands for values of several terms
    "No PVC in plenums",
    "Exhaust duct: none",
    "Provide vapor stops at valves or flanges",
    "Aluminum jacket: 0.016 inch thick minimum, with integral moisture barrier",
    "Condensate drains: 1/2 in min.",
    # an amount beside a value, without least or most, and amounts of what stands behind them
    "Insulate chilled water piping with 1-1/2 inch fiberglass and 0.016 inch aluminum jacket",
    "Provide fiberglass insulation 12 inches from valves",
    "Secure with 1/2 inch aluminum bands",
    # read otherwise than meant by a careless reader: each is left to a person
    "Insulate chilled water pumps with elastomeric foam",
    "Piping indoors shall have PVC jackets",
    "Chilled water supply piping shall have PVC jackets",
    "All piping shall be insulated except condenser water",
    "Piping not exposed to weather shall be jacketed with PVC",
    "Insulation thickness shall be 1-1/2 inches for piping up to 4 inches, 2 inches for larger piping",
    "Provide aluminum jackets for piping less than 10 feet above the floor",
    "Materials shall be noncombustible or have a flame spread of not more than 25",
    "Use calcium silicate only on piping operating at 250 degrees F and above",
    "Elastomeric insulation may be used in lieu of fiberglass",
    "Provide high-density inserts of calcium silicate or cellular glass on piping 2 inches and larger",
    "Provide a factory-applied all-service jacket on fiberglass pipe insulation",
    "Provide aluminum jacket or two coats of UV coating on outdoor elastomeric foam",
    "Thickness shall be 1 inch less than scheduled",
    "Unless otherwise noted, thickness shall be not less than 1 inch",
    "Condensate drains need no insulation",
    "Insulation shall be installed in a neat manner",
    "Submit product data for each type of insulation",
    "Insulate condensate piping inside the dairy's old wing with 1 inch thick fiberglass",
    "Jackets shall be aluminum where directed by the engineer of record",
    "Provide 20 mil thick jackets over 1 inch thick insulation on chilled water piping",
    "Insulation on chilled water piping shall be more than 1 inch thick",
    "Cover elbows with two-part mitred gores of the jacket metal",
]


@pytest.mark.parametrize(("text", "where", "asks"), UNDERSTOOD, ids=[one[0] for one in UNDERSTOOD])
def test_a_plain_requirement_is_read_as_a_writer_means_it(text: str, where: set[str], asks: set[str]) -> None:
    """Conditions and requirements come out in the words of the language, and no word is left over."""
    read = read_sentence(text, VOCABULARY)
    assert (read.left_over, read.doubts) == ((), ())
    assert (set(read.where), set(read.asks), read.keyword) == (where, asks, "shall")


@pytest.mark.parametrize("text", LEFT)
def test_what_has_other_words_in_it_is_not_understood_as_a_whole(text: str) -> None:
    """A word that could change what is asked, or an amount of two readings, keeps the sentence from being a clause."""
    assert not read_sentence(text, VOCABULARY).is_understood


def test_a_sentence_without_end_is_left_to_the_writer() -> None:
    """One of 4,000 characters took three seconds, and each doubling five times as long; nothing is asked of it."""
    words = "Insulation shall be at least 1 inch thick " * 500
    (sentence,) = sentences_of(words)
    assert read_sentence(sentence, VOCABULARY) == Sentence(doubts=("it has more than 1,000 characters",))
    assert not read_sentence(sentence, VOCABULARY).is_understood


def test_should_is_a_recommendation() -> None:
    """A sentence with "should" becomes advice."""
    read = read_sentence("Flame spread should be not more than 25", VOCABULARY)
    assert (read.keyword, read.asks) == ("should", ("flame spread be at most 25",))


def test_sentences_end_at_full_stops_and_not_at_numbers_or_units() -> None:
    """A decimal point, a unit and a number of a clause end no sentence."""
    assert sentences_of("Use 0.024 in. aluminum. Seal joints at 1.5 in. Do not tape.") == [
        "Use 0.024 in. aluminum",
        "Seal joints at 1.5 in",
        "Do not tape",
    ]


def test_a_value_before_the_verb_may_be_of_what_the_rest_is_asked() -> None:
    """ "PVC jackets shall be 30 mils thick" is of PVC jackets alone; what a piece cannot tell apart is a doubt."""
    found = read_sentence("PVC jackets shall be not less than 30 mils thick and UV resistant", VOCABULARY)
    assert found.doubts == ("`PVC jackets` may be what is asked for, or that of which the rest is asked",)
