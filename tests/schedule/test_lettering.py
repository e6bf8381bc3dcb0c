"""Lettering: struck and raised text as spreadsheet programs write it, in shared strings and in styles."""

from __future__ import annotations

import pytest

from speccheck.schedule.lettering import Lettered, lettered_texts, struck_styles, unseen_styles

SHARED = (
    '<sst xmlns="x" count="5"><si><t>2</t></si>'
    "<si><r><t>2</t></r><r><rPr><vertAlign val='superscript'/></rPr><t>1</t></r></si>"
    '<si><r><rPr><strike/><sz val="11"/></rPr><t xml:space="preserve">1 </t></r><r><t>2</t></r></si>'
    '<si><r><rPr><strike val="0"/><vertAlign val="superscript"/></rPr><t>*</t></r></si>'
    "<si><r><rPr><strike/></rPr><t> </t></r><r><t>3 &amp; up</t></r></si></sst>"
)


def test_texts_of_several_letterings() -> None:
    """A raised figure stays raised, a struck part is seen, a struck blank is nothing, and plain texts are left out."""
    assert lettered_texts(SHARED) == {
        1: Lettered("2¹", False),
        2: Lettered("1 2", True),
        3: Lettered("*", False),
        4: Lettered(" 3 & up", False),
    }


@pytest.mark.parametrize("shared", ["", "<sst/>", "<sst><si><t>strike out</t></si></sst>"])
def test_texts_of_one_lettering(shared: str) -> None:
    """Where nothing is struck or raised there is nothing to tell, whatever the texts speak of."""
    assert lettered_texts(shared) == {}


def test_styles_whose_font_is_struck_through() -> None:
    """Cell styles lead to fonts by number; a font that says that it is not struck is not."""
    styles = (
        '<styleSheet><fonts count="4"><font/><font><strike/></font><font><strike val="false"/></font>'
        '<font><b/><strike val="1"/></font></fonts><cellStyleXfs><xf fontId="1"/></cellStyleXfs>'
        '<cellXfs count="4"><xf fontId="0"/><xf fontId="1"/><xf fontId="2"/><xf fontId="3"/></cellXfs></styleSheet>'
    )
    assert struck_styles(styles) == frozenset({1, 3})
    assert struck_styles("") == frozenset()


def test_styles_in_white_on_white() -> None:
    """White letters are unseen on no ground and on a white one, and seen on a dark one or on a gradient."""
    styles = (
        '<styleSheet><fonts count="4"><font><color theme="1"/></font><font><color rgb="FFFFFFFF"/></font>'
        '<font><color theme="0"/></font><font><color theme="0" tint="-0.5"/></font></fonts>'
        '<fills count="4"><fill><patternFill patternType="none"/></fill>'
        '<fill><patternFill patternType="solid"><fgColor rgb="FF1F3864"/><bgColor indexed="64"/></patternFill></fill>'
        '<fill><patternFill patternType="solid"><fgColor rgb="FFFFFFFF"/></patternFill></fill>'
        '<fill><gradientFill degree="90"/></fill></fills>'
        '<cellXfs count="7"><xf fontId="0" fillId="0"/><xf fontId="1" fillId="0"/><xf fontId="1" fillId="1"/>'
        '<xf fontId="2" fillId="2"/><xf fontId="3" fillId="0"/><xf fontId="1" fillId="3"/><xf fontId="0" fillId="2"/>'
        "</cellXfs></styleSheet>"
    )
    assert unseen_styles(styles) == frozenset({1, 3})
    assert unseen_styles("") == frozenset()
