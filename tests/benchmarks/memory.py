"""The most memory that a script of so many pages takes, each in a process of its own.

`python -m tests.benchmarks.memory kept PAGES` letters a script and keeps its report; `streamed`
writes each page as a line of JSON and lets go of it. Prints the peak in bytes.
"""

import resource
import subprocess
import sys
from itertools import islice
from pathlib import Path

import letterfit as lf
from tests.benchmarks.floors import TOP
from tests.benchmarks.texts import typed_script

PLAY = "hamlet"

WAYS = ("kept", "streamed")

MIB = 2**20


def peak_of(way: str, pages: int) -> int:
    """The peak of a process that letters so many pages one way, bytes."""
    done = subprocess.run(  # noqa: S603 - this file
        [sys.executable, "-m", "tests.benchmarks.memory", way, str(pages)],
        cwd=TOP,
        check=True,
        capture_output=True,
        text=True,
        timeout=600,
    )
    return int(done.stdout)


def letter(way: str, pages: int) -> object:
    """Letter a script one way."""
    script = lf.parse_script(typed_script(PLAY, pages=pages).text)
    if way == "kept":
        return lf.preflight(script)
    return sum(len(lf.to_json_line(told)) for told in lf.preflight_stream([script]))


def peak() -> int:
    """The most memory that this process had resident, bytes.

    Linux hands on the peak of the process that started this one as `ru_maxrss` (execve(2) keeps
    it), so what it says of the memory since then is asked first (VmHWM, proc(5)).
    """
    status = Path("/proc/self/status")
    if status.exists():
        for line in status.read_text("ascii", "replace").splitlines():
            if line.startswith("VmHWM:"):
                return int(line.split()[1]) * 1024
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most if sys.platform == "darwin" else most * 1024


if __name__ == "__main__":
    way, pages = islice(sys.argv, 1, 3)
    kept = letter(way, int(pages))
    sys.stdout.write(f"{peak()}\n")
