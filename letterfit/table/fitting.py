"""Fitting a table: every text in its own outline, and if asked, one size for all.

Where a text does not fit, the fit tells the largest size at which it would (`letterfit.fit.given`),
so the common size is the least of these: nothing is searched. It is rounded down to a hundredth of
a point, and every row is set again at it.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from letterfit.errors import OutlineError, TableError
from letterfit.fit.dressing import fit_words_into
from letterfit.fit.model import FittedBalloon
from letterfit.lettering.measuring import measure
from letterfit.lettering.settings import Lettering
from letterfit.lettering.words import Words
from letterfit.table.common import common_size
from letterfit.table.faults import cell_told, refuse
from letterfit.table.model import LEAST_SIZE_PT, FittedRow, FittedTable, TextRow


@dataclass(frozen=True, slots=True, eq=False)
class _Case:
    """A row, its text measured, and how it fits at the size asked for."""

    row: TextRow
    words: Words
    fitted: FittedBalloon


def fit_table(  # noqa: PLR0913 - keyword-only
    rows: Sequence[TextRow],
    lettering: Lettering | None = None,
    *,
    common: bool = False,
    least_size_pt: float = LEAST_SIZE_PT,
    language: str = "en",
    progress: Callable[[int, int], None] | None = None,
) -> FittedTable:
    """Set many texts, each in its own outline.

    Args:
        rows: The texts and outlines; `letterfit.read_table` reads them from a file.
        lettering: How to letter them; None is the bundled default.
        common: Whether all are to be set at one size: the largest, up to the lettering's own, at
            which every row fits that can be helped at all. A row that does not fit at the least
            legible size is left out of it, and told.
        least_size_pt: The least legible size: no smaller one is offered (common practice; advice).
        language: The language of rows that name none, a BCP 47 code.
        progress: Called with the rows fitted and all rows, after each row.

    Returns:
        Every row fitted, in the order given. The order changes nothing else.

    Raises:
        TableError: When an id stands twice, the least size is no size, or rows cannot be used (a
            text without visible characters or with over 1,000 words, an impossible outline): all
            are named.
        FontError: When the lettering cannot be used.

    >>> from letterfit import Ellipse
    >>> lock = TextRow(id="1.1", text="The last gate before the sea.",
    ...                outline=Ellipse(half_width=10, half_height=5))
    >>> hail = TextRow(id="1.2", text="Ahoy!", outline=Ellipse(half_width=10, half_height=5))
    >>> table = fit_table([lock, hail], common=True)
    >>> table.fits, table.common.bound_by, table.common.size_pt == table.size_pt < 7.5
    (True, ('1.1',), True)
    """
    chosen = lettering or Lettering()
    if not (math.isfinite(least_size_pt) and least_size_pt > 0):
        raise TableError(f"a least size of {least_size_pt} pt", advice="give a size over 0")
    _check_ids(rows)
    cases = _cases(rows, chosen, language=language, progress=progress)
    found = [
        FittedRow(
            row=case.row,
            fitted=case.fitted,
            largest_size_pt=_largest(case.fitted, least_size_pt=least_size_pt),
        )
        for case in cases
    ]
    table = FittedTable(rows=tuple(found), asked_pt=chosen.size_pt, least_size_pt=least_size_pt)
    return _at_one_size(table, cases, air_mm=chosen.air_mm) if common else table


def _check_ids(rows: Sequence[TextRow]) -> None:
    known: set[str] = set()
    faults = []
    for number, row in enumerate(rows, start=1):
        if row.id in known:
            faults.append((row.place or f"row {number}", f"the id {cell_told(row.id)} again"))
        known.add(row.id)
    refuse(faults)


def _cases(
    rows: Sequence[TextRow],
    lettering: Lettering,
    *,
    language: str,
    progress: Callable[[int, int], None] | None,
) -> list[_Case]:
    cases, faults = [], []
    for number, row in enumerate(rows, start=1):
        try:
            tag = row.language or language
            words = measure(row.text, lettering, language=tag, where=row.id)
            fitted = fit_words_into(words, row.outline, air_mm=lettering.air_mm)
            cases.append(_Case(row, words, fitted))
        except OutlineError as error:
            faults.append((row.place or f"row {number}", error.what))
        if progress is not None:
            progress(number, len(rows))
    refuse(faults)
    return cases


def _largest(fitted: FittedBalloon, *, least_size_pt: float) -> float | None:
    """The largest size, up to the one set, at which a text fits; None below the least."""
    over = fitted.overflow
    if over is None:
        return fitted.size_pt
    size = None if over.size_pt is None else math.floor(over.size_pt * 100) / 100
    return None if size is None or size < least_size_pt else size


def _at_one_size(table: FittedTable, cases: Sequence[_Case], *, air_mm: float) -> FittedTable:
    """Every row set at the common size, those left out too: they do not fit at it either."""
    common = common_size(table.rows, asked_pt=table.asked_pt)
    size = common.size_pt
    if size is None or size == table.asked_pt:
        return replace(table, common=common)
    again = [
        replace(
            found,
            fitted=fit_words_into(_sized(case.words, size), case.row.outline, air_mm=air_mm),
        )
        for case, found in zip(cases, table.rows, strict=True)
    ]
    return replace(table, rows=tuple(again), common=common)


def _sized(words: Words, size_pt: float) -> Words:
    """The same text at another size: shaping is linear in it."""
    return replace(words.scaled(size_pt / words.size_pt), size_pt=size_pt)
