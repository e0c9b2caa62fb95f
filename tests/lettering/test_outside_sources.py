"""The test fonts are what `tests/data/fonts/SOURCES.json` says, under a licence that allows it."""

import hashlib
import io
import json

import pytest
from fontTools.ttLib import TTFont

from tests.lettering.outside import ROOT

FONTS = ROOT / "tests" / "data" / "fonts"

SOURCES: list[dict[str, str]] = json.loads((FONTS / "SOURCES.json").read_text(encoding="utf-8"))


def test_every_test_font_has_its_source() -> None:
    """No font without a source, no source without a font."""
    files = {path.relative_to(FONTS).as_posix() for path in FONTS.rglob("*.ttf")}
    assert files == {source["file"] for source in SOURCES}


@pytest.mark.parametrize("source", SOURCES, ids=lambda source: source["file"])
def test_a_test_font_is_the_one_described_and_may_be_cut_down(source: dict[str, str]) -> None:
    """Its bytes are those named; OFL 1.1 beside it reserves no name; it may be embedded."""
    content = (FONTS / source["file"]).read_bytes()
    assert hashlib.sha256(content).hexdigest() == source["sha256"]
    assert len(content) < 100_000
    licence = (FONTS / source["file"]).with_name("OFL.txt").read_text(encoding="utf-8")
    assert "SIL Open Font License, Version 1.1" in licence
    assert "with Reserved Font Name" not in licence.partition("-----")[0]
    font = TTFont(io.BytesIO(content))
    names = " ".join(str(record) for record in font["name"].names)
    assert "Reserved Font Name" not in names
    assert "SIL Open Font License" in names
    assert font["OS/2"].fsType == 0
