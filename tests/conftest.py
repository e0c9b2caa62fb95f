"""Settings for every test: hypothesis draws the same examples on every machine."""

import gc
import os
from collections.abc import Generator

import pytest
from hypothesis import HealthCheck, settings

settings.register_profile(
    "letterfit",
    derandomize=True,  # the same inputs on every run: a red test stays red
    database=None,
    deadline=None,  # time is measured in benchmarks, never in tests
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("letterfit")

os.environ.pop("COLUMNS", None)  # whoever runs the tests in a wide window sees what all see


@pytest.hookimpl(wrapper=True)
def pytest_collection() -> Generator[None, object, object]:
    """No looking for garbage while thousands of tests are gathered, all of which stay."""
    gc.disable()
    try:
        return (yield)
    finally:
        gc.freeze()
        gc.enable()
