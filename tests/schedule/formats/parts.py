"""Workbooks out of raw XML parts, as no usual program writes them."""

from __future__ import annotations

import zipfile
from pathlib import Path

_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
STYLES = (
    '<numFmts><numFmt numFmtId="170" formatCode="0&quot; °C&quot;"/><numFmt numFmtId="171" formatCode="0.0"/></numFmts>'
    '<fonts><font/><font><strike/></font><font><color rgb="FFFFFFFF"/></font></fonts>'
    '<fills><fill><patternFill patternType="none"/></fill></fills>'
    '<cellXfs><xf/><xf fontId="1"/><xf fontId="2"/><xf numFmtId="170"/><xf numFmtId="171"/>'
    '<xf numFmtId="14"/></cellXfs>'
)
STRUCK, WHITE, CELSIUS, ONE_DECIMAL, DATE = range(1, 6)


def text(words: str, style: int = 0, reference: str = "") -> str:
    """Return the XML of a cell with an inline text."""
    at = f' r="{reference}"' if reference else ""
    return f'<c{at} t="inlineStr" s="{style}"><is><t>{words}</t></is></c>'


def number(value: float | str, style: int = 0, reference: str = "") -> str:
    """Return the XML of a cell with a number."""
    at = f' r="{reference}"' if reference else ""
    return f'<c{at} s="{style}"><v>{value}</v></c>'


def row(*cells: str, attributes: str = "") -> str:
    """Return the XML of a row."""
    return f"<row {attributes}>{''.join(cells)}</row>"


def raw_workbook(
    path: Path,
    rows: str,
    *,
    name: str = "Lines",
    around: str = "{}",
    prefix: str = "",
    looks: str = "",
    parts: dict[str, str] | None = None,
    places: tuple[str, str, str] = ("xl/workbook.xml", "xl/worksheets/sheet1.xml", "xl/styles.xml"),
) -> Path:
    """Write a workbook of one sheet whose rows are XML, with further looks in its styles.

    `places` are the parts of workbook, sheet and styles.
    """
    book, sheet, styles = places
    folder, file = book.rpartition("/")[::2]

    def relations(*targets: tuple[str, str, str]) -> str:
        items = "".join(f'<Relationship Id="{i}" Type="{_OFFICE}/{kind}" Target="{to}"/>' for i, kind, to in targets)
        return f'<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">{items}</Relationships>'

    data = f'<worksheet xmlns="{_MAIN}">' + around.format(f"<sheetData>{rows}</sheetData>") + "</worksheet>"
    if prefix:
        data = data.replace("</", f"</{prefix}:").replace("<", f"<{prefix}:").replace(f"<{prefix}:/", "</")
        data = data.replace('xmlns="', f'xmlns:{prefix}="')
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("_rels/.rels", relations(("a", "officeDocument", book)))
        archive.writestr(
            f"{folder}/_rels/{file}.rels".lstrip("/"),
            relations(("s1", "worksheet", f"/{sheet}"), ("s2", "styles", f"/{styles}")),
        )
        archive.writestr(
            book,
            f'<workbook xmlns="{_MAIN}" xmlns:q="{_OFFICE}"><sheets>'
            f'<sheet name="{name}" sheetId="1" q:id="s1"/></sheets></workbook>',
        )
        archive.writestr(sheet, data)
        archive.writestr(styles, f'<styleSheet xmlns="{_MAIN}">{STYLES}{looks}</styleSheet>')
        for part, content in (parts or {}).items():
            archive.writestr(part, content)
    return path
