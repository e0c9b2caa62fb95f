"""The option --watch: a command does its work again each time a file that it reads is saved.

Files are looked at by name a few times a second, which is a few microseconds for the handful that a
command reads and works everywhere: on network drives and in containers too, where a system's own
notices do not arrive, and with editors that save by writing another file and renaming it. A file
that changes is left to settle, so that one half written, or missing for a moment, is not read. Bad
input is told in one line and does not end the watch.
"""

import functools
import os
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

import click

from letterfit.cli_errors import one_line
from letterfit.cli_kept import keep, kept
from letterfit.cli_outputs import Writing, chosen_outputs
from letterfit.cli_screen import screen_colour, screen_width
from letterfit.cli_script import chosen_files, last_report
from letterfit.cli_status import FITS, INTERRUPTED, UNUSABLE
from letterfit.errors import LetterfitError
from letterfit.report.model import ScriptReport

INTERVAL_S = 0.4
"""How often files are looked at: soon enough for a person, and no work for the machine."""

SETTLE_S = 0.2
"""How long a file that changed must stay as it is before it is read."""

PATIENCE = 25
"""How often a file is waited for that goes on changing, or is gone: five seconds in all."""

Command = TypeVar("Command", bound=Callable[..., object])

Stamp = tuple[int, int, int] | None
"""When a file was changed, its size and which file it is; None where there is none."""

Look = Callable[[Sequence[str]], tuple[Stamp, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Surroundings:
    """What a watch needs of the world: the files, the time of day, and sleep."""

    look: Look
    clock: Callable[[], str]
    sleep: Callable[[float], None]


def stamps(names: Sequence[str]) -> tuple[Stamp, ...]:
    """How files stand now."""
    return tuple(map(_stamp, names))


def _stamp(name: str) -> Stamp:
    try:
        found = Path(name).stat()
    except (OSError, ValueError):
        return None
    return found.st_mtime_ns, found.st_size, found.st_ino


WORLD = Surroundings(look=stamps, clock=lambda: time.strftime("%H:%M:%S"), sleep=time.sleep)


class Watching(Writing):
    """A command on a script or a page that --watch does again and again."""

    surroundings = WORLD

    def invoke(self, ctx: click.Context) -> object:
        """Run once, or again and again until the user ends it; the status of the last run."""
        if not kept().get("watch"):
            return super().invoke(ctx)
        names = watched_files(self.read(ctx), ctx.params)
        return _Watch(functools.partial(super().invoke, ctx), names, self.surroundings).run()


def watch_option(command: Command) -> Command:
    """Add the option to a function that `click.command(cls=Watching)` makes a command of."""
    return click.option(
        "--watch",
        is_flag=True,
        expose_value=False,
        callback=keep,
        help="Do it again each time a file that it reads is saved; Ctrl-C ends it.",
    )(command)


def watched_files(given: Sequence[str], parameters: Mapping[str, object]) -> tuple[str, ...]:
    """The files that the running command reads, its arguments first.

    Args:
        given: Its arguments, such as the script.
        parameters: All that its function is called with.

    Raises:
        UsageError: When one of them cannot be watched, or would be written by the command.
    """
    if "-" in given:
        raise click.UsageError("--watch needs a file: standard input is read only once.")
    typeface = parameters.get("typeface")
    fonts = filter(_is_file, typeface) if isinstance(typeface, tuple) else ()
    names = tuple(dict.fromkeys((*given, *chosen_files(), *fonts)))
    for option, output, _ in chosen_outputs(parameters):
        if output == "-":
            raise click.UsageError(f"With --watch, {option} writes a file again and again, not -.")
        if any(_same(output, name) for name in names):
            raise click.UsageError(f"With --watch, {option} must not write what is read: {output}.")
    return names


def _is_file(name: str) -> bool:
    return Path(name).is_file()


def _same(one: str, other: str) -> bool:
    return os.path.realpath(one) == os.path.realpath(other)


class _Watch:
    """One watch: its files, and what the last check said."""

    def __init__(
        self, work: Callable[[], object], names: Sequence[str], surroundings: Surroundings
    ) -> None:
        self._work = work
        self._names = names
        self._world = surroundings
        self._status: int | None = None
        self._checked: tuple[str, ScriptReport] | None = None

    def run(self) -> int:
        """Work, and work again whenever a file was saved, until Ctrl-C."""
        try:
            while True:
                seen = self._world.look(self._names)
                self._once()
                self._wait(seen)
        except (KeyboardInterrupt, click.Abort):
            click.echo(err=True)  # the terminal shows ^C
            return INTERRUPTED if self._status is None else self._status

    def _once(self) -> None:
        """Work once and tell how it went; what no save can mend ends the first time."""
        first = self._status is None
        try:
            status = self._work()
        except (LetterfitError, OSError) as error:
            place = error.source if isinstance(error, LetterfitError) else error.filename
            if first and (place not in self._names or not Path(place).exists()):
                raise
            click.echo(one_line(error), err=True)
            self._status = UNUSABLE
            self._tell(None)
        else:
            self._status = status if isinstance(status, int) else FITS
            self._tell(last_report())

    def _tell(self, report: ScriptReport | None) -> None:
        """The time, the verdict, what changed, and how to go on, on standard error."""
        from letterfit.output.terminal.changes import write_checked  # noqa: PLC0415 - few watch
        from letterfit.output.terminal.sheet import Cell, Sheet  # noqa: PLC0415

        now = self._world.clock()
        sheet = Sheet(width=screen_width(err=True), colour=screen_colour(err=True))
        if report is not None:
            sheet.line()
        lead = len(now) + 2
        if report is None:
            verdict = "Not checked." if self._status == UNUSABLE else "Done."
            sheet.line(Cell(f"{now}  {verdict}", "strong"))
        else:
            since, before = self._checked or ("", None)
            write_checked(sheet, report, before=before, lead=f"{now}  ", since=since)
            self._checked = now, report
        names = ", ".join(self._names)
        told = f"{' ' * lead}Watching {names}: save to check again, Ctrl-C ends."
        sheet.line(Cell(told, "quiet"), indent=lead)
        click.echo(sheet.text(), err=True)

    def _wait(self, seen: tuple[Stamp, ...]) -> None:
        """Until a file is other than it was seen, and has settled."""
        while True:
            self._world.sleep(INTERVAL_S)
            now = self._world.look(self._names)
            if now == seen:
                continue
            for _ in range(PATIENCE):
                self._world.sleep(SETTLE_S)
                last, now = now, self._world.look(self._names)
                if now == last and None not in now:
                    break
            if now != seen:
                return
