"""The command line as a test calls it."""

from collections.abc import Callable

import pytest

from letterfit import cli

Run = Callable[..., tuple[int, str, str]]


def runner(capsys: pytest.CaptureFixture[str]) -> Run:
    """A function that runs the command line on its arguments: status, output, errors."""

    def run(*arguments: str) -> tuple[int, str, str]:
        with pytest.raises(SystemExit) as ended:
            cli.main(arguments)
        printed = capsys.readouterr()
        assert isinstance(ended.value.code, int)
        return ended.value.code, printed.out, printed.err

    return run
