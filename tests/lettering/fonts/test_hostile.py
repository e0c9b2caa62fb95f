"""Fonts made to harm: each is refused in one line or set like any font, and nothing runs on."""

import contextlib
import random
import struct
from collections.abc import Callable

import pytest

from letterfit.errors import FontError
from letterfit.lettering.fonts.bundled import read_bundled
from letterfit.lettering.fonts.face import glyph_path
from letterfit.lettering.fonts.facts import font_facts
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from tests.box_font import CHARACTERS, box_font
from tests.lettering import hostile_fonts as hostile

TEXT = "Ahoy *THE* office, ffl Á! l'été _tide_ ♫"


def used(content: bytes) -> str:
    """Everything letterfit does with a font; what it is called in the end."""
    opened = open_typeface(content)
    words = measure(TEXT, Lettering(typeface=opened))
    assert words.text
    facts = font_facts(opened)
    for face in opened.faces:
        glyph_path(face, 5)
    return facts.family


@pytest.mark.parametrize(
    ("make", "what"),
    [
        (hostile.all_of_unicode, "is blank"),
        (hostile.more_characters_than_there_are, "1000000 characters"),
        (hostile.bursting_substitution, "without end"),
        (lambda: hostile.blank_font("".join(CHARACTERS.split())), "is blank"),
        (lambda: hostile.axes_font(count=65), "65 axes"),
        (lambda: hostile.axes_font(tag=b"w\x80ht"), "has no name"),
    ],
)
def test_what_no_font_may_claim_is_refused(make: Callable[[], bytes], what: str) -> None:
    """Characters, substitutions, axes beyond measure; a font without any ink."""
    with pytest.raises(FontError, match=what) as caught:
        open_typeface(make())
    assert "\n" not in str(caught.value)
    assert caught.value.advice


@pytest.mark.parametrize(
    "make",
    [
        hostile.million_groups,
        hostile.many_glyphs,
        hostile.looping_composite,
        hostile.bursting_composite,
        hostile.looping_subroutine,
        lambda: hostile.bursting_substitution(rounds=7),
        lambda: hostile.named_font("N" * 16_000),
    ],
)
def test_loops_and_explosions_come_to_an_end(make: Callable[[], bytes]) -> None:
    """What the font can still set is set; letters that loop are taken from another face."""
    assert used(make())


def test_a_letter_that_loops_is_taken_from_another_face() -> None:
    """A composite of itself has no ink: it is missing, and the reader is told."""
    words = measure("ABCD", Lettering(typeface=open_typeface(hostile.looping_composite())))
    assert [finding.code for finding in words.findings] == ["substituted-glyph"]


def test_a_font_with_a_billion_parts_still_measures_its_other_letters() -> None:
    """The box of z is what it always was."""
    face = open_typeface(hostile.bursting_composite()).faces[0]
    assert face.x_height_em == pytest.approx(0.5)


def test_hostile_names_are_cleaned_and_cut() -> None:
    """No line end, escape sequence or direction mark gets out; a long name is cut."""
    assert used(hostile.named_font(hostile.LINE_ENDS)) == "Nib [2J Bold"
    assert len(used(hostile.named_font("N" * 16_000))) == 80


SHORT = box_font(contextual=True)
BASES = {
    "TrueType": SHORT,
    "PostScript": hostile.cff_font(),
    "bundled": read_bundled("Bangers/Bangers-Regular.ttf"),
}


@pytest.mark.parametrize("kept", [0, 1, 3, 4, 5, 11, 12, 13, 27, 100, 300, 1000, 4000, 8000])
def test_fonts_cut_short_are_refused(kept: int) -> None:
    """In the signature, in the directory, in every table."""
    assert kept < len(SHORT)
    with pytest.raises(FontError, match=r"cut short|not a font|is empty"):
        open_typeface(SHORT[:kept])


def mutated(content: bytes, seed: int) -> bytes:
    """The font with bytes overwritten, or its directory, by the seed."""
    chance = random.Random(seed)  # noqa: S311 - the same mutations on every machine
    changed = bytearray(content)
    (count,) = struct.unpack_from(">H", content, 4)
    kind = seed % 3
    if kind == 0:
        for _ in range(chance.choice((1, 3, 10, 40))):
            changed[chance.randrange(len(changed))] = chance.randrange(256)
    elif kind == 1:
        offset, length = struct.unpack_from(">LL", content, 12 + 16 * chance.randrange(count) + 8)
        for _ in range(chance.choice((1, 2, 4))):
            changed[offset + chance.randrange(min(length, 200))] = chance.choice((0, 1, 127, 255))
    else:
        at = 12 + 16 * chance.randrange(count) + chance.choice((8, 12))
        value = chance.choice((0, 4, len(content) - 1, chance.randrange(len(content)), 2**32 - 1))
        struct.pack_into(">L", changed, at, value)
    return bytes(changed)


@pytest.mark.parametrize("base", BASES)
@pytest.mark.parametrize("batch", range(6))
def test_mutated_fonts_are_refused_or_used_but_never_crash(base: str, batch: int) -> None:
    """Bytes anywhere, bytes at the start of a table, tables that overlap or lie elsewhere."""
    refused = 0
    for seed in range(25 * batch, 25 * batch + 25):
        with contextlib.suppress(FontError):
            used(mutated(BASES[base], seed))
            continue
        refused += 1
    assert refused < 25
