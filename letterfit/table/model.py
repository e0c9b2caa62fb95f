"""What a table is: rows of texts with their outlines, and each of them fitted."""

from dataclasses import dataclass

from letterfit.fit.model import FittedBalloon
from letterfit.outline import Outline
from letterfit.shown import Shown

LEAST_SIZE_PT = 6.0
"""The least legible type size where nobody says another: common practice, advice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TextRow:
    r"""A text and the outline it is to go into.

    Args:
        id: What the row is called; no two rows of a table share it.
        text: The words of one balloon, emphasis marked as in a script.
        outline: The outline.
        language: The text's language, a BCP 47 code; None takes the table's.
        place: Where the row stands, for messages, such as "line 3"; may be empty.

    >>> import letterfit as lf
    >>> (row,) = lf.parse_table(b"id,text,outline,width,height\n1.1,Ahoy!,ellipse,20,10\n")
    >>> row.id, row.text, row.outline.half_width
    ('1.1', 'Ahoy!', 10.0)
    """

    id: str
    text: str
    outline: Outline
    language: str | None = None
    place: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedRow:
    """A row, its text set in its outline.

    Args:
        row: The row.
        fitted: The text as set; what is over, where it does not fit.
        largest_size_pt: The largest type size, up to the one asked for, at which all words fit, to
            a hundredth below; None when that is none, or under the least legible one.

    >>> import letterfit as lf
    >>> row = lf.TextRow(id="1.1", text="Ahoy!", outline=lf.Ellipse(half_width=12, half_height=6))
    >>> (fitted,) = lf.fit_table([row]).rows
    >>> fitted.fits, fitted.largest_size_pt, fitted.loses
    (True, 7.5, False)
    """

    row: TextRow
    fitted: FittedBalloon
    largest_size_pt: float | None

    @property
    def fits(self) -> bool:
        """Whether every word is set with the air asked for."""
        return self.fitted.fits

    @property
    def loses(self) -> bool:
        """Whether letters are lost: characters that no font has."""
        return any(finding.severity == "error" for finding in self.fitted.findings)


@dataclass(frozen=True, slots=True, kw_only=True)
class CommonSize:
    """One type size for a whole table.

    Args:
        size_pt: The largest size, up to the one asked for, at which every row fits that is not left
            out; None when every row is.
        bound_by: The ids of the rows that allow no larger size, in the order of the table; empty
            when the size asked for will do.
        without_pt: The size that the other rows allow; None when no row binds.
        left_out: The ids of the rows that do not fit at the least legible size: they need fewer
            words or a larger outline.

    >>> import letterfit as lf
    >>> gate = lf.Ellipse(half_width=12, half_height=6)
    >>> rows = [lf.TextRow(id="1.1", text="The last gate before the sea is shut.", outline=gate),
    ...         lf.TextRow(id="1.2", text="Ahoy!", outline=gate)]
    >>> common = lf.fit_table(rows, common=True).common
    >>> common.size_pt < common.without_pt, common.bound_by, common.left_out
    (True, ('1.1',), ())
    """

    size_pt: float | None
    bound_by: tuple[str, ...]
    without_pt: float | None
    left_out: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FittedTable(Shown):
    """A table, every row fitted.

    Args:
        rows: The rows, in the order given.
        asked_pt: The type size asked for.
        least_size_pt: The least legible size: no smaller one is offered (common practice; advice).
        common: The one size of all rows, when it was asked for: then rows are set at that size.

    >>> import letterfit as lf
    >>> row = lf.TextRow(id="1.1", text="Ahoy!", outline=lf.Ellipse(half_width=12, half_height=6))
    >>> table = lf.fit_table([row])
    >>> table.fits, table.size_pt, table.least_size_pt
    (True, 7.5, 6.0)
    """

    rows: tuple[FittedRow, ...]
    asked_pt: float
    least_size_pt: float
    common: CommonSize | None = None

    @property
    def size_pt(self) -> float:
        """The type size at which the rows are set."""
        if self.common is None or self.common.size_pt is None:
            return self.asked_pt
        return self.common.size_pt

    @property
    def fits(self) -> bool:
        """Whether every row fits as it is set, and no letter is lost."""
        return all(row.fits and not row.loses for row in self.rows)
