"""On what machine a run was made, when, and what else kept it busy meanwhile."""

import os
import platform
from dataclasses import dataclass
from datetime import UTC, datetime
from importlib.metadata import version
from pathlib import Path
from time import monotonic

PACKAGES = ("numpy", "uharfbuzz")

QUIET = 0.15
"""Cores that other work may keep busy in a run that counts as quiet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A run of benchmarks.

    Args:
        date: The day it began, UTC.
        processor: The processor's name, as the system tells it.
        cores: How many cores this process may use.
        versions: Python and the packages that the work is done in.
        elsewhere: How many cores other processes kept busy meanwhile; None where the system does
            not tell.
    """

    date: str
    processor: str
    cores: int
    versions: tuple[str, ...]
    elsewhere: float | None

    @property
    def told(self) -> str:
        """The run in one or two sentences."""
        said = f"{self.date}, {self.processor}, {self.cores} cores; {', '.join(self.versions)}."
        if self.elsewhere is None:
            return f"{said} What else the machine did meanwhile is not known."
        also = f"Other work kept {self.elsewhere:.1f} cores busy meanwhile"
        if self.elsewhere > QUIET:
            return f"{said} **Preliminary**: {also[0].lower()}{also[1:]}, so times are too long."
        return f"{said} {also}."


class Watch:
    """Watches the machine from where it is made."""

    def __init__(self) -> None:
        self._begun = monotonic()
        self._date = datetime.now(UTC).date().isoformat()
        self._others = _others_seconds()

    def run(self) -> Run:
        """The run so far. Processes that were waited for count as its own."""
        passed, others = monotonic() - self._begun, _others_seconds()
        known = self._others is not None and others is not None and passed > 0
        elsewhere = (others or 0) - (self._others or 0)
        return Run(
            date=self._date,
            processor=processor(),
            cores=len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else 1,
            versions=(
                f"Python {platform.python_version()}",
                *(f"{package} {version(package)}" for package in PACKAGES),
            ),
            elsewhere=max(0.0, elsewhere / passed) if known else None,
        )


def processor(cpuinfo: Path = Path("/proc/cpuinfo")) -> str:
    """The processor's name."""
    if cpuinfo.exists():
        for line in cpuinfo.read_text("utf-8").splitlines():
            name, _, value = line.partition(":")
            if name.strip() == "model name":
                return value.strip()
    return platform.processor() or platform.machine()


def _others_seconds(stat: Path = Path("/proc/stat")) -> float | None:
    """Processor seconds of all other processes since the machine began, on Linux (proc(5))."""
    if not stat.exists():
        return None
    user, nice, system, _idle, _wait, *interrupts = map(
        int, stat.read_text("ascii").splitlines()[0].split()[1:9]
    )
    ticks = user + nice + system + sum(interrupts)
    return ticks / os.sysconf("SC_CLK_TCK") - sum(os.times()[:4])
