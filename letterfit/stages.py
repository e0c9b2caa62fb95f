r"""The stages in order: plan, measure, fit, place, report.

`preflight` is the whole way; the four balloon functions stop after the fit.

>>> from letterfit.script.parse import parse_script
>>> script = parse_script("PAGE 1\n\nPanel 1. Lock Nine at dawn.\n\nWENNA: Lock's shut!\n")
>>> report = preflight(script)
>>> report.fits, report.pages[0].words, report.pages[0].panels[0].reading_certain
(True, 2, True)
"""

from collections.abc import Callable, Sequence
from concurrent.futures import Executor

from letterfit.errors import ScriptError
from letterfit.fit.breaking import Breaks, way_to_break
from letterfit.fit.dressing import fit_texts, fit_words, words_front
from letterfit.fit.model import FittedBalloon
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Align, Lettering
from letterfit.outline import Outline
from letterfit.paper.model import Plans
from letterfit.paper.sheet import Paper
from letterfit.place.model import Reading
from letterfit.report.limits import Limits
from letterfit.report.manner import Outlines
from letterfit.report.model import ScriptReport
from letterfit.report.preflighting import PreflightSettings, report_script
from letterfit.report.setting import SameSpeaker
from letterfit.script.model import Script


def fit_balloon(  # noqa: PLR0913 - keyword-only
    text: str,
    lettering: Lettering | None = None,
    *,
    outline: str = "ellipse",
    aspect: tuple[float, float] | None = None,
    slack: float = 0.06,
    language: str = "en",
) -> FittedBalloon:
    """Set a text in the balloon that suits it best.

    Args:
        text: The words of one balloon, emphasis marked as in a script.
        lettering: How to letter it; None is the bundled default.
        outline: The family's name, a key of `FAMILIES`.
        aspect: Least and greatest width over height, ratios; None takes the family's own.
        slack: How much larger in area than the smallest balloon the best-looking one may be, a
            ratio; 0 asks for the smallest itself.
        language: The text's language, a BCP 47 code.

    Returns:
        Every word set: no ink comes nearer to the outline than the lettering's air. The same input
        gives the same balloon.

    Raises:
        OutlineError: When there is no such family, no text or one of over 1,000 words or 5,000
            characters, or the numbers ask for no outline.
        FontError: When the lettering cannot be used.

    >>> balloon = fit_balloon("Hold a little longer, old thing.")
    >>> balloon.fits, balloon.words
    (True, 6)
    """
    chosen = lettering or Lettering()
    words = measure(text, chosen, language=language)
    return fit_words(words, outline=outline, air_mm=chosen.air_mm, aspect=aspect, slack=slack)


def fit_balloons(  # noqa: PLR0913 - keyword-only
    texts: Sequence[str],
    lettering: Lettering | None = None,
    *,
    outline: str = "ellipse",
    aspect: tuple[float, float] | None = None,
    slack: float = 0.06,
    language: str = "en",
) -> tuple[FittedBalloon, ...]:
    """Set many texts, each in the balloon that suits it best: sooner than one after the other.

    Args:
        texts: The words of each balloon.
        lettering: How to letter them; None is the bundled default.
        outline: The family's name.
        aspect: Ratios, as in `fit_balloon`.
        slack: A ratio, as in `fit_balloon`.
        language: The texts' language, a BCP 47 code.

    Returns:
        For each text what `fit_balloon` returns.

    Raises:
        OutlineError: As `fit_balloon`, for any of them.
        FontError: When the lettering cannot be used.

    >>> [balloon.words for balloon in fit_balloons(["Hold.", "Hold a little longer."])]
    [1, 4]
    """
    chosen = lettering or Lettering()
    words = [measure(text, chosen, language=language) for text in texts]
    return fit_texts(words, outline=outline, air_mm=chosen.air_mm, aspect=aspect, slack=slack)


def fit_into(
    text: str,
    lettering: Lettering | None = None,
    *,
    outline: Outline,
    breaks: Breaks = "total-fit",
    language: str = "en",
) -> FittedBalloon:
    """Set a text in a given outline, or say by how much it does not fit.

    Args:
        text: The words of one balloon.
        lettering: How to letter it; None is the bundled default.
        outline: The outline.
        breaks: "total-fit" looks at all lines together, and sets the stack that looks best;
            "first-fit" fills one line after the other from the top, as a browser does.
        language: The text's language, a BCP 47 code.

    Returns:
        The text set in the very outline; where it does not fit, as many words as go in, and
        `FittedBalloon.overflow` says by how much it does not.

    Raises:
        OutlineError: When there is no such way to break lines, or no text or too long a one, as
            `fit_balloon`.
        FontError: When the lettering cannot be used.

    >>> from letterfit import Ellipse
    >>> lock = Ellipse(half_width=9, half_height=5)
    >>> tight = fit_into("The last gate before the sea.", outline=lock)
    >>> tight.fits, tight.overflow.words > 0
    (False, True)
    """
    chosen = lettering or Lettering()
    words = measure(text, chosen, language=language)
    return way_to_break(breaks)(words, outline, air_mm=chosen.air_mm)


def balloon_front(
    text: str,
    lettering: Lettering | None = None,
    *,
    outline: str = "ellipse",
    language: str = "en",
) -> tuple[FittedBalloon, ...]:
    """The shapes a text can take, wide to narrow, none both wider and higher than another.

    Args:
        text: The words of one balloon.
        lettering: How to letter it; None is the bundled default.
        outline: The family's name, a key of `FAMILIES`.
        language: The text's language, a BCP 47 code.

    Returns:
        At most eight balloons, each the best-looking of its aspect, all words set in each; the
        widest first.

    Raises:
        OutlineError: When there is no such family, or no text or too long a one, as `fit_balloon`.
        FontError: When the lettering cannot be used.

    >>> len(balloon_front("And still nobody has come to ask why the gate is shut.")) > 1
    True
    """
    chosen = lettering or Lettering()
    words = measure(text, chosen, language=language)
    return words_front(words, outline=outline, air_mm=chosen.air_mm)


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
