"""A pytest plugin that keeps the lines each test runs and its seconds of processor time."""

import json
from collections.abc import Generator
from importlib import import_module
from os import environ, times
from pathlib import Path
from typing import Any

import pytest

from tests.mutation.choosing import IMPORT
from tests.mutation.mutants import PACKAGES

LINES, SECONDS, FOLDER = "lines.sqlite", "seconds.json", "LETTERFIT_MUTATION"
"""The two files it keeps, and the variable that names their folder."""

seconds: dict[str, float] = {}
tracing: list[Any] = []


def pytest_configure() -> None:
    """Begin to trace before the library is imported."""
    tracer = import_module("coverage").Coverage(
        data_file=str(Path(environ[FOLDER]) / LINES),
        include=[str(Path.cwd() / "letterfit" / package / "*") for package in PACKAGES],
        config_file=False,
    )
    tracer.start()
    tracer.switch_context(IMPORT)
    tracing.append(tracer)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Generator[None, object, object]:
    """What runs now is the test's, what it takes to set up and tear down too."""
    tracing[0].switch_context(item.nodeid)
    began = sum(times()[:4])
    try:
        return (yield)
    finally:
        seconds[item.nodeid] = sum(times()[:4]) - began
        tracing[0].switch_context(IMPORT)


def pytest_sessionfinish() -> None:
    """Write what was seen."""
    tracing[0].stop()
    tracing[0].save()
    (Path(environ[FOLDER]) / SECONDS).write_text(json.dumps(seconds, indent=0))
