"""One proposal: what to take out of a text, and how the rest fits, before and after."""

from dataclasses import dataclass

from letterfit.cuts.least import LeastCut
from letterfit.fit.model import FittedBalloon


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """Words to take out of a text: a proposal, the writer decides. Grammar is not checked.

    Args:
        removed: What is taken out, as typed, in the order of the text.
        kinds: Why each is thought of, in the words of the trade: "intensifier", "vocative".
        words: How many words fewer the text has.
        text: The text that is left, marks and capitals mended.
        before: The text as it was, fitted.
        after: What is left, measured and fitted anew.
        cost: How much the editor would mind, a ratio; less is better.
        enough: Whether it does what was asked for: the text fits, or keeps to its limit.
        least: The least number of words that must go, where that was asked for.
        where: "page.panel.balloon", or empty.
    """

    removed: tuple[str, ...]
    kinds: tuple[str, ...]
    words: int
    text: str
    before: FittedBalloon
    after: FittedBalloon
    cost: float
    enough: bool
    least: LeastCut | None = None
    where: str = ""

    @property
    def lines_saved(self) -> int:
        """How many lines fewer the stack has; of a text that did not fit, 0."""
        return len(self.before.lines) - len(self.after.lines) if self.before.fits else 0

    @property
    def area_saved_mm2(self) -> float:
        """How much smaller the outline is; 0 in a given outline."""
        return self.before.area_mm2 - self.after.area_mm2


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """Cuts to make together, for a balloon, a panel or a page: a proposal, the writer decides.

    Args:
        where: "page.panel.balloon", "page.panel", or the page's label.
        line: Line of the script.
        why: What is wrong there, in a few words.
        weight: How pressing: more is more.
        words: Words there now.
        words_after: Words there then.
        least_words: No fewer will do for a limit of words; None where nothing is proved.
        cuts: One for each balloon that loses words; none where no cut of ours will do.
        coverage: Share of a panel covered by balloons, now and then; None for other places.
    """

    where: str
    line: int
    why: str
    weight: float
    words: int
    words_after: int
    least_words: int | None
    cuts: tuple[Cut, ...]
    coverage: tuple[float, float] | None = None
