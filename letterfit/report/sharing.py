"""Pages shared out: some at a time, here or by whatever an executor has, results in their order.

What a task sends is small: its pages as typed and planned, and the setting as bytes that every task
of a script shares; fonts stay behind (`lettering/fonts/sending.py`). Tasks are handed out a number
ahead of what is taken, never all at once, so a long script needs no more memory than a short one.
"""

from collections import deque
from collections.abc import Generator, Iterable, Iterator, Sequence
from concurrent.futures import Executor, Future
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Generic, TypeVar, cast

from letterfit.errors import LetterfitError
from letterfit.lettering.fonts.fontfile import FontFile
from letterfit.lettering.fonts.sending import MissingFontsError, keep_fonts, packed, unpacked
from letterfit.report.model import PageReport
from letterfit.report.page import PageJob, report_pages
from letterfit.report.setting import Setting

TOGETHER = 24
"""Pages that are lettered at once: more save no more time, and nobody waits long for a sign."""

SENT = 16
"""Pages that are sent to a worker at once: few, so that what waits for its turn is not much."""

SHARES = 16
"""Into how many tasks a short script is cut, so that several workers end about together."""

AHEAD = 64
"""Tasks handed out ahead of what is taken: enough for some thirty workers, each with the next."""

Said = TypeVar("Said")


@dataclass(frozen=True, slots=True)
class Sent:
    """A task as it travels.

    Args:
        setting: The packed setting.
        jobs: The pages.
        fonts: The user's fonts, for a process that does not have them yet.
    """

    setting: bytes
    jobs: tuple[PageJob, ...]
    fonts: tuple[FontFile, ...] = ()


@dataclass(frozen=True, slots=True)
class Task:
    """Some pages of a script, ready to be sent.

    Args:
        sent: What travels at first, without fonts.
        setting: The setting itself.
        fonts: The fonts that it names.
    """

    sent: Sent
    setting: Setting
    fonts: tuple[FontFile, ...]


@dataclass(frozen=True, slots=True)
class Lettered:
    """What came of a task: its pages' reports, or why the lettering cannot be used."""

    pages: tuple[PageReport, ...] = ()
    error: LetterfitError | None = None


Answer = tuple[PageReport, ...] | LetterfitError | None
"""What a worker says; None asks for the fonts."""


def tasks_of(
    jobs: Sequence[PageJob], setting: Setting, *, shared: bool, alone: bool = True
) -> Iterator[Task]:
    """The tasks of a script, in its order.

    Args:
        jobs: Its pages.
        setting: How they are lettered.
        shared: Whether several workers may be at it; one takes as many at once as pay.
        alone: Whether no other script's pages keep them busy until the end.
    """
    size = SENT if shared else TOGETHER
    if shared and alone:
        size = min(size, -(-len(jobs) // SHARES))
    parcel = packed(setting)
    for start in range(0, len(jobs), size or 1):
        sent = Sent(parcel.data, tuple(jobs[start : start + size]))
        yield Task(sent, setting, parcel.fonts)


def answer(sent: Sent) -> Answer:
    """Letter the pages of a task: what a worker does.

    Returns:
        Their reports; an error where the lettering cannot be used; None where fonts are missing.
    """
    keep_fonts(sent.fonts)
    try:
        return report_pages(sent.jobs, _setting(sent.setting))
    except MissingFontsError:
        return None
    except LetterfitError as error:
        return error


@lru_cache(maxsize=16)
def _setting(data: bytes) -> Setting:
    """The setting, made once for all tasks of a script; in turn with others of a catalogue."""
    return cast("Setting", unpacked(data))


def delivered(
    items: Iterable[Task | Said], executor: Executor | None, *, ahead: int = AHEAD
) -> Generator[Lettered | Said, None, None]:
    """Every task's pages and everything else that is said, in the order of the items.

    Args:
        items: Tasks, and what is passed on as it is; taken as they are needed.
        executor: Letters tasks side by side; None does so here, one by one.
        ahead: Most tasks handed out and not yet taken.
    """
    if executor is None:
        for item in items:
            yield _lettered(_report_here(item), item) if isinstance(item, Task) else item
        return
    queue = _Queue[Said](executor, ahead=ahead)
    try:
        for item in items:
            queue.add(item)
            while queue.is_full:
                yield queue.take()
        while queue.items:
            yield queue.take()
    finally:
        queue.cancel()


def _report_here(task: Task) -> Answer:
    """Letter a task's pages in this process."""
    try:
        return report_pages(task.sent.jobs, task.setting)
    except LetterfitError as error:
        return error


@dataclass(frozen=True, slots=True)
class _Out:
    """A task that was handed out."""

    task: Task
    future: "Future[Answer]"


class _Queue(Generic[Said]):
    """Items in their order, tasks among them handed out.

    Args:
        executor: What works on them.
        ahead: Most tasks handed out and not yet taken.
    """

    def __init__(self, executor: Executor, *, ahead: int) -> None:
        self.executor = executor
        self.ahead = ahead
        self.items: deque[_Out | Said] = deque()
        self.out = self.done = 0
        self.known: set[tuple[str, ...]] = set()

    @property
    def is_full(self) -> bool:
        """Whether something is to be taken before more is added.

        With a font of the user's, workers that lack it would all ask for it at the head of a long
        queue: it grows as answers come in.
        """
        room = min(self.ahead, 2 * self.done + 2) if any(self.known) else self.ahead
        return self.out >= room or len(self.items) >= 4 * self.ahead

    def add(self, item: Task | Said) -> None:
        """Hand out a task; the first one with a font brings it along."""
        if not isinstance(item, Task):
            self.items.append(item)
            return
        keys = tuple(font.key for font in item.fonts)
        self.items.append(_Out(item, self._submit(item, with_fonts=keys not in self.known)))
        self.known.add(keys)
        self.out += 1

    def take(self) -> Lettered | Said:
        """The first item; a task is waited for."""
        while True:
            first = self.items[0]
            if not isinstance(first, _Out):
                self.items.popleft()
                return first
            found = first.future.result()
            if found is not None:
                self.items.popleft()
                self.out -= 1
                self.done += 1
                return _lettered(found, first.task)
            self._send_fonts()

    def cancel(self) -> None:
        """Take back what nobody has begun."""
        for item in self.items:
            if isinstance(item, _Out):
                item.future.cancel()

    def _submit(self, task: Task, *, with_fonts: bool) -> "Future[Answer]":
        sent = replace(task.sent, fonts=task.fonts) if with_fonts else task.sent
        return self.executor.submit(answer, sent)

    def _send_fonts(self) -> None:
        """Hand out again, with their fonts, all tasks that came back for want of them."""
        for place, item in enumerate(self.items):
            if isinstance(item, _Out) and _asks(item.future):
                self.items[place] = _Out(item.task, self._submit(item.task, with_fonts=True))


def _asks(future: "Future[Answer]") -> bool:
    """Whether a worker came back for want of fonts."""
    return future.done() and future.exception() is None and future.result() is None


def _lettered(found: Answer, task: Task) -> Lettered:
    if isinstance(found, LetterfitError):
        return Lettered(error=found)
    return Lettered(tuple(replace(page, setting=task.setting) for page in found or ()))
