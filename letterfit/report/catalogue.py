"""Many scripts, one after the other: what came of each, told page by page as it is known.

A script that cannot be used is told and ends none of the others. Whatever the number of workers,
what is told and its order are the same, and no more is held than the pages under work.
"""

import os
from collections.abc import Generator, Iterable, Iterator, Sequence
from concurrent.futures import Executor
from contextlib import closing
from dataclasses import dataclass, field, replace

from letterfit.errors import LetterfitError
from letterfit.report.model import PageReport, ScriptReport
from letterfit.report.preflighting import PreflightSettings, begin
from letterfit.report.sharing import AHEAD, Lettered, Task, delivered
from letterfit.script.model import Script
from letterfit.script.sources import read_script

ScriptSource = Script | str | os.PathLike[str]
"""A parsed script, or the path of a file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ScriptBegun:
    r"""A script is read and its pages are planned; its pages come next.

    Args:
        source: The script's file name, or empty.
        report: Its report, still without pages.
        pages: How many pages will come.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n", source="a.txt")
    >>> begun = next(lf.preflight_stream([script]))
    >>> begun.source, begun.pages, begun.report.pages
    ('a.txt', 1, ())
    """

    source: str
    report: ScriptReport
    pages: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ScriptEnded:
    r"""All pages of a script have come.

    Args:
        source: The script's file name, or empty.
        fits: Whether all of it fits, as `ScriptReport.fits`.
        pages: How many pages came.
        pages_that_fit: On how many of them every panel is placed.
        panels: Panels on them.
        panels_that_fit: How many of these are placed.
        words: Words on them.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n", source="a.txt")
    >>> *_, ended = lf.preflight_stream([script])
    >>> ended.source, ended.fits, ended.panels, ended.words
    ('a.txt', True, 1, 1)
    """

    source: str
    fits: bool
    pages: int = 0
    pages_that_fit: int = 0
    panels: int = 0
    panels_that_fit: int = 0
    words: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class ScriptRefused:
    """A script cannot be used; nothing more of it comes.

    Args:
        source: The script's file name, or empty.
        error: What is wrong with it, and what to do.

    >>> import letterfit as lf
    >>> (refused,) = lf.preflight_stream(["no such file.txt"])
    >>> print(refused.error)
    no such file.txt: there is no such file; check the name
    """

    source: str
    error: LetterfitError


Told = ScriptBegun | PageReport | ScriptEnded | ScriptRefused
"""What `preflight_stream` tells."""


def preflight_stream(
    scripts: Iterable[ScriptSource],
    settings: PreflightSettings | None = None,
    *,
    executor: Executor | None = None,
    ahead: int = AHEAD,
) -> Generator[Told, None, None]:
    r"""Letter many scripts and tell of each page as it is known: thousands need no more memory.

    Args:
        scripts: Parsed scripts, or paths of files; they are taken, and files read, as they are
            needed.
        settings: How they are lettered; None is as `preflight` does without any.
        executor: Letters pages side by side, of several scripts too; None letters them one by one.
        ahead: Most tasks, each of up to sixteen pages, handed out and not yet taken: more than
            there are workers, so that none waits. At least 1.

    Returns:
        In the scripts' order, whatever the executor: of each one `ScriptBegun`, a `PageReport` for
        each page in script order, and `ScriptEnded`; or `ScriptRefused`, alone or after some of
        these, for a script that cannot be used. Closing the iterator takes back what nobody has
        begun. An executor that cannot go on ends it with an error of its own, such as the standard
        library's BrokenExecutor.

    Raises:
        LetterfitError: When the settings cannot be used, whatever the script (as the iteration
            begins).

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n")
    >>> for told in lf.preflight_stream([script, "no such file.txt"]):
    ...     print(type(told).__name__)
    ScriptBegun
    PageReport
    ScriptEnded
    ScriptRefused
    """
    chosen, tally = settings or PreflightSettings(), _Tally()
    chosen.of(Script(pages=()))
    items = _items(scripts, chosen, executor)
    found: Generator[Lettered | _Said, None, None] = delivered(items, executor, ahead=max(1, ahead))
    with closing(found):
        for one in found:
            if isinstance(one, Lettered):
                yield from tally.lettered(one)
            else:
                yield from tally.said(one)


def preflight_many(
    scripts: Iterable[ScriptSource],
    settings: PreflightSettings | None = None,
    *,
    executor: Executor | None = None,
    ahead: int = AHEAD,
) -> Iterator[tuple[str, ScriptReport | LetterfitError]]:
    r"""Letter many scripts: for each its report, or what is wrong with it.

    Args:
        scripts: Parsed scripts, or paths of files.
        settings: As in `preflight_stream`.
        executor: As in `preflight_stream`.
        ahead: As in `preflight_stream`, a number of tasks.

    Returns:
        For each script, in the order given and each once, its source and its report, the same as
        `preflight` makes; or the error that `read_script` or `preflight` would raise, which ends
        no other script.

    Raises:
        LetterfitError: As `preflight_stream`, when the settings cannot be used.

    >>> import letterfit as lf
    >>> script = lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n", source="a.txt")
    >>> for source, found in lf.preflight_many([script, "no such file.txt"]):
    ...     print(source, isinstance(found, lf.LetterfitError) or found.fits)
    a.txt True
    no such file.txt True
    """
    report: ScriptReport | None = None
    pages: list[PageReport] = []
    stream = preflight_stream(scripts, settings, executor=executor, ahead=ahead)
    with closing(stream) as all_told:
        for told in all_told:
            if isinstance(told, PageReport):
                pages.append(told)
            elif isinstance(told, ScriptBegun):
                report, pages = told.report, []
            elif isinstance(told, ScriptRefused):
                yield told.source, told.error
            elif report is not None:
                yield told.source, replace(report, pages=tuple(pages))


def told_of(report: ScriptReport) -> Iterator[Told]:
    r"""What `preflight_stream` would have told of a script whose report is done.

    >>> import letterfit as lf
    >>> report = lf.preflight(lf.parse_script("PAGE 1\n\nPanel 1. The lock.\nWENNA: Shut.\n"))
    >>> [type(told).__name__ for told in told_of(report)]
    ['ScriptBegun', 'PageReport', 'ScriptEnded']
    """
    tally = _Tally()
    bare = replace(report, pages=())
    yield from tally.said(ScriptBegun(source=report.source, report=bare, pages=len(report.pages)))
    yield from tally.lettered(Lettered(report.pages))
    yield from tally.said(_End())


@dataclass(frozen=True, slots=True)
class _End:
    """All tasks of a script are handed out."""


_Said = ScriptBegun | ScriptRefused | _End


def _items(
    scripts: Iterable[ScriptSource], settings: PreflightSettings, executor: Executor | None
) -> Iterator[Task | _Said]:
    """What is to be done and said, script by script; none is held while the next one is read."""
    for script in scripts:
        yield from _script_items(script, settings, executor)
        del script


def _script_items(
    script: ScriptSource, settings: PreflightSettings, executor: Executor | None
) -> Iterator[Task | _Said]:
    source = script.source if isinstance(script, Script) else os.fspath(script)
    try:
        known = script if isinstance(script, Script) else read_script(script)
        begun = begin(known, settings)
    except LetterfitError as error:
        yield ScriptRefused(source=source, error=error)
        return
    yield ScriptBegun(source=source, report=begun.report, pages=len(begun.jobs))
    yield from begun.tasks(executor, alone=False)
    yield _End()


@dataclass(slots=True)
class _Tally:
    """What came of the script that is told of."""

    begun: ScriptBegun | None = None
    ended: ScriptEnded = field(default_factory=lambda: ScriptEnded(source="", fits=True))

    def said(self, item: _Said) -> Iterator[Told]:
        """Pass on what is said; the end with what came of the script, unless it was refused."""
        if isinstance(item, ScriptBegun):
            self.begun = item
            self.ended = ScriptEnded(source=item.source, fits=item.report.fits)
        if not isinstance(item, _End):
            yield item
        elif self.begun is not None:
            yield self.ended

    def lettered(self, found: Lettered) -> Iterator[Told]:
        """Pass on pages and count them; the first that could not be lettered ends the script."""
        if self.begun is None:
            return
        if found.error is not None:
            yield ScriptRefused(source=self.begun.source, error=found.error)
            self.begun = None
        else:
            self.ended = _counted(self.ended, found.pages)
            yield from found.pages


def _counted(ended: ScriptEnded, pages: Sequence[PageReport]) -> ScriptEnded:
    panels = [panel for page in pages for panel in page.panels]
    fitting = [page for page in pages if page.fits]
    sound = all(finding.severity != "error" for page in pages for finding in page.findings)
    return replace(
        ended,
        fits=ended.fits and sound and len(fitting) == len(pages),
        pages=ended.pages + len(pages),
        pages_that_fit=ended.pages_that_fit + len(fitting),
        panels=ended.panels + len(panels),
        panels_that_fit=ended.panels_that_fit + sum(one.verdict == "placed" for one in panels),
        words=ended.words + sum(page.words for page in pages),
    )
