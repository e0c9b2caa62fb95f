"""What a reader should know of one panel: overflow first, then what goes against advice."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from letterfit.counting import counted, does
from letterfit.findings import Finding
from letterfit.place.model import PanelLayout
from letterfit.report.codes import found, gravest_first
from letterfit.report.limits import Limits
from letterfit.report.menus import Menu
from letterfit.report.model import BalloonReport, PanelReport
from letterfit.report.setting import Setting


def panel_findings(
    report: PanelReport, layout: PanelLayout, *, menus: Sequence[Menu], setting: Setting
) -> tuple[Finding, ...]:
    """All findings of a panel, gravest first.

    Args:
        report: The panel's report.
        layout: Its layout, whose own findings pass through with the panel's id.
        menus: All its balloons, those without words included; their words' findings pass through.
        setting: How the script is lettered and what it is held against.
    """
    limits = setting.limits
    own = [
        *_overflow(report, setting),
        *_coverage(report, limits),
        *_words(report, limits),
        *_doubt(report),
        *_closer(report, limits),
        *(finding for balloon in report.balloons for finding in _balloon(balloon, limits)),
        *(_no_words(menu) for menu in menus if not menu.front),
    ]
    passed = [finding for menu in menus for finding in menu.words.findings]
    doubts = [_at_balloon(finding, report) for finding in layout.findings]
    return gravest_first((*own, *doubts, *passed))


def _overflow(report: PanelReport, setting: Setting) -> Iterator[Finding]:
    over = report.overflow
    if over is None:
        return
    ways = []
    if over.words is not None:
        ways.append(f"cut {counted(over.words, 'word')}")
    if over.height_mm is not None:
        ways.append(f"make the tier {over.height_mm:g} mm high (it is {report.rect.height:.1f})")
    if over.width_mm is not None:
        ways.append(f"make the panel {over.width_mm:g} mm wide (it is {report.rect.width:.1f})")
    if over.size_pt is not None:
        size = setting.lettering.size_pt
        ways.append(f"as the last resort set it at {over.size_pt:g} pt (it is {size:g})")
    balloons = counted(len(report.balloons), "balloon")
    short = f", {over.area_mm2:.0f} mm2 short" if over.area_mm2 else ""
    yield found(
        "panel-overflow",
        f"{balloons} of {counted(report.words, 'word')} {_goes(report)} into a panel of "
        f"{report.rect.width:.1f} x {report.rect.height:.1f} mm ({report.verdict}: "
        f"{report.reason}{short}).",
        advice=f"{one_of(ways)}." if ways else "Give the words to more panels.",
        where=report.id,
        line=report.line,
    )


def _coverage(report: PanelReport, limits: Limits) -> Iterator[Finding]:
    if report.verdict == "placed" and report.coverage > limits.coverage:
        yield found(
            "coverage",
            f"Lettering covers {report.coverage:.0%} of the panel, over {limits.coverage:.0%} "
            f"({limits.basis('coverage')}).",
            advice="Cut words or give the panel more room.",
            where=report.id,
            line=report.line,
        )
    if report.effects_share > limits.coverage:
        yield found(
            "effects-room",
            f"Sound effects would take {report.effects_share:.0%} of the panel.",
            advice="Letter them smaller, or let the picture be the sound.",
            where=report.id,
            line=report.line,
        )


def _doubt(report: PanelReport) -> Iterator[Finding]:
    if report.verdict == "placed" and not report.reading_certain:
        yield found(
            "reading-doubt",
            "Readers may take the balloons in another order than the script's.",
            advice="Give the panel more room, or fewer balloons.",
            where=report.id,
            line=report.line,
        )


def _words(report: PanelReport, limits: Limits) -> Iterator[Finding]:
    if report.words > limits.words_per_panel:
        yield found(
            "panel-words",
            f"{report.words} words in the panel, over {limits.words_per_panel} "
            f"({limits.basis('words_per_panel')}).",
            advice="Cut words, or share them between two panels.",
            where=report.id,
            line=report.line,
        )


def _closer(report: PanelReport, limits: Limits) -> Iterator[Finding]:
    if report.verdict == "placed" and report.figure_share < limits.whole_figure:
        most = f"; at most {report.figure_bound_mm:.1f} mm in any layout"
        yield found(
            "close-view",
            f"The tallest figure that stands clear is {report.figure_height_mm:.1f} mm, "
            f"{report.figure_share:.0%} of the panel's height"
            f"{most if report.bound_share < limits.whole_figure else ''}.",
            advice="Let the view come closer there, grow the tier, or cut words.",
            where=report.id,
            line=report.line,
        )


def _balloon(balloon: BalloonReport, limits: Limits) -> Iterator[Finding]:
    fitted = balloon.fitted
    if fitted.words > limits.words_per_balloon:
        yield found(
            "balloon-words",
            f"{fitted.words} words in one balloon, over {limits.words_per_balloon} "
            f"({limits.basis('words_per_balloon')}).",
            advice="Cut words, or make two balloons of it where the speaker draws breath.",
            where=balloon.id,
            line=balloon.line,
        )
    if len(fitted.lines) > limits.lines_per_balloon:
        yield found(
            "balloon-lines",
            f"{len(fitted.lines)} lines in one stack, over {limits.lines_per_balloon} "
            f"({limits.basis('lines_per_balloon')}).",
            advice="Make two balloons of it where the speaker draws breath.",
            where=balloon.id,
            line=balloon.line,
        )


def _no_words(menu: Menu) -> Finding:
    return found(
        "no-words",
        f"The {menu.element.kind} has nothing to letter.",
        advice="Give it words, or leave it out.",
        where=menu.id,
        line=menu.element.line,
    )


def _at_balloon(finding: Finding, report: PanelReport) -> Finding:
    """A layout's finding, which names balloons by number ("1" or "1+2"), at the first of them."""
    first = finding.where.partition("+")[0]
    if first.isdigit() and 1 <= int(first) <= len(report.balloons):
        balloon = report.balloons[int(first) - 1]
        return replace(finding, where=balloon.id, line=balloon.line)
    return replace(finding, where=report.id, line=report.line)


def one_of(ways: Sequence[str]) -> str:
    """The ways as one sentence: "Cut 3 words, or make the tier 60 mm high"."""
    text = ", ".join(ways[:-1]) + ", or " + ways[-1] if len(ways) > 1 else ways[0]
    return text[0].upper() + text[1:]


def _goes(report: PanelReport) -> str:
    return f"{does(len(report.balloons))} not go"
