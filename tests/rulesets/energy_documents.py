"""The energy documents whose pipe tables are shipped, and where their published rows stand in the rulesets."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from tests.rulesets.proposing import published

SIZES = {
    "under_1": ("1/8", "3/4"),
    "under_1_1_2": ("1", "1-1/4"),
    "under_4": ("1-1/2", "3-1/2"),
    "under_8": ("4", "6"),
    "from_8": ("8", "36"),
}
"""The first and the last nominal size (NPS) of each column of the printed tables; ASME B36.10M, up to 36."""

DN = {"1/8": 6, "3/4": 20, "1": 25, "1-1/4": 32, "1-1/2": 40, "3-1/2": 90, "4": 100, "6": 150, "8": 200, "36": 900}
"""The DN of these sizes, ISO 6708."""


@dataclass(frozen=True)
class Use:
    """One table of a document: its names in the ruleset, its clauses, and what a line states to fall under it."""

    ruleset: str
    thickness_table: str
    lowest_table: str
    highest_table: str
    rating_table: str
    within: str
    outside: str
    rating: str
    stated: Mapping[str, str]
    metric: bool


_Tables = tuple[str, str, str, str]
_Clauses = tuple[str, str, str]


def _use(ruleset: str, tables: _Tables, clauses: _Clauses, service: str, **more: str) -> Use:
    stated = MappingProxyType({"service": service, **{name.replace("_", " "): words for name, words in more.items()}})
    return Use(ruleset, *tables, *clauses, stated, ruleset.endswith("-si"))


def _tables(prefix: str, use: str, thickness: str = "") -> _Tables:
    lowest, highest = (f"{prefix} {which} {use} conductivity" for which in ("lowest", "highest"))
    return (f"{prefix} {thickness or use} thickness", lowest, highest, f"{prefix} {use} rating temperature")


_IECC_HEATING = (
    "energy heating thickness",
    "IECC lowest heating conductivity",
    "IECC highest heating conductivity",
    "energy heating rating temperature",
)
_CALIFORNIA = "energy/california"

USES: Mapping[tuple[str, str], Use] = {
    ("ashrae", "heating"): _use(
        "energy/ashrae-90.1", _tables("energy", "heating"), ("90.1-1.2", "90.1-1.3", "90.1-1.8"), "heating hot water"
    ),
    ("ashrae", "cooling"): _use(
        "energy/ashrae-90.1", _tables("energy", "cooling"), ("90.1-2.2", "90.1-2.3", "90.1-2.4"), "chilled water"
    ),
    ("ashrae-si", "heating"): _use(
        "energy/ashrae-90.1-si", _tables("SI", "heating"), ("90.1SI-1.2", "90.1SI-1.3", "90.1SI-1.4"), "steam"
    ),
    ("ashrae-si", "cooling"): _use(
        "energy/ashrae-90.1-si", _tables("SI", "cooling"), ("90.1SI-2.2", "90.1SI-2.3", "90.1SI-2.4"), "glycol"
    ),
    ("iecc", "heating"): _use(
        "energy/iecc-commercial", _IECC_HEATING, ("IECC-1.2", "IECC-1.3", "IECC-1.8"), "domestic hot water"
    ),
    ("iecc", "cooling"): _use(
        "energy/iecc-commercial", _tables("energy", "cooling"), ("90.1-2.2", "90.1-2.3", "90.1-2.4"), "chilled water"
    ),
    ("california", "heating"): _use(
        _CALIFORNIA, _tables("California", "hot", "heating"), ("T24-1.2", "T24-1.3", "T24-1.4"), "heating hot water"
    ),
    ("california", "nonresidential cooling"): _use(
        _CALIFORNIA,
        _tables("California", "cold", "nonresidential cooling"),
        ("T24-2.2", "T24-2.4", "T24-2.6"),
        "chilled water",
        building_use="nonresidential",
    ),
    ("california", "residential cooling"): _use(
        _CALIFORNIA,
        _tables("California", "cold", "residential cooling"),
        ("T24-2.3", "T24-2.5", "T24-2.6"),
        "chilled water",
        building_use="residential",
    ),
}


@dataclass(frozen=True)
class Other:
    """What another reading of a disputed source has in place of a row; no range where it is only remembered."""

    k_low: float | None
    k_high: float | None
    thickness: Mapping[str, float]


@dataclass(frozen=True)
class Row:
    """One printed row of a table: the fluid's band, what the insulation conducts, and the thickness by size."""

    use: Use
    low: float | None
    high: float | None
    k_low: float
    k_high: float
    mean: float
    thickness: Mapping[str, float]
    other: Other | None = None

    @property
    def fluids(self) -> tuple[float, ...]:
        """Temperatures in degrees as printed: both ends of the band, and for hot rows half a degree below the low one.

        Bands are printed in whole degrees, so that the half degree lies between two rows; it belongs to the hotter.
        """
        if self.low is None:
            assert self.high is not None
            return (-20.0, self.high - 0.1)
        if self.high is None:
            return (self.low + 0.1, self.low + 200.0)
        between_rows = (self.low - 0.5,) if self.low in (61, 94, 122, 141, 201, 251) else ()
        return (*between_rows, self.low, self.high)


def rows() -> list[Row]:
    """Return every printed row of every document, with its other reading where it is disputed."""
    others = {
        (one["document"], one["use"], one["low"]): Other(
            float(one["k_low"]) if one["k_low"] else None,
            float(one["k_high"]) if one["k_high"] else None,
            {column: float(one[column]) for column in SIZES},
        )
        for one in published("energy_disputed")
    }
    return [
        Row(
            USES[one["document"], one["use"]],
            float(one["low"]) if one["low"] else None,
            float(one["high"]) if one["high"] else None,
            float(one["k_low"]),
            float(one["k_high"]),
            float(one["mean"]),
            {column: float(one[column]) for column in SIZES},
            others.get((one["document"], one["use"], one["low"])),
        )
        for one in published("energy_pipe_thickness")
    ]


def name_of(row: Row) -> str:
    """Return a name for a row, for the list of tests."""
    return f"{row.use.ruleset.split('/')[1]}, {row.use.thickness_table}, {row.low}-{row.high}"
