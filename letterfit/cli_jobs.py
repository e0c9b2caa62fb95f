"""The option --jobs: worker processes that share out the pages."""

from collections.abc import Iterator
from concurrent.futures import Executor
from contextlib import contextmanager

import click

jobs_option = click.option(
    "--jobs",
    type=click.IntRange(1, 256),
    metavar="N",
    default=1,
    show_default=True,
    help="Processes that share out the pages.",
)


@contextmanager
def workers(jobs: int) -> Iterator[Executor | None]:
    """Worker processes for more than one job; HarfBuzz holds the interpreter's lock in threads.

    Whatever ends the work early, no page that nobody has begun is lettered any more.
    """
    if jobs == 1:
        yield None
        return
    from concurrent.futures import ProcessPoolExecutor  # noqa: PLC0415 - few ask for it
    from multiprocessing import get_context  # noqa: PLC0415

    executor = ProcessPoolExecutor(jobs, mp_context=get_context("spawn"))
    try:
        yield executor
    finally:
        executor.shutdown(cancel_futures=True)
