"""Lettering: struck and raised text as spreadsheet programs write it, in shared strings and in styles."""

from __future__ import annotations

import pytest

from speccheck.schedule.formats.package_parts import Events, parse_xml
from speccheck.schedule.formats.rich_text import RichText, SharedTexts
from speccheck.schedule.formats.styles import Styles

SHARED = (
    '<x:sst xmlns:x="x" count="5"><x:si><x:t>2</x:t></x:si>'
    "<x:si><x:r><x:t>2</x:t></x:r><x:r><x:rPr><x:vertAlign val='superscript'/></x:rPr><x:t>1</x:t></x:r></x:si>"
    '<x:si><x:r><x:rPr><x:strike/></x:rPr><x:t xml:space="preserve">1 </x:t></x:r><x:r><x:t>2</x:t></x:r></x:si>'
    '<x:si><x:r><x:rPr><x:strike val="0"/><x:vertAlign val="superscript"/></x:rPr><x:t>*</x:t></x:r></x:si>'
    "<x:si><x:r><x:rPr><x:strike/></x:rPr><x:t> </x:t></x:r><x:r><x:t>3 &amp; up</x:t></x:r>"
    "<x:rPh><x:t>spoken</x:t></x:rPh></x:si><x:si><x:t>a_x000A_b</x:t></x:si></x:sst>"
)


def heard(xml: str, events: Events) -> None:
    """Let a reader hear an XML text."""
    parse_xml(xml.encode(), events, None)  # type: ignore[arg-type]


def test_texts_of_several_letterings() -> None:
    """A raised figure stays raised, a struck part is seen, a struck blank is nothing, how a text is spoken is left out,
    and characters that a workbook writes by their number are put back.
    """
    texts = SharedTexts()
    heard(SHARED, texts)
    assert texts.texts == [
        RichText("2"),
        RichText("2¹"),
        RichText("1 2", True),
        RichText("*"),
        RichText(" 3 & up"),
        RichText("a\nb"),
    ]


@pytest.mark.parametrize(
    ("look", "struck", "unseen"),
    [
        ('fontId="0" fillId="0"', False, False),
        ('fontId="1" fillId="0"', True, False),
        ('fontId="2" fillId="0"', False, False),
        ('fontId="3" fillId="0"', False, True),
        ('fontId="3" fillId="1"', False, False),
        ('fontId="4" fillId="2"', False, True),
        ('fontId="5" fillId="0"', False, False),
        ('fontId="3" fillId="3"', False, False),
        ('fontId="3"', False, True),
    ],
)
def test_styles_lead_to_fonts_and_fills_by_number(look: str, struck: bool, unseen: bool) -> None:
    """A font may be struck, or say that it is not; white letters are unseen on no ground and on a white one, and seen
    on a dark one, on a gradient, and where they are tinted. Fonts of conditional formats have no number.
    """
    styles = Styles()
    heard(
        '<styleSheet><fonts><font/><font><strike/></font><font><strike val="false"/></font>'
        '<font><color rgb="FFFFFFFF"/></font><font><color theme="0"/></font>'
        '<font><color theme="0" tint="-0.5"/></font></fonts>'
        '<fills><fill><patternFill patternType="none"/></fill>'
        '<fill><patternFill patternType="solid"><fgColor rgb="FF1F3864"/><bgColor indexed="64"/></patternFill></fill>'
        '<fill><patternFill patternType="solid"><fgColor rgb="FFFFFFFF"/></patternFill></fill>'
        '<fill><gradientFill degree="90"/></fill></fills><cellStyleXfs><xf fontId="1"/></cellStyleXfs>'
        f"<cellXfs><xf {look}/></cellXfs><dxfs><dxf><font><strike/></font></dxf></dxfs></styleSheet>",
        styles,
    )
    style = styles.styles[0]
    assert (style.struck, style.unseen) == (struck, unseen)
