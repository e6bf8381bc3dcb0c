"""The screen System: one system worked out (thickness, sweat, touch, loss) with its picture."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from speccheck.desk.desk import Desk

FIELDS = {
    "component": ("Component", ("pipe", "duct", "tank")),
    "pipe size": ("Nominal pipe size", ()),
    "pipe material": ("Pipe material", ("steel", "copper", "stainless steel", "PVC", "CPVC")),
    "insulation": ("Insulation", ("elastomeric foam", "mineral fiber", "calcium silicate", "cellular glass")),
    "thickness": ("Thickness", ()),
    "conductivity": ("Conductivity", ()),
    "jacket emittance": ("Emittance of the jacket", ()),
    "operating temperature": ("Operating temperature", ()),
    "ambient temperature": ("Ambient temperature", ()),
    "relative humidity": ("Relative humidity", ()),
}
EXAMPLES = {
    "inch-pound": (
        "pipe", "4 in", "steel", "elastomeric foam", "1 in", "0.25 Btu.in/(h.ft2.F)", "0.9", "42 F", "80 F", "90 %",
    ),
    "metric": ("pipe", "DN 100", "steel", "elastomeric foam", "25 mm", "0.036 W/(m.K)", "0.9", "6 C", "27 C", "90 %"),
}  # fmt: skip
LONGEST = 120


def routes(desk: Desk) -> list[Route]:
    """Return the routes of this screen."""

    async def system(request: Request) -> Response:
        said = request.query_params
        units = "metric" if said.get("units") == "metric" else "inch-pound"
        usual = dict(zip(FIELDS, EXAMPLES[units], strict=True))
        values = {name: said.get(name, usual[name] if not _asked(request) else "")[:LONGEST] for name in FIELDS}
        line = ", ".join(f"{name} {value.replace(',', ' ')}" for name, value in values.items() if value.strip())
        found = await desk.ask("system", {"line": line, "units": units}, patience=60)
        template = "system_result.html.j2" if said.get("part") else "system.html.j2"
        return desk.show(request, template, fields=FIELDS, values=values, units=units, found=found, screen="system")

    return [Route("/system", system)]


def _asked(request: Request) -> bool:
    return any(name in request.query_params for name in FIELDS)
