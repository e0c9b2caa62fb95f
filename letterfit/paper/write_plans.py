"""Plans of a script written as the TOML that `parse_plans` reads."""

from letterfit.errors import PageError
from letterfit.paper.model import Plans
from letterfit.paper.notation import write_tiers
from letterfit.paper.shapes import PageShape
from letterfit.paper.sheet import Paper


def plans_to_toml(plans: Plans) -> str:
    r"""Plans as TOML 1.0.0.

    Args:
        plans: The plans.

    Returns:
        What `parse_plans` reads back, ratios to six decimals; pages by number. Paper that has no
        name, or one that nobody knows, is written as its size: TOML says no live area.

    >>> from letterfit import parse_tiers
    >>> print(plans_to_toml(Plans(pages=((3, parse_tiers("3 / 2:1 @1.5")),))), end="")
    [page.3]
    tiers = "3 / 2:1 @1.5"
    """
    head = []
    if plans.paper is not None:
        head.append(f'paper = "{_paper(plans.paper)}"')
    if plans.gutter_mm is not None:
        head.append(f"gutter = {_length(plans.gutter_mm)}")
    tables = ["\n".join(head)] if head else []
    if plans.every_page is not None:
        tables.append(_table("all", plans.every_page, plans.gutter_mm))
    tables += [_table(f"page.{n}", shape, plans.gutter_mm) for n, shape in plans.pages]
    return "\n\n".join(tables) + "\n"


def _paper(paper: Paper) -> str:
    """A name or a size by which a paper of this trim is found."""
    name = paper.name.replace(" ", "")
    try:
        known = Paper.named(name).trim == paper.trim
    except PageError:
        known = False
    width, height = paper.trim
    return name if known else f"{width!r}x{height!r}mm"


def _table(name: str, shape: PageShape, gutter_mm: float | None) -> str:
    lines = [f"[{name}]", f'tiers = "{write_tiers(shape)}"']
    if shape.gutter_mm is not None and shape.gutter_mm != gutter_mm:
        lines.append(f"gutter = {_length(shape.gutter_mm)}")
    return "\n".join(lines)


def _length(millimetres: float) -> str:
    return repr(float(millimetres))
