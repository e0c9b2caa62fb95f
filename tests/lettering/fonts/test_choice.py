"""Choices within a font file: faces of a collection, instances and axes of a variable font."""

import io
import json
import pickle
import shutil
import subprocess
from pathlib import Path

import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.ttLib import TTCollection, TTFont
from fontTools.ttLib.tables.TupleVariation import TupleVariation
from fontTools.varLib.instancer import instantiateVariableFont

from letterfit.errors import FontError
from letterfit.lettering.fonts.choice import FontChoice
from letterfit.lettering.fonts.contents import Axis
from letterfit.lettering.fonts.typeface import Typeface, open_typeface
from letterfit.lettering.fonts.variable import further_settings, own_settings
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from tests.box_font import box_font

VARIABLE = Path(__file__).parents[2] / "data" / "variable" / "Grandstander-wght-latin.woff2"
TEXT = "THE TIDE TURNED AN HOUR AGO, AVA; TO LY."


@pytest.fixture(scope="module")
def unpacked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The variable font as .ttf, unpacked by fontTools."""
    font = TTFont(VARIABLE)
    font.flavor = None
    path = tmp_path_factory.mktemp("variable") / "grandstander.ttf"
    font.save(path)
    return path


def axes_font() -> bytes:
    """The box font with weight, width and slant: A grows by 100 with weight, by 200 with width."""
    font = TTFont(io.BytesIO(box_font()))
    builder = FontBuilder(font=font)
    axes = [("wght", 100, 300, 900), ("wdth", 75, 100, 125), ("slnt", -12, 0, 0)]
    instances = [
        {"location": {"wght": 600, "wdth": 100, "slnt": 0}, "stylename": "Semi Bold"},
        {"location": {"wght": 300, "wdth": 125, "slnt": -12}, "stylename": "Wide Italic"},
    ]
    builder.setupFvar([(*axis, axis[0]) for axis in axes], instances)
    wider = {"wght": 100, "wdth": 200}
    builder.setupGvar(
        {
            "u0041": [
                TupleVariation(
                    {tag: (0.0, 1.0, 1.0)}, [(0, 0)] * 4 + [(0, 0), (by, 0), (0, 0), (0, 0)]
                )
                for tag, by in wider.items()
            ]
        }
    )
    stream = io.BytesIO()
    font.save(stream)
    return stream.getvalue()


def width(typeface: Typeface, text: str = TEXT) -> float:
    """The width of a line in em."""
    lettering = Lettering(typeface=typeface, size_pt=10)
    words = measure(text, lettering)
    return words.line(0, len(words) - 1).width_mm / lettering.em_mm


@pytest.mark.parametrize("weight", [400, 700])
def test_a_variable_font_at_a_weight_measures_as_its_static_font(weight: int) -> None:
    """The bundled Regular and Bold are instances of this font's version 1.200, kerning and all."""
    static = {400: "Regular", 700: "Bold"}[weight]
    bundled = open_typeface("Grandstander").face(f"Grandstander {static}")
    alone = Typeface("Static", (bundled,))
    varied = open_typeface(FontChoice(VARIABLE, axes={"wght": weight}))
    assert width(varied) == pytest.approx(width(alone), abs=1e-9)
    assert varied.faces[0].cap_height_em == pytest.approx(bundled.cap_height_em, abs=0.001)


def test_advances_are_those_of_an_instance_made_by_another_program(unpacked: Path) -> None:
    """An instance by fontTools rounds to units: we are within half a unit, at any weight."""
    instance = instantiateVariableFont(TTFont(unpacked), {"wght": 555})
    face = open_typeface(FontChoice(unpacked, axes={"wght": 555})).faces[0]
    cmap, upem = instance.getBestCmap(), instance["head"].unitsPerEm
    for char in "AIMQgw.&é":
        stated = instance["hmtx"][cmap[ord(char)]][0]
        assert face.advance_em(char) * upem == pytest.approx(stated, abs=0.51), char


def test_widths_are_those_of_another_build_of_the_shaper(unpacked: Path) -> None:
    """`hb-shape --variations` sums to the same line, where it is installed."""
    program = shutil.which("hb-shape")
    if program is None:
        pytest.skip("hb-shape is not installed (Debian libharfbuzz-bin)")
    command = [program, "--variations=wght=650", "--output-format=json", "--script=latn"]
    shaped = subprocess.run(  # noqa: S603 - a fixed command on our own file
        [*command, "--language=en", "--direction=ltr", str(unpacked), TEXT],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    total = sum(glyph["ax"] for glyph in json.loads(shaped.stdout))
    ours = width(open_typeface(FontChoice(unpacked, axes={"wght": 650})))
    assert ours * TTFont(unpacked)["head"].unitsPerEm == pytest.approx(total, abs=0.51 * len(TEXT))


def test_a_named_instance_is_its_place_on_the_axes() -> None:
    """Case, spaces and hyphens are forgiven."""
    named = open_typeface(FontChoice(VARIABLE, instance="semi-bold"))
    assert named.faces == open_typeface(FontChoice(VARIABLE, axes={"wght": 600})).faces
    assert named.faces[0].variations == (("wght", 600.0),)


def test_the_text_weight_of_a_font_whose_default_is_thin_is_regular() -> None:
    """Nobody letters in a hairline because a file begins with it; nor is the family named so."""
    opened = open_typeface(VARIABLE)
    assert opened.family == "Grandstander"
    assert [(face.style, face.variations) for face in opened.faces] == [
        ("regular", (("wght", 400.0),)),
        ("bold", (("wght", 700.0),)),
    ]


def test_a_weight_that_was_chosen_is_the_regular_and_its_bold_is_heavier() -> None:
    """Emphasis still stands out; where the axis ends there is no bold."""
    chosen = open_typeface(FontChoice(VARIABLE, axes={"wght": 600}))
    assert {face.style: dict(face.variations)["wght"] for face in chosen.faces} == {
        "regular": 600.0,
        "bold": 800.0,
    }
    assert open_typeface(FontChoice(VARIABLE, axes={"wght": 900})).styles == ("regular",)


def test_axes_go_before_those_of_the_instance() -> None:
    """What both say is what the axes say; what is left stays at the default."""
    face = open_typeface(FontChoice(axes_font(), instance="Wide Italic", axes={"wdth": 110})).faces[
        0
    ]
    assert face.variations == (("slnt", -12.0), ("wdth", 110.0))
    assert face.style == "italic"
    assert face.advance_em("A") == pytest.approx(0.6 + 0.2 * 10 / 25, abs=0.0006)


def test_a_slanting_axis_gives_the_italics() -> None:
    """All four styles out of one file; a value that was chosen holds in each."""
    opened = open_typeface(FontChoice(axes_font(), axes={"wdth": 75}))
    assert opened.styles == ("regular", "bold", "italic", "bold italic")
    assert all(("wdth", 75.0) in face.variations for face in opened.faces)
    assert ("slnt", -12.0) in opened.styled("bold italic").variations


@pytest.mark.parametrize(
    ("axis", "own", "bold"),
    [
        (Axis("wght", "", 100, 100, 900), 400, 700),
        (Axis("wght", "", 300, 400, 650), 400, 650),
        (Axis("wght", "", 500, 500, 1000), 500, 700),
        (Axis("wght", "", 300, 400, 500), 400, None),
        (Axis("wght", "", 700, 800, 900), 700, 900),
    ],
)
def test_regular_and_bold_stand_where_the_axis_lets_them(
    axis: Axis, own: float, bold: float | None
) -> None:
    """Regular is 400 or the nearest to it, bold 700 and at least a hundred heavier."""
    settings = dict(own_settings([axis], {}))
    assert settings.get("wght", axis.default) == own
    found = [
        dict(more).get("wght", axis.default)
        for _, more in further_settings([axis], {}, italic=False)
    ]
    assert found == ([] if bold is None else [bold])


def collection() -> bytes:
    """A collection of two styles of Box, and of another family."""
    fonts = [box_font(), box_font(style="Bold"), box_font(family="Other", style="Italic")]
    file = TTCollection()
    file.fonts = [TTFont(io.BytesIO(font)) for font in fonts]
    stream = io.BytesIO()
    file.save(stream)
    return stream.getvalue()


def test_a_face_of_a_collection_is_chosen_by_its_number() -> None:
    """Counted from 0, whatever family it is of."""
    opened = open_typeface(FontChoice(collection(), index=2))
    assert (opened.family, opened.styles) == ("Other", ("italic",))
    assert [face.index for face in opened.faces] == [2]


def test_choices_stand_wherever_fonts_do() -> None:
    """In a list, under a style, and in the fallback."""
    light, heavy = (FontChoice(VARIABLE, axes={"wght": weight}) for weight in (300, 800))
    listed = open_typeface([light, heavy])
    named = open_typeface({"regular": heavy, "bold": light})
    assert [dict(face.variations)["wght"] for face in listed.faces] == [300, 800]
    assert [dict(face.variations)["wght"] for face in named.faces] == [800, 300]
    late = open_typeface(box_font(characters="AB"), fallback=[FontChoice(collection(), index=2)])
    assert late.fallback[0].family == "Other"


def test_a_style_said_of_a_variable_font_or_a_collection_is_looked_for_in_it() -> None:
    """The same file under two styles gives each its own face."""
    for file in (axes_font(), collection()):
        opened = open_typeface({"regular": file, "bold": file})
        assert opened.styles == ("regular", "bold")
        assert (
            opened.faces[0].variations != opened.faces[1].variations or opened.faces[1].index == 1
        )


def test_two_choices_of_one_style_are_not_confused() -> None:
    """Neither is dropped in silence."""
    with pytest.raises(FontError, match="two fonts are both regular"):
        open_typeface([FontChoice(VARIABLE, axes={"wght": weight}) for weight in (300, 400)])


@pytest.mark.parametrize(
    ("choice", "what"),
    [
        (FontChoice(VARIABLE, axes={"wght": 901}), "wght goes from 100 to 900, not to 901"),
        (FontChoice(VARIABLE, axes={"wdth": 90}), "no axis 'wdth'; it has wght 100 to 900"),
        (FontChoice(VARIABLE, instance="Heavy"), "no named instance 'Heavy'; choose from Thin"),
        (FontChoice(VARIABLE, index=1), "no face 1; choose from 0 Grandstander"),
        (FontChoice(VARIABLE, index=-1), "no face -1"),
        (FontChoice(box_font(), axes={"wght": 400}), "not a variable font"),
        (FontChoice(box_font(), instance="Bold"), "no named instance 'Bold'; it has none"),
        (FontChoice("Bangers", index=0), "is a bundled family"),
        (FontChoice("nowhere.ttf"), "no typeface or font file is called 'nowhere.ttf'"),
    ],
)
def test_what_a_font_has_not_cannot_be_chosen(choice: FontChoice, what: str) -> None:
    """The error says what there is."""
    with pytest.raises(FontError, match=what):
        open_typeface(choice)


@pytest.mark.parametrize("value", [float("nan"), float("inf"), True, "600", None])
def test_a_value_on_an_axis_is_a_number(value: object) -> None:
    """Refused when the choice is made, before any file is read."""
    with pytest.raises(FontError, match="give a number"):
        FontChoice(VARIABLE, axes={"wght": value})  # type: ignore[dict-item]


def test_a_choice_is_made_within_a_file_by_a_whole_number() -> None:
    """A family, a list or half a face is none."""
    with pytest.raises(FontError, match="cannot be chosen from list"):
        FontChoice([VARIABLE])  # type: ignore[arg-type]
    with pytest.raises(FontError, match="no number of a face"):
        FontChoice(VARIABLE, index=0.5)  # type: ignore[arg-type]


def test_a_choice_is_a_value() -> None:
    """Equal, hashable and sent to other processes; the order of axes does not matter."""
    one = FontChoice("a.ttf", axes={"wght": 600, "wdth": 90})
    other = FontChoice("a.ttf", axes={"wdth": 90, "wght": 600})
    assert one == other
    assert len({one, other}) == 1
    assert pickle.loads(pickle.dumps(one)) == one  # noqa: S301 - what we have just pickled
