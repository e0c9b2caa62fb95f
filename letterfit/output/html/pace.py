"""The section on pace: words page by page as bars, and whose words they are."""

from collections.abc import Sequence

from letterfit.output.html.anchors import Anchors
from letterfit.output.html.markup import classed, element, words
from letterfit.output.html.tables import Head, table
from letterfit.output.terminal.limits import word_limits
from letterfit.output.terminal.pace import percent_of, typical_told
from letterfit.report.model import PageReport, ScriptReport
from letterfit.report.pace import PagePace, SpeakerShare, pace_of

FULL = 100
"""The length of the bar of a page that is just at the limit, in units of its drawing."""

MOST = 125
"""The longest bar."""

PAGE_HEADS = (
    Head(text="page"),
    Head(text="words", number=True),
    Head(text="against the limit"),
    Head(text="panels", number=True),
    Head(text="balloons", number=True),
    Head(text="words each", number=True),
    Head(text="figure, mm", number=True),
)
VOICE_HEADS = (
    Head(text="voice"),
    Head(text="balloons", number=True),
    Head(text="words", number=True),
    Head(text="of all words", number=True),
    Head(text="of lettered area", number=True),
)


def pace_section(report: ScriptReport, anchors: Anchors) -> str:
    """A row for each page, a row for each voice, and the script's own figures in a sentence."""
    pace = pace_of(report)
    pages = [
        _row(page, own, limit=report.limits.words_per_page, anchors=anchors)
        for page, own in zip(report.pages, pace.pages, strict=True)
    ]
    parts = [
        element("h2", "Pace", attributes={"id": "pace"}),
        classed("p.quiet", words(f"Limits: {word_limits(report.limits)}.")),
        table(PAGE_HEADS, pages, caption="Words, page by page"),
        table(VOICE_HEADS, map(_voice, pace.voices), caption="Whose words") if pace.voices else "",
        element("p", words(typical_told(pace))) if pace.panels else "",
    ]
    return element("section", parts, attributes={"aria-labelledby": "pace"})


def _row(page: PageReport, pace: PagePace, *, limit: int, anchors: Anchors) -> Sequence[str]:
    return (
        anchors.link(f"page-{page.label}", words(page.label)),
        str(pace.words),
        bar(pace.words / (limit * pace.sheets)),
        str(pace.panels),
        str(pace.balloons),
        f"{pace.words / pace.balloons:.1f}" if pace.balloons else "–",
        f"{page.figure_height_mm:.0f}" if page.fits and page.panels else "–",
    )


def bar(share: float) -> str:
    """A bar that reaches the upright stroke at the limit, and the share in words.

    >>> "over" in bar(1.2), "over" in bar(0.8)
    (True, False)
    """
    long = min(round(share * FULL), MOST)
    over = share > 1
    kind = "doubt" if over else "within"
    shape = (
        f'<svg class="bar {kind}" viewBox="0 0 {MOST + 2} 12" aria-hidden="true">'
        f'<path d="M0 2H{long}V10H0Z"/><path class="limit" d="M{FULL} 0V12"/></svg>'
    )
    told = f"{share:.0%}, over" if over else f"{share:.0%}"
    return f"{shape} {classed(f'span.{kind}', words(told))}"


def _voice(share: SpeakerShare) -> Sequence[str]:
    return (
        element("bdi", words(share.speaker or share.voice)),
        str(share.balloons),
        str(share.words),
        words(percent_of(share.words_share)),
        words(percent_of(share.area_share)),
    )
