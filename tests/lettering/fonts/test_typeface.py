"""Opening typefaces: by name, path, bytes and several styles; fallback; what cannot be opened."""

import concurrent.futures
import contextlib
import io
import pickle
from pathlib import Path

import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.ttLib import TTCollection, TTFont
from fontTools.ttLib.tables.TupleVariation import TupleVariation

from letterfit.errors import FontError
from letterfit.lettering.fonts.bundled import BUNDLED, fonts_folder
from letterfit.lettering.fonts.typeface import Typeface, open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from tests.box_font import box_font, broken_font


@pytest.mark.parametrize(
    ("name", "family"),
    [
        ("Grandstander", "Grandstander"),
        ("comic neue", "Comic Neue"),
        ("COMICNEUE", "Comic Neue"),
        ("balsamiq-sans", "Balsamiq Sans"),
        ("Comic  Relief ", "Comic Relief"),
        ("bangers", "Bangers"),
    ],
)
def test_bundled_families_open_by_a_forgiving_name(name: str, family: str) -> None:
    """Case, spaces and hyphens do not matter."""
    assert open_typeface(name).family == family


def test_every_bundled_face_is_what_its_table_says() -> None:
    """Family and style stated in each bundled file are those it is listed under."""
    for family in BUNDLED.values():
        for style in family.styles:
            opened = open_typeface(fonts_folder() / family.path_of(style))
            assert (opened.family, opened.styles) == (family.name, (style,))


@pytest.mark.parametrize("style", ["Regular", "Bold", "Italic", "Bold Italic"])
def test_the_style_is_read_from_the_font(style: str) -> None:
    """A user's font says itself which style it is."""
    face = open_typeface(box_font(style=style)).faces[0]
    assert face.style == style.lower()
    assert face.name == f"Box {style}"


def test_a_font_that_states_its_weight_only_in_its_name_is_bold_all_the_same() -> None:
    """Free fonts are often careless with OS/2: one sign of boldness is enough."""
    font = TTFont(io.BytesIO(box_font(style="Bold")))
    font["OS/2"].usWeightClass = 400
    stream = io.BytesIO()
    font.save(stream)
    assert open_typeface(stream.getvalue()).styles == ("bold",)


def test_several_styles_make_one_family(tmp_path: Path) -> None:
    """As a sequence the fonts say their styles, as a mapping the caller does; paths or bytes."""
    path = tmp_path / "box.ttf"
    path.write_bytes(box_font())
    listed = open_typeface([path, box_font(style="Italic")])
    named = open_typeface({"regular": str(path), "bold": box_font(family="Other")})
    assert listed.styles == ("regular", "italic")
    assert named.styles == ("regular", "bold")
    assert [face.family for face in named.faces] == ["Box", "Box"]


def test_a_missing_style_is_taken_from_the_nearest() -> None:
    """Weight goes before slant."""
    full = open_typeface([box_font(style=s) for s in ("Regular", "Bold", "Italic")])
    assert full.styled("bold italic").style == "bold"
    upright = open_typeface([box_font(style=s) for s in ("Regular", "Italic")])
    assert upright.styled("bold italic").style == "italic"
    assert upright.styled("bold").style == "regular"
    assert not upright.has("bold")


def test_a_collection_gives_all_styles_of_its_family() -> None:
    """The faces of one file that share a family are its styles; other families are left."""
    collection = TTCollection()
    fonts = [box_font(), box_font(style="Bold"), box_font(family="Other", style="Italic")]
    collection.fonts = [TTFont(io.BytesIO(font)) for font in fonts]
    stream = io.BytesIO()
    collection.save(stream)
    opened = open_typeface(stream.getvalue())
    assert opened.styles == ("regular", "bold")
    assert [face.index for face in opened.faces] == [0, 1]


def variable_font() -> bytes:
    """The box font with a weight axis along which A grows by 100 units of advance."""
    font = TTFont(io.BytesIO(box_font()))
    builder = FontBuilder(font=font)
    builder.setupFvar([("wght", 400, 400, 700, "Weight")], [])
    wider = [(0, 0)] * 4 + [(0, 0), (100, 0), (0, 0), (0, 0)]
    builder.setupGvar({"u0041": [TupleVariation({"wght": (0.0, 1.0, 1.0)}, wider)]})
    stream = io.BytesIO()
    font.save(stream)
    return stream.getvalue()


def test_a_variable_font_has_its_bold() -> None:
    """Regular is the default weight, bold is 700, each with its own advances."""
    opened = open_typeface(variable_font())
    assert opened.styles == ("regular", "bold")
    assert opened.styled("regular").advance_em("A") == 0.6
    assert opened.styled("bold").advance_em("A") == 0.7


def test_fallback_goes_from_the_users_fonts_to_the_bundled() -> None:
    """Each character comes from the first family of the chain that has it."""
    letters = box_font(characters=" ABC")
    opened = open_typeface(letters, fallback=[box_font(characters="XYZ", family="Late")])
    words = measure("ABZ Ж Ω ♫", Lettering(typeface=opened))
    glyphs = [glyph for piece in words.pieces for glyph in piece.glyphs if glyph.glyph_id != 1]
    families = [opened.face(glyph.face).family for glyph in glyphs]  # glyph 1: the space
    assert families == ["Box", "Box", "Late", "Balsamiq Sans", "Balsamiq Sans", "Letterfit Symbols"]


def test_names_of_faces_are_never_shared() -> None:
    """A user's font that bears a bundled family's name keeps it, the bundled one is renamed."""
    opened = open_typeface(box_font(family="Balsamiq Sans", characters="AB"))
    names = [face.name for family in (opened, *opened.fallback) for face in family.faces]
    assert len(set(names)) == len(names)
    assert opened.face("Balsamiq Sans Regular").file == opened.faces[0].file
    words = measure("Ж", Lettering(typeface=opened))
    assert opened.face(words.pieces[0].glyphs[0].face).file.key.startswith("BalsamiqSans/")


def test_a_family_is_not_its_own_fallback() -> None:
    """The chain holds no family twice."""
    chain = open_typeface("Balsamiq Sans", fallback=["Comic Relief"]).fallback
    assert [family.family for family in chain] == [
        "Comic Relief",
        "Letterfit Symbols",
        "Grandstander",
    ]


def _measured(face: Typeface) -> list[float]:
    return [
        piece.width_mm for piece in measure("Ahoy, *the* lock Ж", Lettering(typeface=face)).pieces
    ]


def test_typefaces_go_to_other_processes() -> None:
    """A pickled typeface measures the same there; a bundled one carries no font bytes."""
    bundled, own = open_typeface("Grandstander"), open_typeface(box_font())
    assert len(pickle.dumps(bundled)) < 10_000
    assert pickle.loads(pickle.dumps(own)) == own  # noqa: S301 - what we have just pickled
    with concurrent.futures.ProcessPoolExecutor(1) as pool:
        for face in (bundled, own):
            assert pool.submit(_measured, face).result() == _measured(face)


@pytest.mark.parametrize(
    ("content", "what"),
    [
        (b"", "is empty"),
        (b"PAGE ONE (four panels)", "not a font"),
        (b"wOF2" + bytes(100), "web font"),
        (b"\0\1\0\0", "cut short"),
        (b"\0\1\0\0\0\0" + bytes(20), "has no cmap"),
        (b"ttcf" + bytes(4), "cut short"),
        (b"ttcf\0\1\0\0\0\0\0\1\0\0\0\x10" + bytes(40), "not a font"),
        (broken_font(), "cut short"),
    ],
)
def test_what_is_no_font_is_refused_in_one_line(content: bytes, what: str) -> None:
    """Broken, empty and foreign files are errors that say what and what to do."""
    with pytest.raises(FontError, match=what) as caught:
        open_typeface(content)
    assert "\n" not in str(caught.value)
    assert caught.value.advice


def test_a_font_without_any_glyph_of_text_is_refused() -> None:
    """Tables alone do not make a font: one that maps no character cannot be measured."""
    font = TTFont(io.BytesIO(box_font()))
    for table in font["cmap"].tables:
        table.cmap = {}
    stream = io.BytesIO()
    font.save(stream)
    with pytest.raises(FontError):
        open_typeface(stream.getvalue())


def test_a_huge_file_is_not_read(tmp_path: Path) -> None:
    """A file beyond the limit is refused by its size; it takes no room on disk here."""
    path = tmp_path / "huge.ttf"
    for size, said in ((64 * 2**20, "this is not a font"), (64 * 2**20 + 1, "more than 64 MB")):
        with path.open("wb") as file:
            file.truncate(size)
        with pytest.raises(FontError, match=said):
            open_typeface(path)


@pytest.mark.parametrize("source", ["No Such Family", "nowhere/at/all.ttf", "a\0b", "x" * 5000])
def test_an_unknown_name_lists_the_families(source: str) -> None:
    """The advice names what there is."""
    with pytest.raises(FontError, match="Grandstander, Comic Neue"):
        open_typeface(source)


def test_folders_and_devices_are_no_fonts(tmp_path: Path) -> None:
    """Only plain files are read."""
    for path in (tmp_path, Path("/dev/zero")):
        with pytest.raises(FontError):
            open_typeface(path)


def test_two_fonts_of_one_style_and_no_fonts_are_refused() -> None:
    """The caller is told to say which is which."""
    with pytest.raises(FontError, match="both regular"):
        open_typeface([box_font(), box_font(family="Other")])
    with pytest.raises(FontError, match="no font is given"):
        open_typeface([])
    with pytest.raises(FontError, match="no style is called"):
        open_typeface({"heavy": box_font()})  # type: ignore[dict-item]
    with pytest.raises(FontError, match="cannot be opened from int"):
        open_typeface(7)  # type: ignore[arg-type]
    with pytest.raises(FontError, match="no face called"):
        open_typeface("Bangers").face("Bangers Bold")


@pytest.mark.parametrize("seed", range(40))
def test_damaged_fonts_are_refused_or_measured_but_never_crash(seed: int) -> None:
    """Bytes overwritten anywhere in a font give an error or some widths."""
    content = bytearray(box_font(contextual=True))
    for k in range(12):
        content[(seed * 7919 + k * 104_729) % len(content)] ^= 1 + (seed * 31 + k * 17) % 255
    with contextlib.suppress(FontError):
        opened = open_typeface(bytes(content))
        assert measure("AB *TIDE* Q.", Lettering(typeface=opened)).text == "AB TIDE Q."
