r"""The stages in order, the whole way in one call: plan, measure, fit, place, report.

>>> from letterfit.script.parse import parse_script
>>> script = parse_script("PAGE 1\n\nPanel 1. Lock Nine at dawn.\n\nWENNA: Lock's shut!\n")
>>> report = preflight(script)
>>> report.fits, report.pages[0].words, report.pages[0].panels[0].reading_certain
(True, 2, True)
"""

from collections.abc import Callable
from concurrent.futures import Executor

from letterfit.errors import ScriptError
from letterfit.lettering.settings import Align, Lettering
from letterfit.paper.model import Plans
from letterfit.paper.sheet import Paper
from letterfit.place.model import Reading
from letterfit.report.limits import Limits
from letterfit.report.manner import Outlines
from letterfit.report.model import ScriptReport
from letterfit.report.preflighting import PreflightSettings, report_script
from letterfit.report.setting import SameSpeaker
from letterfit.script.model import Script


def preflight(  # noqa: PLR0913 - every stage's settings, keyword-only
    script: Script,
    *,
    lettering: Lettering | None = None,
    paper: Paper | None = None,
    plans: Plans | None = None,
    limits: Limits | None = None,
    reading: Reading | None = None,
    outline: str | Outlines = "ellipse",
    effects: Lettering | None = None,
    aside_pt: float = 0.5,
    caption_align: Align | None = None,
    same_speaker: SameSpeaker = "linked",
    butted: bool = False,
    check: bool = False,
    cuts: bool = False,
    executor: Executor | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> ScriptReport:
    r"""Letter a whole script on its pages and report what does not go in, and why.

    Args:
        script: The parsed script.
        lettering: How balloons and captions are lettered; None is the bundled default.
        paper: The single page; None takes the plans' paper, or "us-comic".
        plans: The pages' tiers; None leaves each page to its own line, or the default grid.
        limits: What to warn about; None is common practice.
        reading: "ltr" or "rtl"; None is the way most balloons read, and "rtl" for columns.
        outline: The family of speech balloons; or `Outlines`, one for each manner of speaking.
        effects: How sound effects are measured; None is Bangers at 14 pt.
        aside_pt: By how many points captions and whispers are smaller than dialogue.
        caption_align: "start" sets captions flush left, "centre" centres them; None as the rest.
        same_speaker: "joined" draws a speaker's neighbouring speeches in one outline with one tail,
            where they go in so; "linked" gives each its own balloon.
        butted: Whether balloons in curved outlines may be cut flat by their panel's top border.
        check: Whether the independent checker goes over every layout; what it finds is an error.
        cuts: Whether to propose cuts where there is too much; takes longer.
        executor: Letters pages side by side, to the same bytes; None letters them one by one.
        progress: Called with the pages done and all pages, after each page.

    Returns:
        The report: every panel with its verdict, layout and findings, in script order. What does
        not go in is a value of it, never an error. The same input gives the same report.

    Raises:
        ScriptError: When it is given a text or a file's name in the place of a parsed script.
        PageError: When a plan contradicts the script, or a panel or a setting is impossible.
        OutlineError, FontError: When there is no such outline, or the lettering cannot be used.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: The gate is shut.\n")
    >>> report = preflight(script, paper=lf.Paper.named("a5"))
    >>> report.fits, report.pages[0].panels[0].verdict
    (True, 'placed')
    """
    if not isinstance(script, Script):
        raise ScriptError(
            f"preflight takes a parsed script, not {type(script).__name__}",
            advice="make one by parse_script(text) or read_script(path)",
        )
    settings = PreflightSettings(
        lettering=lettering,
        paper=paper,
        plans=plans,
        limits=limits,
        reading=reading,
        outline=outline,
        effects=effects,
        aside_pt=aside_pt,
        caption_align=caption_align,
        same_speaker=same_speaker,
        butted=butted,
        check=check,
        cuts=cuts,
    )
    return report_script(script, settings, executor=executor, progress=progress)
