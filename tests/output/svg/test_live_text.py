"""Live text: one text a line, in mm, asked for by the font's own name, and read back."""

import re
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

import letterfit as lf
from letterfit.output.svg.live_text import OUTLINED
from tests.output import reports
from tests.output.svg import raster

SCRIPT = lf.parse_script(
    "PAGE 1\n\nPanel 1.\nWENNA: I turned *her* round, and nobody has come to ask why.\n"
    "CAPTION: Lock Nine.\n\nPanel 2.\nPILOT (WHISPER): Open <the> gate & let me in!\n"
    "WENNA (THOUGHT): Not yet.\n"
)
REPORT = lf.preflight(SCRIPT, lettering=lf.Lettering(tracking=0.02))
(PAGE,) = REPORT.pages
LIVE = lf.to_svg(PAGE, text="live")
ROOT = raster.parse(LIVE)
YUSEI = Path(__file__).parents[2] / "data" / "fonts" / "YuseiMagic" / "YuseiMagic-400Regular.ttf"
MM_PER_PT = 25.4 / 72
"""1 pt is 1/72 in (ISO 32000-1, 8.3.2.3)."""


def lines() -> list[tuple[lf.BalloonReport, lf.Line]]:
    """Every line of the page with its balloon, in the file's order."""
    return [(b, line) for panel in PAGE.panels for b in panel.balloons for line in b.fitted.lines]


def texts(root: ET.Element = ROOT) -> list[ET.Element]:
    """The text elements."""
    return [element for element in root.iter() if element.tag.endswith("}text")]


def test_every_line_is_a_text_where_its_outlines_stood() -> None:
    """Its x is the start of its advance, y its baseline, to a micrometre; its words the line's."""
    assert len(texts()) == len(lines())
    for text, (balloon, line) in zip(texts(), lines(), strict=True):
        assert balloon.x_mm is not None
        assert balloon.y_mm is not None
        assert "".join(text.itertext()) == line.text
        assert float(text.attrib["x"]) == pytest.approx(balloon.x_mm + line.x_mm, abs=6e-4)
        assert float(text.attrib["y"]) == pytest.approx(balloon.y_mm + line.baseline_mm, abs=6e-4)
        assert float(text.attrib["letter-spacing"]) == pytest.approx(
            0.02 * balloon.fitted.size_pt * MM_PER_PT, abs=1e-5
        )


def test_sizes_are_the_points_in_mm() -> None:
    """The user unit is a mm: dialogue and the smaller caption each print at their size."""
    sizes = {}
    for panel in PAGE.panels:
        for balloon in panel.balloons:
            group = ROOT.find(f".//*[@id='lettering-{balloon.id}']")
            assert group is not None
            size = float(group.attrib["font-size"])
            assert size == pytest.approx(balloon.fitted.size_pt * MM_PER_PT, abs=1e-5)
            assert group.attrib["font-family"] == "Grandstander"
            sizes[balloon.id] = size
    assert sizes["1.1.2"] < sizes["1.1.1"]


def test_emphasis_and_the_barred_i_are_spans() -> None:
    """Each says only what differs; no white space is added round them."""
    spans = {span.text: span for text in texts() for span in text}
    assert spans["HER"].attrib == {"font-weight": "700", "font-style": "italic"}
    assert spans["I"].attrib == {"style": "font-feature-settings:'ss01'"}
    assert not [text for text in texts() if "\n" in "".join(text.itertext())]


def test_ids_are_unique_and_name_each_part() -> None:
    """Tier, panel, balloon, tail and lettering, the same in both kinds of files."""
    for svg in (LIVE, lf.to_svg(PAGE)):
        root = raster.parse(svg)
        ids = [element.attrib["id"] for element in root.iter() if "id" in element.attrib]
        assert len(ids) == len(set(ids))
        wanted = {"tier-1", "panel-1.1", "balloon-1.1.1", "lettering-1.1.1", "tail-1.1.1"}
        assert wanted | {"lettering-1.1.2", "panel-1.2", "tail-1.2.1"} <= set(ids)
        balloon = root.find(".//*[@id='panel-1.1']/*[@id='balloon-1.1.1']")
        assert balloon is not None
        assert {"lettering-1.1.1", "tail-1.1.1"} <= {part.get("id", "") for part in balloon}


def test_a_tails_axis_is_there_and_not_painted() -> None:
    """It runs from the middle of the root to the tip; the body is part of the outline."""
    tail = PAGE.panels[0].balloons[0].tail
    axis = ROOT.find(".//*[@id='tail-1.1.1']")
    assert tail is not None
    assert axis is not None
    assert (axis.get("fill"), axis.get("stroke")) == ("none", "none")
    end = [float(number) for number in re.findall(r"-?[\d.]+", axis.attrib["d"])[-2:]]
    assert end == pytest.approx([tail.tip.x, tail.tip.y], abs=1e-3)


def test_the_file_holds_no_font_no_comment_and_no_reference() -> None:
    """Open standards alone: one namespace, nothing outside the file."""
    assert "<!--" not in LIVE
    assert re.findall(r"xmlns[:=]", LIVE) == ["xmlns="]
    assert not re.search(r"href|url\((?!#)|@font-face|<style", LIVE)
    assert lf.to_svg(PAGE, text="live") == LIVE


def test_live_pages_read_back() -> None:
    """The reader of drawn pages finds the same words, and air within what kerning decides."""
    planned, existing = lf.measure_page(PAGE), lf.measure_page(lf.parse_drawn_page(LIVE.encode()))
    for one, two in zip(planned.panels, existing.panels, strict=True):
        assert (two.words, two.order, two.faults) == (one.words, one.order, ())
        assert two.coverage == pytest.approx(one.coverage, abs=0.002)
        for mine, theirs in zip(one.balloons, two.balloons, strict=True):
            assert theirs.clearance_mm == pytest.approx(mine.clearance_mm, abs=0.35)


def test_columns_stay_outlines_and_say_so() -> None:
    """Vertical text is drawn, in a group that has a note."""
    lettering = lf.Lettering(
        writing="vertical",
        case="as-typed",
        typeface=YUSEI,
    )
    report = lf.preflight(
        lf.parse_script("PAGE 1\n\nPanel 1.\nWENNA: 水門の灯だ。\n"), lettering=lettering
    )
    root = raster.parse(lf.to_svg(report.pages[0], text="live"))
    assert texts(root) == []
    group = root.find(".//*[@id='lettering-1.1.1']")
    assert group is not None
    assert OUTLINED in "".join(group.itertext())


def test_lines_from_the_right_stand_about_their_middle() -> None:
    """Which is the same place whichever way a program counts."""
    text = "PAGE 1\n\nPanel 1.\nWENNA: השער סגור.\n"
    report = lf.preflight(lf.parse_script(text))
    (balloon,) = report.pages[0].panels[0].balloons
    (found, *_) = texts(raster.parse(lf.to_svg(report.pages[0], text="live")))
    assert (found.get("direction"), found.get("text-anchor")) == ("rtl", "middle")
    line = balloon.fitted.lines[0]
    assert balloon.x_mm is not None
    assert float(found.attrib["x"]) == pytest.approx(
        balloon.x_mm + line.x_mm + line.width_mm / 2, abs=1e-3
    )


def test_hostile_text_stays_text() -> None:
    """Markup is escaped, what XML may not hold is a mark; a way of writing nobody knows is told."""
    words = lf.fit_balloon(reports.NASTY)
    page = reports.small().pages[0]
    first, *others = page.panels
    balloon = replace(first.balloons[0], fitted=words)
    planted = replace(page, panels=(replace(first, balloons=(balloon,)), *others))
    said = "".join(
        "".join(t.itertext()) for t in texts(raster.parse(lf.to_svg(planted, text="live")))
    )
    assert "<&>" in said
    assert "\x1b" not in said
    with pytest.raises(lf.FontError, match="no way to write lettering is called 'paths'"):
        lf.to_svg(page, text="paths")  # type: ignore[arg-type]
