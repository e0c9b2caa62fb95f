"""A set line as live text: shaped again by its own face, a reader gets the glyphs that we drew."""

import uharfbuzz as hb
from hypothesis import given, settings
from hypothesis import strategies as st

from letterfit.lettering.fonts.face import Face, engine
from letterfit.lettering.live_runs import LiveRun, live_runs
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.style.crossbar import crossbar_feature
from letterfit.lettering.words import SetLine

PLAIN = Lettering()
WORDS = st.lists(
    st.sampled_from(
        [
            "I",
            "I'll",
            "*turn*",
            "**the** gate",
            "_Wenna's_ eels",
            "AV",
            "ТИХО",
            "un\u00adusual",
            "?!",
        ]
    ),
    min_size=1,
    max_size=6,
).map(" ".join)


def line_of(text: str, lettering: Lettering = PLAIN) -> SetLine:
    """The whole text on one line."""
    words = measure(text, lettering)
    return words.line(0, len(words) - 1)


def runs_of(line: SetLine, lettering: Lettering = PLAIN) -> tuple[LiveRun, ...]:
    """The runs of a line."""
    own, crossbar = lettering.typeface.family, lettering.habits.crossbar
    return live_runs(
        line.text.replace("\u00ad", ""),
        line.glyphs,
        face_of=lettering.typeface.face,
        crossbar_of=lambda face: crossbar_feature(face.family, own=own, crossbar=crossbar),
    )


def reader(run: LiveRun) -> list[tuple[str, int]]:
    """The glyphs with ink that HarfBuzz makes of a run, knowing its characters and font alone."""
    buffer = hb.Buffer()
    buffer.add_str(run.text)
    buffer.guess_segment_properties()
    known = engine(run.face)
    known.shape(buffer, {run.feature: True} if run.feature else None)
    return [
        (run.face.name, info.codepoint) for info in buffer.glyph_infos if _has_ink(run.face, info)
    ]


def _has_ink(face: Face, info: hb.GlyphInfo) -> bool:
    extents = engine(face).font.get_glyph_extents(info.codepoint)
    return extents is not None and extents.width != 0


@settings(max_examples=60)
@given(text=WORDS)
def test_a_reader_gets_the_same_glyphs(text: str) -> None:
    """Emphasis, the crossbar I, letters of another face, a soft hyphen: glyph for glyph."""
    line = line_of(text)
    runs = runs_of(line)
    assert "".join(run.text for run in runs) == line.text.replace("\u00ad", "")
    again = [glyph for run in runs for glyph in reader(run)]
    assert again == [(glyph.face, glyph.glyph_id) for glyph in line.glyphs]


def test_the_barred_i_is_asked_for_by_its_feature() -> None:
    """Grandstander keeps it in ss01; only the pronoun gets it."""
    told = [(run.text, run.feature) for run in runs_of(line_of("I think it is"))]
    assert told == [("I", "ss01"), (" THINK IT IS", None)]


def test_a_space_beside_emphasis_is_the_lines_own() -> None:
    """The marks stand at the word, so the space is not in them."""
    told = [(run.text, run.face.style) for run in runs_of(line_of("shut **the gate** now"))]
    assert told == [("SHUT ", "regular"), ("THE GATE", "bold italic"), (" NOW", "regular")]


def test_a_line_that_ends_at_a_soft_hyphen_shows_it() -> None:
    """The hyphen is the line's own character."""
    words = measure("un\u00adusual", PLAIN)
    line = words.line(0, 0)
    assert "".join(run.text for run in runs_of(line)) == "UN-"


def test_glyphs_of_nobody_knows_what_make_no_text() -> None:
    """Nothing is guessed: such a line is drawn."""
    line = line_of("Shut it")
    blind = [glyph._replace(at=-1) for glyph in line.glyphs]
    assert (
        live_runs("SHUT IT", blind, face_of=PLAIN.typeface.face, crossbar_of=lambda _: None) == ()
    )
    assert live_runs("", [], face_of=PLAIN.typeface.face, crossbar_of=lambda _: None) == ()
