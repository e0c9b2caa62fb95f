"""Vertical_Orientation against Unicode's own file.

Source: VerticalOrientation-15.0.0.txt of the Unicode Character Database, as in Debian's
`unicode-data` 15.0.0, packed in tests/data/unicode/.
"""

import lzma
from pathlib import Path

from letterfit.lettering.vertical.orientation import orientation

FILE = Path(__file__).parents[2] / "data" / "unicode" / "VerticalOrientation-15.0.0.txt.xz"


def published() -> list[str]:
    """The property of every code point; R where the file says nothing (its @missing line)."""
    values = ["R"] * 0x110000
    for line in lzma.decompress(FILE.read_bytes()).decode("utf-8").splitlines():
        stretch, _, value = line.partition("#")[0].partition(";")
        if value:
            first, _, last = stretch.strip().partition("..")
            start, end = int(first, 16), int(last or first, 16) + 1
            values[start:end] = [value.strip()] * (end - start)
    return values


def test_the_table_equals_the_whole_published_file() -> None:
    """All 1,114,112 code points have the orientation that Unicode gives them."""
    wanted = published()
    wrong = [code for code, value in enumerate(wanted) if orientation(chr(code)) != value]
    assert set(wanted) == {"R", "U", "Tr", "Tu"}
    assert wrong == []


def test_what_a_letterer_of_japanese_knows_of_them() -> None:
    """Kanji and kana stand, Latin, dash and dots lie; brackets, ー, small kana, 、 。 have forms.

    Common practice, no source.
    """
    assert {orientation(char) for char in "潮門あアＡ１〇♪♥"} == {"U"}
    assert {orientation(char) for char in "Aa1é—―…‥!?"} == {"R"}
    assert {orientation(char) for char in "「」『』（）ー〜："} == {"Tr"}
    assert {orientation(char) for char in "、。！？っャ"} == {"Tu"}
