"""Malformed and hostile PDF and Word files, written by hand: recursive objects, bombs, actions, thousands of pages."""

from __future__ import annotations

import zipfile
import zlib
from pathlib import Path

_TABLE = "".join(
    f"BT /F1 9 Tf {x} {700 - 20 * row} Td ({text}) Tj ET "
    for row, texts in enumerate((("Mark", "Service", "Thk"), ("P-1", "CHW", "1"), ("P-2", "HHW", "2")))
    for x, text in zip((60, 160, 320), texts, strict=True)
)
_FONT = "<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>"


def pdf(path: Path, objects: list[bytes | str], trailer: str = "") -> Path:
    """Write a PDF of objects, numbered from 1, of which the first is the catalog."""
    data, places = bytearray(b"%PDF-1.7\n"), []
    for number, content in enumerate(objects, start=1):
        places.append(len(data))
        body = content.encode() if isinstance(content, str) else content
        data += b"%d 0 obj\n%s\nendobj\n" % (number, body)
    start = len(data)
    data += b"xref\n0 %d\n0000000000 65535 f \n" % (len(objects) + 1)
    data += b"".join(b"%010d 00000 n \n" % place for place in places)
    data += b"trailer<</Size %d/Root 1 0 R%s>>\nstartxref\n%d\n%%%%EOF\n" % (len(objects) + 1, trailer.encode(), start)
    path.write_bytes(bytes(data))
    return path


def stream(content: bytes, more: str = "") -> bytes:
    """Return a stream object."""
    return b"<</Length %d%s>>stream\n%s\nendstream" % (len(content), more.encode(), content)


def one_page(
    path: Path, content: bytes, more: str = "", *, catalog: str = "", page: str = "", rest: tuple[bytes, ...] = ()
) -> Path:
    """Write a PDF of one page; `rest` are objects from 6 on, `more`, `catalog` and `page` entries of dictionaries."""
    resources = f"<</Font<</F1 5 0 R>>{more}>>"
    objects: list[bytes | str] = [
        f"<</Type/Catalog/Pages 2 0 R{catalog}>>",
        "<</Type/Pages/Kids[3 0 R]/Count 1>>",
        f"<</Type/Page/Parent 2 0 R/MediaBox[0 0 612 792]/Resources{resources}/Contents 4 0 R{page}>>",
        content,
        _FONT,
        *rest,
    ]
    return pdf(path, objects)


def with_actions(path: Path) -> Path:
    """Write a schedule that runs a script when it is opened, starts a program, and has a file embedded."""
    script = "<</S/JavaScript/JS(app.alert\\(1\\))>>"
    launch = "<</Type/Annot/Subtype/Link/Rect[0 0 600 790]/A<</S/Launch/F(calc.exe)>>>>"
    names = "/Names<</EmbeddedFiles<</Names[(x) 6 0 R]>>/JavaScript<</Names[(y) " + script + "]>>>>"
    embedded = b"<</Type/Filespec/F(x.exe)/EF<</F 7 0 R>>>>"
    return one_page(
        path, stream(_TABLE.encode()), catalog=f"/OpenAction {script}{names}", page=f"/Annots[{launch}]",
        rest=(embedded, stream(b"MZ", "/Type/EmbeddedFile")),
    )  # fmt: skip


def form_within_itself(path: Path) -> Path:
    """Write a page whose form draws itself."""
    form = stream(b"/X Do", "/Type/XObject/Subtype/Form/BBox[0 0 9 9]/Resources<</XObject<</X 6 0 R>>>>")
    return one_page(path, stream(b"/X Do " + _TABLE.encode()), "/XObject<</X 6 0 R>>", rest=(form,))


def stream_bomb(path: Path) -> Path:
    """Write a page whose content unpacks to 4 GB."""
    packer = zlib.compressobj(9)
    packed = b"".join(packer.compress(b" " * 2**24) for _ in range(256)) + packer.flush()
    return one_page(path, stream(zlib.compress(packed, 9), "/Filter[/FlateDecode/FlateDecode]"))


def many_pages(path: Path, count: int = 10_000) -> Path:
    """Write a PDF of thousands of pages."""
    kids = "".join(f"{number} 0 R " for number in range(3, count + 3))
    page = "<</Type/Page/Parent 2 0 R/MediaBox[0 0 9 9]>>"
    return pdf(path, ["<</Type/Catalog/Pages 2 0 R>>", f"<</Type/Pages/Kids[{kids}]/Count {count}>>", *[page] * count])


def deep_pages(path: Path, depth: int = 5_000) -> Path:
    """Write a PDF whose pages are parents of parents of parents."""
    tree = [f"<</Type/Pages/Kids[{number + 1} 0 R]/Count 1>>" for number in range(2, depth + 2)]
    return pdf(path, ["<</Type/Catalog/Pages 2 0 R>>", *tree, "<</Type/Page/MediaBox[0 0 9 9]>>"])


def nested_lists(path: Path) -> Path:
    """Write a catalog with lists within lists, a hundred thousand deep."""
    return pdf(
        path, ["<</Type/Catalog/Pages 2 0 R/X " + "[" * 100_000 + "]" * 100_000 + ">>", "<</Type/Pages/Kids[]>>"]
    )


def endless_trailers(path: Path) -> Path:
    """Write a PDF whose list of objects names itself as the one before."""
    with_prev = one_page(path, stream(_TABLE.encode()))
    data = with_prev.read_bytes()
    start = data.rindex(b"startxref\n") + 10
    place = data[start:].split(b"\n")[0]
    path.write_bytes(data.replace(b"trailer<<", b"trailer<</Prev %s" % place))
    return path


def long_page(path: Path, count: int = 400_000) -> Path:
    """Write a page with hundreds of thousands of words."""
    words = b"".join(b"1 0 0 1 %d %d Tm (word) Tj " % (i % 600, i % 790) for i in range(count))
    return one_page(path, stream(zlib.compress(b"BT /F1 1 Tf " + words + b"ET"), "/Filter/FlateDecode"))


# ---- Word ------------------------------------------------------------------------------------------------------------

_WORD = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"


def document(path: Path, body: str, before: str = "") -> Path:
    """Write a .docx file out of the XML of its body, with something before its outermost element."""
    relation = f'<Relationship Id="a" Type="{_OFFICE}/officeDocument" Target="word/document.xml"/>'
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("_rels/.rels", f"<Relationships>{relation}</Relationships>")
        text = f'{before}<w:document xmlns:w="{_WORD}"><w:body>{body}</w:body></w:document>'
        archive.writestr("word/document.xml", text)
    return path


def entity_bomb(path: Path) -> Path:
    """Write a document whose entities stand for a billion words."""
    entities = '<!ENTITY a "lol">' + "".join(
        f'<!ENTITY {one} "{f"&{before};" * 10}">' for before, one in zip("abcdefgh", "bcdefghi", strict=True)
    )
    return document(path, "<w:p><w:r><w:t>&i;</w:t></w:r></w:p>", f"<!DOCTYPE w:document [{entities}]>")


def file_entity(path: Path) -> Path:
    """Write a document that asks for a file of the machine."""
    declared = '<!DOCTYPE w:document [<!ENTITY x SYSTEM "file:///etc/passwd">]>'
    return document(path, "<w:p><w:r><w:t>&x;</w:t></w:r></w:p>", declared)


def deep_document(path: Path) -> Path:
    """Write a document with elements 50,000 deep."""
    return document(path, "<w:p>" * 50_000 + "</w:p>" * 50_000)


def tables_within_tables(path: Path) -> Path:
    """Write a table within a table within a table, forty times."""
    body = "<w:p/>"
    for _ in range(40):
        body = f"<w:tbl><w:tr><w:tc>{body}</w:tc></w:tr></w:tbl>"
    return document(path, body)


def wide_cells(path: Path) -> Path:
    """Write a table whose cells say that they stretch over a billion columns."""
    cell = '<w:tc><w:tcPr><w:gridSpan w:val="999999999"/></w:tcPr><w:p><w:r><w:t>Thk</w:t></w:r></w:p></w:tc>'
    return document(path, f"<w:tbl>{f'<w:tr>{cell * 30}</w:tr>' * 30}</w:tbl>")


def document_bomb(path: Path) -> Path:
    """Write a document that unpacks to a thousand times its size."""
    return document(path, " " * 120_000_000)


def unending_document(path: Path) -> Path:
    """Write a document that breaks off."""
    whole = document(path, "<w:p/>").read_bytes()
    path.write_bytes(whole[: len(whole) // 2])
    return path
