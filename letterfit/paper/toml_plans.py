"""Reading the plans of a script from TOML.

paper = "us-comic"            # optional: a name or a size
gutter = 3.0                  # optional, mm

[all]                         # every page that says nothing else; tiers, gutter or both
tiers = "2 / 2 / 2"

[page.3]                      # one page; a spread by its first number
tiers = "3 / 2:1 @1.5 / 4"
gutter = 2.0

[[page.4.tiers]]              # the same, in the long form
panels = 3
height = 1.5
widths = [2, 1, 1]
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from letterfit.errors import PageError
from letterfit.paper.model import Plans
from letterfit.paper.notation import MOST_PANELS_A_TIER, parse_tiers
from letterfit.paper.shapes import PageShape, TierShape
from letterfit.paper.sheet import Paper
from letterfit.toml_lines import TomlLines, is_number, load_toml, value_told


def parse_toml_plans(text: str, *, source: str = "") -> Plans:
    r"""The plans that a TOML text states (TOML 1.0.0).

    Args:
        text: The file's text.
        source: Its name, for messages.

    Raises:
        PageError: When it is no TOML, holds a key that means nothing, or a number out of its range.
            The message names the key and, where it is known, the line.

    >>> plans = parse_toml_plans('[all]\ntiers = "2/2"\n[page.3]\ntiers = "1 / 3 @0.8"')
    >>> plans.shape(3).tiers[1].height, plans.every_page.panel_count
    (0.8, 4)
    """
    table = load_toml(
        text,
        source=source,
        what="plans",
        too_long="give one short table a page",
        example='write tables such as [page.3] with a line tiers = "3 / 2:1"',
    )
    lines = TomlLines(text, source)
    lines.check_keys(table, known=("paper", "gutter", "all", "page"), path=())
    gutter = _gutter(table, (), lines)
    every: PageShape | None = None
    if "all" in table:
        default = lines.table(table["all"], ("all",))
        gutter = _gutter(default, ("all",), lines) if "gutter" in default else gutter
        if default.keys() != {"gutter"}:
            every = _shape(default, ("all",), lines, gutter)
    return Plans(
        every_page=every,
        pages=_pages(table.get("page", {}), lines, gutter),
        paper=_paper(table, lines),
        gutter_mm=gutter,
        source=source,
    )


def _paper(table: Mapping[str, object], lines: TomlLines) -> Paper | None:
    name = table.get("paper")
    if name is None:
        return None
    if not isinstance(name, str):
        raise lines.error("not a name", ("paper",), advice='write paper = "us-comic"')
    try:
        return Paper.named(name)
    except PageError as error:
        raise lines.error(error.what, ("paper",), advice=error.advice) from None


def _gutter(table: Mapping[str, object], path: Sequence[str], lines: TomlLines) -> float | None:
    if "gutter" not in table:
        return None
    value = table["gutter"]
    if not is_number(value) or not 0 <= value <= 100:
        raise lines.error(
            "no width of a gutter", (*path, "gutter"), advice="give a length from 0 to 100 mm"
        )
    return float(value)


def _pages(
    value: object, lines: TomlLines, gutter: float | None
) -> tuple[tuple[int, PageShape], ...]:
    pages: dict[int, PageShape] = {}
    for key, table in lines.table(value, ("page",)).items():
        path = ("page", key)
        first = re.fullmatch(r"(\d{1,6})(?:-\d{1,6})?", key)
        if first is None:
            raise lines.error("no page number", path, advice="write [page.3]")
        if int(first[1]) in pages:
            raise lines.error("this page has a plan already", path, advice="leave one out")
        pages[int(first[1])] = _shape(table, path, lines, gutter)
    return tuple(sorted(pages.items(), key=lambda item: item[0]))


def _shape(
    value: object, path: tuple[str, ...], lines: TomlLines, gutter: float | None
) -> PageShape:
    table = lines.table(value, path)
    lines.check_keys(table, known=("tiers", "gutter"), path=path)
    here = (*path, "tiers")
    try:
        shape = _tiers(table.get("tiers"), here, lines)
    except PageError as error:
        if error.line is not None:
            raise
        raise lines.error(error.what, here, advice=error.advice) from None
    own = _gutter(table, path, lines)
    width = gutter if own is None else own
    return replace(shape, gutter_mm=width, line=lines.find(here))


def _tiers(value: object, path: tuple[str, ...], lines: TomlLines) -> PageShape:
    if isinstance(value, str):
        return parse_tiers(value)
    if isinstance(value, list) and value:
        return PageShape(tiers=tuple(_tier(tier, path, lines) for tier in value))
    raise PageError("no tiers", advice='write tiers = "3 / 2:1 / 4"')


def _tier(value: object, path: tuple[str, ...], lines: TomlLines) -> TierShape:
    table = lines.table(value, path)
    lines.check_keys(table, known=("panels", "height", "widths"), path=path)
    height = _number(table.get("height", 1.0), "height")
    stated = table.get("widths")
    count = _panels(table.get("panels", len(stated) if isinstance(stated, list) else None))
    if stated is None:
        return TierShape((1.0,) * count, height)
    if not isinstance(stated, list):
        raise PageError("widths is no list", advice="write widths = [2, 1]")
    if len(stated) != count:
        raise PageError(
            f"a tier of {count} panels with {len(stated)} widths", advice="give one width a panel"
        )
    return TierShape(tuple(_number(width, "widths") for width in stated), height)


def _panels(value: object) -> int:
    if type(value) is not int or not 1 <= value <= MOST_PANELS_A_TIER:
        without = "a tier without a number of panels"
        raise PageError(
            without if value is None else f"panels = {value_told(value)}",
            advice=f"give panels, a whole number from 1 to {MOST_PANELS_A_TIER}",
        )
    return value


def _number(value: object, what: str) -> float:
    if not is_number(value):
        raise PageError(
            f"{what} holds {value_told(value)}, no number", advice="give ratios such as 1.5"
        )
    try:
        return float(value)
    except OverflowError:
        raise PageError(f"{what} holds too large a number", advice="give a ratio") from None
