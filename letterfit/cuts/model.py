"""One proposal: what to take out of a text, and how the rest fits, before and after."""

from dataclasses import dataclass

from letterfit.cuts.least import LeastCut
from letterfit.fit.model import FittedBalloon
from letterfit.shown import Shown


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut(Shown):
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

    >>> import letterfit as lf
    >>> cut = lf.suggest_cuts("Well, I really think that we ought to wait.", most_words=7)[0]
    >>> cut.removed, cut.text, cut.words, cut.enough
    (('Well,', 'really'), 'I think that we ought to wait.', 2, True)
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
class Giving:
    r"""What one balloon of a panel gives when words go from it alone.

    Args:
        where: "page.panel.balloon"; "panel.balloon" of a panel by itself.
        words: Words there now.
        alone: So many words from it alone mend the panel, as found by placing again; None where no
            cut of it alone was found that does. Past eight balloons none is looked for.
        area_per_word_mm2: How much smaller its least balloon becomes for each word.
        share: That over the sum of all balloons of the panel, 0 to 1.

    >>> import letterfit as lf
    >>> page = "PAGE 1\n\nPanel 1. A gate.\nWENNA: Well, it's shut.\n"
    >>> (panel,) = lf.parse_script(page).pages[0].panels
    >>> (giving,) = lf.least_panel_cut(panel, lf.Rect(0, 0, 16, 12)).gives
    >>> giving.words, giving.alone, giving.share
    (3, 2, 1.0)
    """

    where: str
    words: int
    alone: int | None
    area_per_word_mm2: float
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LeastWords:
    r"""The least number of words whose removal mends a panel or a page, a word a balloon kept.

    Args:
        at_least: No fewer do: proved. More than may go where no removal does.
        at_most: So many do: lettered and placed again; None when no removal that was tried does.
        cuts: A removal of that many words, one cut for each balloon that loses some; chosen by
            measure where no proposal is as short.
        gives: The balloons of a panel, the one that gives most first: which alone mends it with
            fewest words, then by area for each word. Empty for a page.

    >>> import letterfit as lf
    >>> page = "PAGE 1\n\nPanel 1. A gate.\nWENNA: Well, it's shut.\n"
    >>> (panel,) = lf.parse_script(page).pages[0].panels
    >>> least = lf.least_panel_cut(panel, lf.Rect(0, 0, 16, 12))
    >>> least.at_least, least.at_most, least.proved
    (2, 2, True)
    """

    at_least: int
    at_most: int | None
    cuts: tuple[Cut, ...] = ()
    gives: tuple[Giving, ...] = ()

    @property
    def proved(self) -> bool:
        """Whether the least number is known.

        >>> LeastWords(at_least=4, at_most=4).proved, LeastWords(at_least=4, at_most=6).proved
        (True, False)
        """
        return self.at_least == self.at_most


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal(Shown):
    r"""Cuts to make together, for a balloon, a panel or a page: a proposal, the writer decides.

    Args:
        where: "page.panel.balloon", "page.panel", or the page's label.
        line: Line of the script.
        why: What is wrong there, in a few words.
        weight: How pressing, a ratio: more is more.
        words: Words there now.
        words_after: Words there then.
        least_words: No fewer will do for a limit of words; None where nothing is proved.
        cuts: One for each balloon that loses words; none where no cut of ours will do.
        coverage: Share of a panel covered by balloons, now and then; None for other places.
        least: The least number of words that must go there; None for a balloon, whose limit says.

    >>> import letterfit as lf
    >>> speech = "Well, I really think that nobody will come, because the tide turned an hour ago."
    >>> script = lf.parse_script(f"PAGE 1\n\nPanel 1. A gate.\nWENNA: {speech}\n")
    >>> report = lf.preflight(script, limits=lf.Limits(words_per_panel=13), cuts=True)
    >>> (proposal,) = report.pages[0].panels[0].cuts
    >>> proposal.where, proposal.why, proposal.words, proposal.words_after
    ('1.1', '15 words, over 13', 15, 13)
    >>> proposal.cuts[0].removed
    ('Well,', 'really')
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
    least: LeastWords | None = None
