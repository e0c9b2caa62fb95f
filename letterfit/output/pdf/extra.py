"""The library that writes PDF, pikepdf, is an extra, imported when a PDF is asked for."""

from importlib.util import find_spec

from letterfit.errors import LetterfitError


def check_extra() -> None:
    """Complain unless a PDF can be written.

    Raises:
        LetterfitError: When pikepdf is not installed.
    """
    if find_spec("pikepdf") is None:
        raise LetterfitError("a PDF needs the package pikepdf", advice="pip install pikepdf")
