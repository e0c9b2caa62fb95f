"""What fonts say of their own measures, with each lie told on purpose."""

import io

import pytest
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

from letterfit.findings import Finding
from letterfit.lettering.fonts.bundled import BUNDLED, SYMBOLS, read_bundled
from letterfit.lettering.fonts.claims import SLACK_EM, font_claims
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from tests.box_font import box_font
from tests.lettering.hostile_fonts import blank_font, opened, saved


def claims(content: bytes) -> dict[str, Finding]:
    """What is odd about a font, by code."""
    return {found.code: found for found in font_claims(open_typeface(content).faces[0])}


def honest() -> TTFont:
    """The box font, saying of itself what is so."""
    font = opened()
    table, head = font["OS/2"], font["hhea"]
    table.version, table.sCapHeight, table.sxHeight, table.fsSelection = 4, 700, 500, 0x40
    table.usWinAscent, table.usWinDescent = 900, 300
    head.ascent, head.descent, head.lineGap = 900, -300, 0
    return font


def test_of_an_honest_font_there_is_nothing_to_tell() -> None:
    """Every claim is held by the ink."""
    assert claims(saved(honest())) == {}


@pytest.mark.parametrize(
    ("field", "units", "code", "message"),
    [
        (
            "sCapHeight",
            760,
            "stated-cap-height",
            "OS/2 says cap height .760, the ink of H is .700.",
        ),
        ("sCapHeight", 0, "stated-cap-height", "OS/2 states no cap height, the ink of H is .700."),
        ("sxHeight", 400, "stated-x-height", "OS/2 says x-height .400, the ink of x is .500."),
        ("sxHeight", -500, "stated-x-height", "OS/2 says x-height -.500, the ink of x is .500."),
    ],
)
def test_heights_are_measured_and_not_believed(
    field: str, units: int, code: str, message: str
) -> None:
    """The lie is told, and the height of the ink is what counts."""
    font = honest()
    setattr(font["OS/2"], field, units)
    face = open_typeface(saved(font)).faces[0]
    assert [found.message for found in font_claims(face)] == [message]
    assert claims(saved(font))[code].severity == "note"
    assert face.cap_height_em == pytest.approx(0.7)
    assert face.x_height_em == pytest.approx(0.5)


def test_an_old_table_states_no_heights() -> None:
    """They came with version 2 of OS/2."""
    font = honest()
    font["OS/2"].version = 1
    assert set(claims(saved(font))) == {"stated-cap-height", "stated-x-height"}


def test_heights_within_the_slack_are_passed_over() -> None:
    """A hundredth of the type size is no lie."""
    font = honest()
    font["OS/2"].sCapHeight = 700 + round(SLACK_EM * 1000) - 1
    assert claims(saved(font)) == {}


@pytest.mark.parametrize("family", [name for name in BUNDLED if name != SYMBOLS])
def test_what_is_told_of_the_bundled_fonts_is_in_their_tables(family: str) -> None:
    """A cap height is told exactly where fontTools reads one that is off by more than the slack."""
    content = read_bundled(BUNDLED[family].path_of("regular"))
    font = TTFont(io.BytesIO(content))
    face = open_typeface(content).faces[0]
    stated = font["OS/2"].sCapHeight / font["head"].unitsPerEm
    told = claims(content).get("stated-cap-height")
    assert (told is not None) == (abs(stated - face.cap_height_em) > SLACK_EM)
    if told:
        assert f"cap height {stated:.3f}".replace("0.", ".") in told.message


def test_two_heights_of_a_line_are_told() -> None:
    """Elsewhere lines may be spaced by "hhea" or by OS/2, typographic or Windows metrics."""
    font = honest()
    font["hhea"].ascent = 1100
    told = claims(saved(font))["two-line-heights"]
    assert told.message == "hhea makes lines 1.400 em high, OS/2 makes them 1.200."
    font["OS/2"].fsSelection |= 0x80
    font["OS/2"].version = 4
    table = font["OS/2"]
    table.sTypoAscender, table.sTypoDescender, table.sTypoLineGap = 1100, -300, 0
    assert "two-line-heights" not in claims(saved(font))


def test_a_stray_contour_is_found_and_is_no_ink() -> None:
    """A line left behind above H: told, and the cap height stays."""
    font = honest()
    pen = TTGlyphPen(None)
    for contour in ([(50, 0), (50, 700), (550, 700), (550, 0)], [(300, 1400), (320, 1400)]):
        pen.moveTo(contour[0])
        for point in contour[1:]:
            pen.lineTo(point)
        pen.closePath()
    font["glyf"]["u0048"] = pen.glyph()
    font["glyf"]["u0048"].recalcBounds(font["glyf"])
    face = open_typeface(saved(font)).faces[0]
    assert claims(saved(font))["stray-contour"].message == "A contour of H encloses nothing."
    assert face.cap_height_em == pytest.approx(0.7)
    assert (
        "U" in claims(read_bundled("ComicRelief/ComicRelief-Regular.ttf"))["stray-contour"].message
    )


def test_letters_without_an_advance_or_of_vast_ink_are_told() -> None:
    """They cannot be mended, so the advice is another file."""
    font = honest()
    font["hmtx"]["u0042"] = (0, 50)
    pen = TTGlyphPen(None)
    pen.moveTo((50, 0))
    for point in ((50, 9000), (550, 9000), (550, 0)):
        pen.lineTo(point)
    pen.closePath()
    font["glyf"]["u0043"] = pen.glyph()
    font["glyf"]["u0043"].recalcBounds(font["glyf"])
    told = claims(saved(font))
    assert told["no-advance"].message.startswith("The advance of B is zero")
    assert told["vast-ink"].message.startswith("The ink of C is more than 4 em")


def test_a_letter_mapped_to_a_blank_glyph_is_missing() -> None:
    """It is told, taken from another face, and reported where it is used."""
    content = blank_font("Bq")
    told = claims(content)["blank-glyph"]
    assert (told.severity, told.message) == (
        "warning",
        "The font maps B q to a glyph without ink.",
    )
    words = measure("ABC", Lettering(typeface=open_typeface(content)))
    assert [found.code for found in words.findings] == ["substituted-glyph"]
    assert [g.face for p in words.pieces for g in p.glyphs][1] == "Balsamiq Sans Regular"


def test_a_blank_space_is_no_blank_glyph() -> None:
    """Spaces and format characters have no ink by nature."""
    assert "blank-glyph" not in claims(box_font())
