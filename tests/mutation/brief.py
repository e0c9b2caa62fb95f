"""A pytest plugin for one mutant: processor time is bounded, and what is found is not shrunk."""

from resource import RLIMIT_CPU, setrlimit

from hypothesis import Phase, settings

MOST_SECONDS = 60
"""Processor time after which a mutant never ends; the tests chosen take a third of it."""


def pytest_configure() -> None:
    """The tests' own profile, without what only makes a failure easier to read."""
    setrlimit(RLIMIT_CPU, (MOST_SECONDS, MOST_SECONDS + 9))
    phases = (Phase.explicit, Phase.generate)
    settings.register_profile(
        "mutation", settings.get_profile("letterfit"), phases=phases, report_multiple_bugs=False
    )
    settings.load_profile("mutation")
