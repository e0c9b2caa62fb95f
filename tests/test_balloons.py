"""One text in a balloon: what the four calls promise of each other."""

import pytest

from letterfit.balloons import balloon_front, fit_balloon, fit_into
from letterfit.errors import OutlineError
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.settings import Lettering
from letterfit.outline import Ellipse
from tests.box_font import box_font

BOX = Lettering(typeface=open_typeface(box_font()), size_pt=7)


def test_balloon_functions_agree_with_each_other() -> None:
    """The smallest balloon fits its own outline, and not one a twentieth smaller."""
    text = "The tide board says two hours. I say four."
    small = fit_balloon(text, BOX, slack=0)
    assert small.fits
    assert fit_into(text, BOX, outline=small.outline.scaled(1 + 1e-9)).fits
    over = fit_into(text, BOX, outline=small.outline.scaled(0.95)).overflow
    assert over is not None
    assert over.words >= 1
    areas = [shape.area_mm2 for shape in balloon_front(text, BOX)]
    assert min(areas) >= small.area_mm2 * (1 - 1e-9)
    assert fit_into(text, BOX, outline=Ellipse(half_width=60, half_height=40)).fits


def test_lines_are_broken_as_asked() -> None:
    """By total fit unless asked otherwise; a way nobody knows is refused."""
    text, roomy = (
        "The tide board says two hours. I say four.",
        Ellipse(half_width=30, half_height=20),
    )
    total = fit_into(text, BOX, outline=roomy)
    assert fit_into(text, BOX, outline=roomy, breaks="total-fit") == total
    first = fit_into(text, BOX, outline=roomy, breaks="first-fit")
    assert first.fits
    assert first.lines != total.lines
    with pytest.raises(OutlineError, match="give one of total-fit, first-fit"):
        fit_into(text, BOX, outline=roomy, breaks="best-fit")  # type: ignore[arg-type]
