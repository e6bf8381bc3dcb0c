"""Which terms tell one system of the building from another.

A vocabulary that does not have one of these terms loses nothing: terms that no line states tell no lines apart.
"""

from __future__ import annotations

SERVICE = "service"
SIZE = "pipe size"
TEMPERATURE = "operating temperature"

# Terms whose values tell one system from another. Size and temperature are ranges, all others single values.
TELLING_APART = (
    "component",
    "fitting kind",
    SERVICE,
    "flow",
    "duct kind",
    "pipe material",
    "location",
    "room",
    "orientation",
    "concealed",
)
SYSTEM = (*TELLING_APART, SIZE, TEMPERATURE)

# Fittings, valves and flanges belong to the pipe that they are in, and design lists seldom name them.
PARTS_OF_PIPING = ("fitting", "valve", "flange")
PIPE = "pipe"
COMPONENT = "component"

# Words about a line that are never judged.
BESIDE_THE_POINT = ("mark", "notes")
