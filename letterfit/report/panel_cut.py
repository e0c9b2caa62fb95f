"""The least number of words to take out of one panel of a given size, asked for by itself."""

from collections.abc import Sequence

from letterfit.cuts.model import LeastWords
from letterfit.errors import OutlineError
from letterfit.geometry import Rect
from letterfit.lettering.settings import Lettering
from letterfit.place.model import Reading
from letterfit.report.case import Case
from letterfit.report.cuts import can_be_cut, whole_cut
from letterfit.report.limits import Limits
from letterfit.report.manner import Outlines
from letterfit.report.menus import menus_of
from letterfit.report.overflow import MOST_BALLOONS
from letterfit.report.panel import PanelJob
from letterfit.report.setting import SameSpeaker, Setting
from letterfit.report.shortened import Shortened
from letterfit.script.model import ScriptPanel


def least_panel_cut(  # noqa: PLR0913 - keyword-only
    panel: ScriptPanel,
    rect: Rect,
    *,
    lettering: Lettering | None = None,
    outline: str | Outlines = "ellipse",
    limits: Limits | None = None,
    reading: Reading = "ltr",
    language: str = "en",
    names: Sequence[str] = (),
    same_speaker: SameSpeaker = "linked",
    butted: bool = False,
) -> LeastWords:
    r"""The least number of words to take out of a panel so that it is placed under its limits.

    Its limits are those of words in a panel and of the share of it under lettering. Every balloon
    keeps a word.

    Args:
        panel: The panel of the script.
        rect: Its place and size in mm.
        lettering: How it is lettered; None is the bundled default.
        outline: The family of speech balloons; or `Outlines`, one for each manner of speaking.
        limits: None is common practice.
        reading: "ltr" or "rtl".
        language: Of the script, a BCP 47 code.
        names: Of the speakers, which proposals leave alone.
        same_speaker: As in `preflight`.
        butted: As in `preflight`.

    Returns:
        Both bounds, 0 where the panel is right as it is; the cuts that do, lettered and placed
        again; and what each balloon gives alone. Where the bounds differ the search came to the end
        of its budget, or placing found no layout and no proof that there is none.

    Raises:
        OutlineError: When a text is too long for any balloon, or the panel has over 16 balloons.
        PageError, FontError: When a setting cannot be used.

    >>> from letterfit import parse_script
    >>> page = "PAGE 1\n\nPanel 1. A gate.\n\nWENNA: Well, the gate is shut. Nobody can come in."
    >>> (panel,) = parse_script(page).pages[0].panels
    >>> least = least_panel_cut(panel, Rect(0, 0, 28, 20))
    >>> least.at_least, least.at_most, least.gives[0].alone
    (2, 2, 2)
    """
    chosen = lettering or Lettering()
    setting = Setting(
        lettering=chosen,
        effects=chosen,
        outlines=Outlines(speech=outline) if isinstance(outline, str) else outline,
        limits=limits or Limits(),
        reading=reading,
        language=language,
        names=tuple(names),
        same_speaker=same_speaker,
        butted=butted,
    )
    job = PanelJob(panel=panel, rect=rect, id="1")
    return _least(job.case(menus_of(job.spots(), setting), setting), rect.area_mm2)


def _least(case: Case, area_mm2: float) -> LeastWords:
    """The same of a panel of that area whose balloons are set."""
    if not case.menus:
        return LeastWords(at_least=0, at_most=0)
    if not can_be_cut(case):
        raise OutlineError(
            f"a panel of {len(case.menus)} balloons, or one too long for any balloon",
            advice=f"give at most {MOST_BALLOONS} balloons of a few lines",
        )
    panel = Shortened(case, area_mm2)
    if panel.is_right({}):
        return LeastWords(at_least=0, at_most=0)
    layout = panel.layout({})
    crowded = panel.coverage(layout) > case.setting.limits.coverage
    return whole_cut(panel, words_only=layout.verdict == "placed" and not crowded)[1]
