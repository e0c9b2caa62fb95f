"""Pages shared out: small tasks, fonts sent once a process, no more under work than asked."""

import pickle
from collections.abc import Callable, Iterator
from concurrent.futures import Executor, Future
from itertools import cycle
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.errors import FontError
from letterfit.lettering.fonts import sending
from letterfit.lettering.fonts.fontfile import FontFile
from letterfit.lettering.settings import Lettering
from letterfit.output.report_json import to_json
from letterfit.report import sharing
from letterfit.report.model import PageReport
from letterfit.report.page import PageJob
from letterfit.report.preflighting import Begun, PreflightSettings, begin, report_script
from letterfit.report.setting import Setting
from letterfit.report.sharing import SENT, TOGETHER, Answer, Lettered, Sent, delivered, tasks_of
from letterfit.script.model import Script
from letterfit.script.parse import parse_script

FONT = Path(__file__).parents[1] / "data" / "fonts" / "YuseiMagic" / "YuseiMagic-400Regular.ttf"

MOST_BYTES = 6_000
"""What a page of one short panel takes with its setting: a font of the user's has over ten times
that, and may have a thousand times."""


class Taken(Future[Answer]):
    """A future that knows whether anyone has taken its answer."""

    taken = False

    def result(self, timeout: float | None = None) -> Answer:
        """The answer."""
        self.taken = True
        return super().result(timeout)


class Posted(Executor):
    """Workers that share nothing: tasks and answers go as pickles, each keeps its own fonts.

    Args:
        workers: How many; tasks go to them in turn.
    """

    def __init__(self, workers: int) -> None:
        self.stores = cycle([dict[str, FontFile]() for _ in range(workers)])
        self.sizes: list[int] = []
        self.waiting: list[Taken] = []
        self.most = 0

    def submit(  # type: ignore[override]
        self, task: Callable[[Sent], Answer], sent: Sent, /
    ) -> "Future[Answer]":
        """Do the task at once, as a process of its own would."""
        self.waiting = [one for one in self.waiting if not one.taken] + [future := Taken()]
        self.most = max(self.most, len(self.waiting))
        data = pickle.dumps(sent)
        self.sizes.append(len(data))
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(sending, "_KEPT", next(self.stores))
            sharing._setting.cache_clear()
            try:
                future.set_result(pickle.loads(pickle.dumps(task(pickle.loads(data)))))  # noqa: S301 - our own
            finally:
                sharing._setting.cache_clear()
        return future


def pages(number: int) -> Script:
    """A script of pages with a panel and a balloon each."""
    page = "PAGE {}\n\nPanel 1. The lock.\n\nWENNA: Hold the gate, number {}!\n"
    return parse_script("\n".join(page.format(n, n) for n in range(1, number + 1)))


@pytest.fixture(scope="module")
def own_font() -> PreflightSettings:
    """Lettered in a font that is not bundled."""
    return PreflightSettings(lettering=Lettering(typeface=FONT))


@pytest.fixture(scope="module")
def begun() -> Begun:
    """A script of one page, begun."""
    return begin(pages(1), PreflightSettings())


@given(number=st.integers(0, 5_000), shared=st.booleans(), alone=st.booleans())
def test_every_page_is_in_one_task(begun: Begun, number: int, shared: bool, alone: bool) -> None:  # noqa: FBT001 - drawn by hypothesis
    """In script order, some at a time; few where several workers are to end together."""
    jobs = begun.jobs * number
    tasks = list(tasks_of(jobs, begun.setting, shared=shared, alone=alone))
    assert sum((task.sent.jobs for task in tasks), ()) == jobs
    most = SENT if shared else TOGETHER
    assert all(1 <= len(task.sent.jobs) <= most for task in tasks)
    if shared and alone:
        assert len(tasks) >= min(number, 9)
    else:
        assert len(tasks) == -(-number // most)


def test_a_font_is_sent_to_each_worker_and_not_with_each_task(
    own_font: PreflightSettings,
) -> None:
    """Three workers that have nothing: the font goes a few times; all other tasks are small."""
    script, executor = pages(16), Posted(3)
    report = report_script(script, own_font, executor=executor, progress=None)
    content = FONT.stat().st_size
    with_font = [size for size in executor.sizes if size > content]
    assert 3 <= len(with_font) <= 5
    assert all(size < MOST_BYTES for size in executor.sizes if size not in with_font)
    assert to_json(report) == to_json(report_script(script, own_font, executor=None, progress=None))


def test_bundled_fonts_are_never_sent(begun: Begun) -> None:
    """Every worker has them; a task has its pages and little else."""
    (task,) = tasks_of(begun.jobs, begun.setting, shared=True)
    assert task.fonts == ()
    assert len(pickle.dumps(task.sent)) < MOST_BYTES


def test_a_process_that_forgot_a_font_asks_for_it(
    own_font: PreflightSettings, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It keeps the fonts used last; for another it asks, and says nothing wrong."""
    begun = begin(pages(1), own_font)
    (task,) = tasks_of(begun.jobs, begun.setting, shared=True)
    monkeypatch.setattr(sending, "MOST_FONTS", 1)
    sending.keep_fonts([FontFile("another", b"font")])
    sharing._setting.cache_clear()
    assert sharing.answer(task.sent) is None
    assert sharing.answer(Sent(task.sent.setting, task.sent.jobs, task.fonts))


def test_no_more_is_handed_out_than_asked() -> None:
    """However long the script, tasks wait to be handed out until others were taken."""
    executor = Posted(1)
    begun = begin(pages(12), PreflightSettings())
    items = [*begun.tasks(executor)]
    found = [one for one in delivered(items, executor, ahead=3) if isinstance(one, Lettered)]
    assert len(found) == 12
    assert executor.most == 3


def test_whatever_is_said_keeps_its_place() -> None:
    """Words between tasks come out between their pages."""
    executor = Posted(1)
    begun = begin(pages(2), PreflightSettings())
    first, second = begun.tasks(executor)
    told = list(delivered(["a", first, "b", "c", second, "d"], executor))
    assert [one.pages[0].label if isinstance(one, Lettered) else one for one in told] == [
        *("a", "1", "b", "c", "2", "d")
    ]


class Idle(Executor):
    """Takes tasks and does none."""

    def __init__(self) -> None:
        self.futures: list[Future[Answer]] = []

    def submit(  # type: ignore[override]
        self,
        task: Callable[[Sent], Answer],  # noqa: ARG002 - not done
        sent: Sent,  # noqa: ARG002
        /,
    ) -> "Future[Answer]":
        """Only take it."""
        self.futures.append(Future())
        return self.futures[-1]


def test_what_nobody_has_begun_is_taken_back() -> None:
    """Whoever stops listening, or is interrupted, leaves no work behind."""
    executor = Idle()
    begun = begin(pages(4), PreflightSettings())
    stream = delivered(["a", *begun.tasks(executor)], executor, ahead=2)
    executor.futures.append(Future())

    def interrupted() -> Iterator[object]:
        yield from begun.tasks(executor)
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        list(delivered(interrupted(), executor, ahead=9))
    stream.close()
    assert len(executor.futures) == 1 + 4
    assert all(future.cancelled() for future in executor.futures[1:])


def test_lettering_that_cannot_be_used_is_raised_from_any_worker(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """An error of the user's comes out of `preflight` as it would without workers."""

    def refuse(jobs: tuple[PageJob, ...], _: Setting) -> tuple[PageReport, ...]:
        raise FontError(f"page {jobs[0].label} cannot be lettered")

    monkeypatch.setattr(sharing, "report_pages", refuse)
    for executor in (None, Posted(2)):
        with pytest.raises(FontError, match="page 1 cannot"):
            report_script(pages(3), PreflightSettings(), executor=executor, progress=None)
