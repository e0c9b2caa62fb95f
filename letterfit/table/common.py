"""One size for a whole table: the least of what its rows allow, and which of them bind it."""

from collections.abc import Sequence

from letterfit.table.model import CommonSize, FittedRow


def common_size(rows: Sequence[FittedRow], *, asked_pt: float) -> CommonSize:
    """The largest size at which all rows fit that can be helped at a legible size.

    Args:
        rows: The rows, fitted at the size asked for.
        asked_pt: That size.

    Returns:
        The size; which rows bind it (several when they allow the same to a hundredth of a point);
        what the others allow; which rows are left out.
    """
    sizes = {r.row.id: r.largest_size_pt for r in rows if r.largest_size_pt is not None}
    left_out = tuple(r.row.id for r in rows if r.largest_size_pt is None)
    if not sizes:
        return CommonSize(size_pt=None, bound_by=(), without_pt=None, left_out=left_out)
    size = min(asked_pt, *sizes.values())
    if size == asked_pt:
        return CommonSize(size_pt=size, bound_by=(), without_pt=None, left_out=left_out)
    bound_by = tuple(name for name, least in sizes.items() if least == size)
    others = [least for least in sizes.values() if least > size]
    return CommonSize(
        size_pt=size,
        bound_by=bound_by,
        without_pt=min(asked_pt, *others) if others else asked_pt,
        left_out=left_out,
    )
