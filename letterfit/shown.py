"""Values that notebooks show as a picture and in words, drawn by whoever knows how.

A notebook asks the value of a cell for `_repr_mimebundle_`, or for `_repr_html_` (IPython, "Rich
display"). The stages know nothing of drawing, so their values are only `Shown`; the outputs, which
stand below them, register here what they draw of each (`functools.singledispatch`), and are
imported when the first value is shown.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import singledispatch
from importlib import import_module

DRAWERS = "letterfit.output.notebook"
"""Whoever registers drawings is imported by this."""


@singledispatch
def as_html(value: object) -> str | None:  # noqa: ARG001 - asked of what nobody registered
    """A value as HTML that stands anywhere in a document; None for what nobody draws."""
    return None


@singledispatch
def as_text(value: object) -> str:
    """A value as lines of text, as a terminal would show them."""
    return repr(value)


class Shown:
    """A value that a notebook shows by itself when it is the last of a cell.

    The same value gives the same characters; `repr` stays what it is.

    >>> sorted(Shown()._repr_mimebundle_())
    ['text/plain']
    """

    __slots__ = ()

    def _repr_html_(self) -> str | None:
        import_module(DRAWERS)
        return as_html(self)

    def _repr_mimebundle_(
        self,
        include: object = None,  # noqa: ARG002 - IPython leaves out by itself what it does not want
        exclude: object = None,  # noqa: ARG002
    ) -> dict[str, str]:
        html = self._repr_html_()
        drawn = {} if html is None else {"text/html": html}
        return {**drawn, "text/plain": as_text(self)}


@dataclass(frozen=True, slots=True)
class SideBySide(Shown):
    """Several values that a notebook shows beside each other, as far as they go on a line.

    Args:
        values: Balloons, panels, pages: whatever a notebook draws.

    >>> import letterfit as lf
    >>> front = lf.balloon_front("Hold a little longer, old thing.")
    >>> lf.SideBySide(front)._repr_html_().count("<img") == len(front)
    True
    """

    values: Sequence[Shown]
