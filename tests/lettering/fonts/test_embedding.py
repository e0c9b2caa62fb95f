"""What fonts say of licence and embedding, by the text of the OpenType specification."""

import io

import pytest
from fontTools.ttLib import TTFont

from letterfit.lettering.fonts.embedding import Permission, embedding, licence, read_fs_type
from letterfit.lettering.fonts.face import Face
from letterfit.lettering.fonts.facts import font_facts
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.settings import Lettering
from letterfit.script.parse import parse_script
from letterfit.stages import preflight
from tests.box_font import box_font
from tests.lettering.hostile_fonts import opened, saved


def stating(bits: int, *, version: int = 4) -> Face:
    """The box font with these bits in OS/2 fsType, written by fontTools."""
    font = TTFont(io.BytesIO(box_font()))
    font["OS/2"].version, font["OS/2"].fsType = version, bits
    return open_typeface(saved(font)).faces[0]


@pytest.mark.parametrize(
    ("bits", "permission"),
    [(0x0000, "installable"), (0x0002, "restricted"), (0x0004, "preview"), (0x0008, "editable")],
)
@pytest.mark.parametrize("version", [1, 2, 3, 4])
def test_the_four_permissions(bits: int, permission: Permission, version: int) -> None:
    """OpenType 1.9.1, OS/2, fsType: the valid values of bits 0 to 3 are 0, 2, 4 and 8."""
    found = embedding(stating(bits, version=version))
    assert (found.permission, found.contradictory) == (permission, False)


@pytest.mark.parametrize(
    ("bits", "old", "new"),
    [
        (0x0006, "preview", "restricted"),
        (0x000A, "editable", "restricted"),
        (0x000C, "editable", "preview"),
        (0x000E, "editable", "restricted"),
    ],
)
def test_several_permissions_at_once(bits: int, old: Permission, new: Permission) -> None:
    """Up to version 2 the least restrictive holds; since version 3 only one may stand."""
    for version in (0, 1, 2):
        found = read_fs_type(bits, version=version)
        assert (found.permission, found.contradictory) == (old, False)
    for version in (3, 4, 5):
        found = read_fs_type(bits, version=version)
        assert (found.permission, found.contradictory) == (new, True)
        assert "contradicts itself" in found.words


def test_the_reserved_bit_says_nothing() -> None:
    """Bit 0 is reserved, and so are bits 4 to 7 and 10 to 15."""
    assert read_fs_type(0xFCF1, version=4) == read_fs_type(0, version=4)


@pytest.mark.parametrize("version", [0, 1, 2, 3, 4])
def test_subsetting_and_bitmaps_since_version_2(version: int) -> None:
    """Bits 8 and 9 came with version 2; before, applications pass over bits 4 to 15."""
    whole, pictures = (read_fs_type(bits, version=version) for bits in (0x0104, 0x0208))
    assert whole.subsetting == (version < 2)
    assert pictures.outlines == (version < 2)
    assert ("not in part" in whole.words) == (version >= 2)
    assert pictures.is_restricted == (version >= 2)


def test_a_font_without_the_table_states_nothing() -> None:
    """That is no permission, and no restriction either."""
    font = opened()
    del font["OS/2"]
    found = embedding(open_typeface(saved(font)).faces[0])
    assert (found.permission, found.is_restricted) == ("unstated", False)
    assert "does not say" in found.words


def test_licence_url_and_owner_are_read_from_the_names() -> None:
    """Names 13, 14 and 0, each in one clean line."""
    font = opened()
    for number, text in ((13, "Ask\nthe \x1b[1mowner."), (14, "https://example.org"), (0, "Wenna")):
        font["name"].setName(text, number, 3, 1, 0x409)
    found = licence(open_typeface(saved(font)).faces[0])
    assert found.text == "Ask the [1mowner."
    assert found.url == "https://example.org"
    assert found.copyright == "Wenna"
    assert font_facts(open_typeface(saved(font))).licence == found


def test_a_restricted_font_is_told_in_the_report_once() -> None:
    """A warning, no misfit: the licence may still allow what is done with it."""
    script = parse_script("PAGE 1\n\nPanel 1. Dawn.\n\nWENNA: Lock's shut!\n")
    font = TTFont(io.BytesIO(box_font()))
    font["OS/2"].fsType = 2
    report = preflight(script, lettering=Lettering(typeface=saved(font)))
    told = [found for found in report.findings if found.code == "restricted-font"]
    assert [found.severity for found in told] == ["warning"]
    assert "Box Regular must not be embedded" in told[0].message
    assert "no legal advice" in told[0].message
    assert report.fits
    free = preflight(script, lettering=Lettering(typeface=stating_free()))
    assert not [found for found in free.findings if found.code == "restricted-font"]


def stating_free() -> bytes:
    """The box font, installable."""
    font = TTFont(io.BytesIO(box_font()))
    font["OS/2"].fsType = 0
    return saved(font)
