"""A catalogue on a cluster: two workers over TCP, one of them killed half way.

The scheduler is Dask's (https://distributed.dask.org, "Resilience": what a lost worker had under
work is given to others), the machine this one.
"""

import os
import signal
from itertools import islice
from pathlib import Path

from distributed import Client, LocalCluster

from letterfit.errors import LetterfitError
from letterfit.lettering.settings import Lettering
from letterfit.output.report_json import to_json
from letterfit.report.catalogue import preflight_many
from letterfit.report.model import ScriptReport
from letterfit.report.preflighting import PreflightSettings
from letterfit.script.model import Script
from letterfit.script.parse import parse_script

FONT = Path(__file__).parent / "data" / "fonts" / "YuseiMagic" / "YuseiMagic-400Regular.ttf"
SCRIPTS, AHEAD = 60, 12
BROKEN = 31


def scripts(number: int) -> list[Script | str]:
    """Small scripts, no two alike, and a file that is not there among them."""
    text = "PAGE 1\n\nPanel 1. The lock.\n\nWENNA: Gate {} is shut, and the tide has turned!\n"
    made: list[Script | str] = [
        parse_script(text.format(n), source=f"{n}.txt") for n in range(number)
    ]
    made[BROKEN] = "nowhere.txt"
    return made


def told(found: tuple[str, ScriptReport | LetterfitError]) -> tuple[str, str]:
    """What is compared of a script: its name, and its report's bytes or its error."""
    source, report = found
    return source, to_json(report) if isinstance(report, ScriptReport) else str(report)


def test_a_worker_killed_half_way_loses_and_doubles_nothing() -> None:
    """Every script is told once, in order, to the bytes of one process."""
    settings = PreflightSettings(lettering=Lettering(typeface=FONT))
    alone = list(map(told, preflight_many(scripts(SCRIPTS), settings)))
    with (
        LocalCluster(
            n_workers=2,
            threads_per_worker=1,
            host="127.0.0.1",
            protocol="tcp",
            dashboard_address=None,
        ) as cluster,
        Client(cluster) as client,
        client.get_executor() as executor,
    ):
        first, *_ = cluster.workers.values()
        stream = preflight_many(scripts(SCRIPTS), settings, executor=executor, ahead=AHEAD)
        found = list(map(told, islice(stream, SCRIPTS // 3)))
        os.kill(first.pid, signal.SIGKILL)
        found += map(told, stream)
    assert found == alone
    assert [source for source, _ in found].count("nowhere.txt") == 1
