"""Texts in balloons: measured and fitted in one call, one by one or many together."""

from collections.abc import Sequence

from letterfit.fit.breaking import Breaks, way_to_break
from letterfit.fit.dressing import fit_texts, fit_words, words_front
from letterfit.fit.model import FittedBalloon
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.outline import Outline


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
