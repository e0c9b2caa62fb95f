"""How a document asks for a face: by what the font says of itself, as fontTools reads it."""

from io import BytesIO
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from letterfit.lettering.fonts.asking import font_request
from letterfit.lettering.fonts.bundled import BUNDLED, SYMBOLS
from letterfit.lettering.fonts.choice import FontChoice
from letterfit.lettering.fonts.face import Face
from letterfit.lettering.fonts.typeface import open_typeface

VARIABLE = Path(__file__).parents[2] / "data" / "variable" / "Grandstander-wght-latin.woff2"
FACES = [f for name in BUNDLED if name != SYMBOLS for f in open_typeface(name).faces]


@pytest.mark.parametrize("face", FACES, ids=lambda face: face.name)
def test_bundled_faces_are_asked_for_as_their_tables_say(face: Face) -> None:
    """Family of the name table, usWeightClass and the italic bit of OS/2 fsSelection."""
    font = TTFont(BytesIO(face.file.read()))
    asked = font_request(face)
    assert asked.family == font["name"].getBestFamilyName()
    assert asked.weight == font["OS/2"].usWeightClass
    assert asked.italic == bool(font["OS/2"].fsSelection & 1)
    assert asked.width == 100


def test_a_place_on_an_axis_is_asked_for() -> None:
    """The weight is the one that was chosen, not the file's default."""
    pytest.importorskip("brotli")
    faces = open_typeface(FontChoice(str(VARIABLE), axes={"wght": 600})).faces
    assert font_request(faces[0]).weight == 600
    assert len({font_request(face).weight for face in faces}) == len(faces)
