"""A small page: one template with its styles and no script, closed to the outside."""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Iterable
from pathlib import Path

_TEMPLATES = Path(__file__).parents[1] / "templates"


def render_small_page(template: str, *, styles: Iterable[str] = ("page.css", "counts.css"), **contents: object) -> str:
    """Return a page made from a template and styles; `contents` are what the template names."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined
    from markupsafe import Markup

    environment = Environment(
        loader=FileSystemLoader(_TEMPLATES),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
    )
    style = "\n".join((_TEMPLATES / name).read_text(encoding="utf-8") for name in styles)
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode("ascii")
    policy = f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"
    return environment.get_template(template).render(style=Markup(style), policy=policy, **contents)
