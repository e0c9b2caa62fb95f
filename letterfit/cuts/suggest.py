"""Cuts for one text: into an outline, under a limit of words, or what wins most."""

from collections.abc import Callable, Sequence

from letterfit.cuts.least import LeastCut, least_removal
from letterfit.cuts.model import Cut
from letterfit.cuts.propose import cuts_for
from letterfit.cuts.tokens import tokens_of
from letterfit.cuts.units import LATE
from letterfit.errors import OutlineError
from letterfit.fit.dressing import fit_words, fit_words_into
from letterfit.fit.model import FittedBalloon
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.outline import Outline

MOST_TRIED = 40
"""Single cuts that are fitted to see what they win."""

Fit = Callable[[str], FittedBalloon]


def suggest_cuts(  # noqa: PLR0913 - keyword-only
    text: str,
    lettering: Lettering | None = None,
    *,
    outline: Outline | str = "ellipse",
    most_words: int | None = None,
    names: Sequence[str] = (),
    language: str = "en",
    most: int = 5,
) -> tuple[Cut, ...]:
    """Words to take out of a text: proposals, the writer decides. Grammar is not checked.

    Args:
        text: As typed, emphasis marked as in a script.
        lettering: How it is lettered; None is the bundled default.
        outline: An outline that it must go into; or the name of a family, for the balloon.
        most_words: A limit of words; None for none.
        names: Names that are not to be changed, such as the speakers of the script.
        language: The text's language, a BCP 47 code.
        most: How many proposals to return at most.

    Returns:
        With an outline or a limit: cuts that are enough, each carrying the least number of words
        that must go (`Cut.least`), those first that an editor minds least; nothing when the text
        keeps to both already. With neither: single words and phrases, those first that save a line
        or most area. Every text is measured and fitted anew.

    Raises:
        OutlineError: When there is no such family, no text, or a limit under 1.
        FontError: When the lettering cannot be used.

    >>> cut = suggest_cuts("Well, I really think that we ought to wait.", most_words=7)[0]
    >>> cut.text, cut.words, cut.least.proved
    ('I think that we ought to wait.', 2, True)
    """
    if most_words is not None and most_words < 1:
        raise OutlineError(f"a limit of {most_words} words", advice="give 1 or more")
    chosen = lettering or Lettering()
    fit = _fit(chosen, outline, language=language)
    before = fit(text)
    over = max(before.words - most_words, 0) if most_words is not None else 0
    if isinstance(outline, str) and most_words is None:
        return _winning(text, fit=fit, names=names, language=language)[:most]
    if before.fits and not over:
        return ()
    least = LeastCut(at_least=over, at_most=over)
    if isinstance(outline, Outline) and not before.fits:
        least = _both(least_cut(text, chosen, outline=outline, language=language), over)
    return cuts_for(
        text,
        fit=fit,
        enough=lambda left: left.fits and (most_words is None or left.words <= most_words),
        least_words=max(least.at_least, 1),
        least=least,
        language=language,
        names=names,
        most=most,
    )


def _both(least: LeastCut, over: int) -> LeastCut:
    """What is known of the least number of words for an outline and a limit together."""
    if least.at_most is not None and least.at_least >= over:
        return least
    return LeastCut(at_least=max(over, least.at_least), at_most=None)


def least_cut(
    text: str,
    lettering: Lettering | None = None,
    *,
    outline: Outline,
    language: str = "en",
) -> LeastCut:
    """The least number of words whose removal makes a text fit an outline, proved by search.

    Words go as typed, with the marks that stand with them.

    Args:
        text: As typed.
        lettering: How it is lettered; None is the bundled default.
        outline: The outline.
        language: The text's language, a BCP 47 code.

    Returns:
        Both bounds; where they differ the search came to the end of its budget, or the face's
        shaping looks over spaces. `LeastCut.at_most` is None when not even one word fits.

    Raises:
        OutlineError: When there is no text, or the outline is none.
        FontError: When the lettering cannot be used.

    >>> from letterfit import Ellipse
    >>> gate = Ellipse(half_width=12, half_height=7)
    >>> least = least_cut("Hold the gate a little longer, old thing, will you?", outline=gate)
    >>> least.at_least == least.at_most, least.proved
    (True, True)
    """
    chosen = lettering or Lettering()
    fit = _fit(chosen, outline, language=language)
    fit(text)  # bad input is told here
    return least_removal(
        tokens_of(text),
        outline,
        measure=lambda left: measure(left, chosen, language=language),
        fits=lambda left: fit(left).fits,
        air_mm=chosen.air_mm,
    )


def _winning(text: str, *, fit: Fit, names: Sequence[str], language: str) -> tuple[Cut, ...]:
    """Single words and phrases, those first that save a line or most area for their cost."""
    cuts = cuts_for(
        text,
        fit=fit,
        enough=lambda _: True,
        language=language,
        names=names,
        most=MOST_TRIED,
        single=True,
    )
    won = [cut for cut in cuts if cut.area_saved_mm2 > 0]
    return tuple(sorted(won, key=_worth))


def _worth(cut: Cut) -> tuple[bool, bool, float]:
    return (cut.cost > LATE, cut.lines_saved < 1, -cut.area_saved_mm2 / (1 + cut.cost))


def _fit(lettering: Lettering, outline: Outline | str, *, language: str) -> Fit:
    air = lettering.air_mm

    def fit(text: str) -> FittedBalloon:
        words = measure(text, lettering, language=language)
        if isinstance(outline, str):
            return fit_words(words, outline=outline, air_mm=air)
        return fit_words_into(words, outline, air_mm=air)

    return fit
