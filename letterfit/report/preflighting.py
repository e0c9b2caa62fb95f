"""A script's preflight: its settings as one value, its pages planned, lettered and reported."""

from collections.abc import Callable, Iterator
from concurrent.futures import Executor
from contextlib import closing
from dataclasses import dataclass, replace

from letterfit.findings import Finding
from letterfit.lettering.fonts.embedding import embedding
from letterfit.lettering.fonts.typeface import open_typeface
from letterfit.lettering.settings import EFFECTS_FACE, EFFECTS_SIZE_PT, Align, Lettering
from letterfit.paper.model import Plans
from letterfit.paper.sheet import Paper
from letterfit.place.model import Reading
from letterfit.report.codes import found
from letterfit.report.laid import plan_script, script_paper
from letterfit.report.limits import Limits
from letterfit.report.lint import lint_script
from letterfit.report.manner import Outlines
from letterfit.report.model import PageReport, ScriptReport
from letterfit.report.page import PageJob
from letterfit.report.reading import reading_of, written_language
from letterfit.report.setting import SameSpeaker, Setting
from letterfit.report.sharing import Task, delivered, tasks_of
from letterfit.script.model import Script


@dataclass(frozen=True, slots=True, kw_only=True)
class PreflightSettings:
    """The settings of `preflight` as one value, for many scripts alike.

    Args:
        lettering: As in `preflight`, and so are all others; None is the bundled default.
        paper: The single page; None takes the plans' paper, or "us-comic".
        plans: The pages' tiers; None leaves each page to its own line, or the default grid.
        limits: What to warn about; None is common practice.
        reading: "ltr" or "rtl"; None is the way most balloons of each script read.
        outline: The family of speech balloons; or `Outlines`, one for each manner of speaking.
        effects: How sound effects are measured; None is Bangers at 14 pt.
        aside_pt: By how many points captions and whispers are smaller than dialogue.
        caption_align: "start" or "centre"; None as the rest.
        same_speaker: "linked" or "joined".
        butted: Whether balloons may be cut flat by their panel's top border.
        check: Whether the independent checker goes over every layout.
        cuts: Whether to propose cuts where there is too much.

    >>> import letterfit as lf
    >>> lf.PreflightSettings(paper=lf.Paper.named("a5"), check=True).same_speaker
    'linked'
    """

    lettering: Lettering | None = None
    paper: Paper | None = None
    plans: Plans | None = None
    limits: Limits | None = None
    reading: Reading | None = None
    outline: str | Outlines = "ellipse"
    effects: Lettering | None = None
    aside_pt: float = 0.5
    caption_align: Align | None = None
    same_speaker: SameSpeaker = "linked"
    butted: bool = False
    check: bool = False
    cuts: bool = False

    def of(self, script: Script) -> Setting:
        """How one script is lettered and what it is held against.

        Raises:
            LetterfitError: When the settings cannot be used.
        """
        lettering = self.lettering or Lettering()
        speech = self.outline
        return Setting(
            lettering=lettering,
            effects=self.effects or _effects_lettering(lettering),
            outlines=Outlines(speech=speech) if isinstance(speech, str) else speech,
            limits=self.limits or Limits(),
            reading=self.reading or reading_of(script, lettering=self.lettering),
            language=written_language(script),
            source=script.source,
            aside_pt=self.aside_pt,
            caption_align=self.caption_align,
            same_speaker=self.same_speaker,
            butted=self.butted,
            check=self.check,
            cuts=self.cuts,
            names=speakers_of(script),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """A script whose pages are planned, and nothing lettered.

    Args:
        report: Its report, still without pages.
        jobs: Its pages.
        setting: How they are lettered.
    """

    report: ScriptReport
    jobs: tuple[PageJob, ...]
    setting: Setting

    def tasks(self, executor: Executor | None, *, alone: bool = True) -> Iterator[Task]:
        """Its pages as tasks, few of them where other scripts' follow."""
        return tasks_of(self.jobs, self.setting, shared=executor is not None, alone=alone)


def begin(script: Script, settings: PreflightSettings) -> Begun:
    """Plan a script's pages, and find what belongs to no page.

    Raises:
        LetterfitError: When a plan contradicts the script, or the settings cannot be used.
    """
    setting = settings.of(script)
    sheet = script_paper(settings.paper, settings.plans)
    laid = plan_script(script, paper=sheet, plans=settings.plans, reading=setting.reading)
    report = ScriptReport(
        title=script.title,
        source=script.source,
        lettering=setting.lettering,
        paper=sheet,
        reading=setting.reading,
        limits=setting.limits,
        pages=(),
        findings=_script_findings(script, setting, plans=settings.plans),
        same_speaker=setting.same_speaker,
        butted=setting.butted,
    )
    jobs = tuple(PageJob(label=one.label, page=one.page, plan=one.plan) for one in laid)
    return Begun(report=report, jobs=jobs, setting=setting)


def report_script(
    script: Script,
    settings: PreflightSettings,
    *,
    executor: Executor | None,
    progress: Callable[[int, int], None] | None,
) -> ScriptReport:
    """Letter a whole script: what `preflight` does.

    Raises:
        LetterfitError: As `preflight`.
    """
    begun = begin(script, settings)
    pages: list[PageReport] = []
    with closing(delivered(begun.tasks(executor), executor)) as told:
        for lettered in told:
            if lettered.error is not None:
                raise lettered.error
            for page in lettered.pages:
                pages.append(page)
                if progress is not None:
                    progress(len(pages), len(begun.jobs))
    return replace(begun.report, pages=tuple(pages))


def speakers_of(script: Script) -> tuple[str, ...]:
    """The names of all who speak in a script, in its order."""
    said = (e for page in script.pages for panel in page.panels for e in panel.elements)
    return tuple(dict.fromkeys(e.speaker for e in said if e.speaker))


def _script_findings(
    script: Script, setting: Setting, *, plans: Plans | None
) -> tuple[Finding, ...]:
    """What belongs to no page: the parser's findings first."""
    return (
        *script.findings,
        *_small_type(setting),
        *_restricted_fonts(setting),
        *_unused_plans(script, plans),
        *lint_script(script),
    )


def _effects_lettering(lettering: Lettering) -> Lettering:
    """Bangers, and the dialogue's own typeface for the letters that it lacks."""
    effects, own = open_typeface(EFFECTS_FACE), lettering.typeface
    known = {face.name for family in (effects, *effects.fallback) for face in family.faces}
    if known.isdisjoint(face.name for face in own.faces):
        others = (replace(own, fallback=()), *effects.fallback)
        effects = replace(effects, fallback=others)
    return Lettering(typeface=effects, size_pt=EFFECTS_SIZE_PT)


def _small_type(setting: Setting) -> Iterator[Finding]:
    size, least = setting.lettering.size_pt, setting.limits.least_size_pt
    if size < least:
        yield found(
            "small-type",
            f"Lettering of {size:g} pt is under the least legible size, {least:g} pt "
            f"({setting.limits.basis('least_size_pt')}).",
            advice="Set it larger and give the words more room.",
        )


def _restricted_fonts(setting: Setting) -> Iterator[Finding]:
    """The user's fonts that must not be embedded; nothing is said of a bundled one."""
    for face in dict.fromkeys((*setting.lettering.typeface.faces, *setting.effects.typeface.faces)):
        if face.file.content is not None and embedding(face).is_restricted:
            yield found(
                "restricted-font",
                f"{face.name} {embedding(face).words} (OS/2 fsType; no legal advice).",
                advice="Read its licence before you send files that hold it.",
            )


def _unused_plans(script: Script, plans: Plans | None) -> Iterator[Finding]:
    numbers = {number for page in script.pages for number in page.numbers}
    for number, shape in plans.pages if plans else ():
        if number not in numbers:
            yield found(
                "plan-without-page",
                f"The plans have a page {number}, the script has not.",
                advice="Take the plan out, or correct its number.",
                line=shape.line,
            )
