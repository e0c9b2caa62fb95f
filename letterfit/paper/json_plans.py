"""Reading the plans of a script from JSON, as `plans_to_json` writes them.

    {"schema": 1, "paper": "us-comic", "gutter_mm": 3.0,
     "every_page": {"tiers": "2 / 2 / 2"},
     "pages": [{"page": 3, "tiers": [
       {"height": 1.5, "places": [{"width": 2}, {"stack": [{"places": [{}]}, {"places": [{}]}]}]}
     ]}]}

Everything but the tiers may be left out. Tiers are a list, or one line of the notation.
"""

from collections.abc import Callable, Mapping
from typing import TypeVar, cast

from letterfit.errors import PageError
from letterfit.geometry import Rect
from letterfit.json_paths import JsonNode, load_json
from letterfit.paper.model import Plans
from letterfit.paper.notation import DEEPEST, LONGEST_PLAN, MOST_PANELS_A_TIER, parse_tiers
from letterfit.paper.shapes import (
    CORNERS,
    PLAIN,
    Cell,
    Corner,
    InsetShape,
    PageShape,
    PanelShape,
    StackShape,
    TierShape,
)
from letterfit.paper.sheet import BLEED_MM, GUTTER_MM, Paper

SCHEMA = 1
"""The version of the format: it changes only when a reader of the old one would break."""

MOST_PAGES, MOST_TIERS, MOST_INSETS = 10_000, 200, 4
"""More pages, tiers of a page or stack, or insets of a panel are a slip; a panel has four corners.

A tier of a live area of 5 m, the highest there is, would be 25 mm high."""

LAST_PAGE = 999_999

EXAMPLE = 'write {"pages": [{"page": 3, "tiers": "3 / 2:1"}]}'
RATIO, LENGTH = "give a ratio such as 1.5", "give a length in mm"

Members = Mapping[str, JsonNode]
T = TypeVar("T")


def parse_json_plans(text: str, *, source: str = "") -> Plans:
    """The plans that a JSON text states (RFC 8259).

    Args:
        text: The file's text.
        source: Its name, for messages.

    Raises:
        PageError: When it is no JSON, holds a key that means nothing, a value of another type or a
            number out of its range. The message names the path.

    >>> parse_json_plans('{"pages": [{"page": 3, "tiers": "1 / 3"}]}').shape(3).panel_count
    4
    """
    root = load_json(text, source=source, what="plans", example=EXAMPLE)
    known = ("schema", "letterfit", "paper", "gutter_mm", "every_page", "pages")
    plans = root.members(known=known)
    _check_schema(plans)
    gutter = _gutter(plans, None)
    every = plans.get("every_page")
    return Plans(
        every_page=None if every is None or every.value is None else _every(every, gutter),
        pages=_pages(plans["pages"], gutter) if "pages" in plans else (),
        paper=_paper(plans["paper"]) if "paper" in plans else None,
        gutter_mm=gutter,
        source=source,
    )


def _check_schema(plans: Members) -> None:
    if "schema" in plans and plans["schema"].value != SCHEMA:
        raise plans["schema"].error("not schema 1", advice="give plans of schema 1")


def _gutter(members: Members, inherited: float | None) -> float | None:
    """A gutter; null is the paper's own, and one left out is that of all pages."""
    node = members.get("gutter_mm")
    if node is None:
        return inherited
    if node.value is None:
        return None
    advice = "give a length from 0 to 100 mm"
    value = node.number(advice=advice)
    if not 0 <= value <= 100:
        raise node.error(f"no width of a gutter: {value:g}", advice=advice)
    return value


def _paper(node: JsonNode) -> Paper | None:
    if node.value is None:
        return None
    if isinstance(node.value, str):
        name = node.text(advice="give a name or a size such as 170x260mm")
        return _told(node, lambda: Paper.named(name))
    paper = node.members(known=("name", "trim", "live", "bleed_mm", "gutter_mm", "pages"))
    if "trim" not in paper:
        raise node.error("no trim", advice='give a width and a height in mm: "trim": [170, 260]')
    width, height = _lengths(paper["trim"], 2)
    live = _lengths(paper["live"], 4) if "live" in paper else None
    bleed = paper["bleed_mm"].number(advice=LENGTH) if "bleed_mm" in paper else BLEED_MM
    gutter = paper["gutter_mm"].number(advice=LENGTH) if "gutter_mm" in paper else GUTTER_MM
    name = paper["name"].text(advice="give a name") if "name" in paper else ""
    pages = paper["pages"].whole(least=1, most=2) if "pages" in paper else 1
    return _told(
        node,
        lambda: Paper(
            trim=(width, height),
            live=Rect(*live) if live else None,
            bleed=bleed,
            gutter_mm=gutter,
            name=name,
            pages=pages,
        ),
    )


def _lengths(node: JsonNode, count: int) -> list[float]:
    advice = f"give {count} lengths in mm"
    items = node.items(most=count)
    if len(items) != count:
        raise node.error(f"a list of {len(items)}", advice=advice)
    return [item.number(advice=advice) for item in items]


def _every(node: JsonNode, gutter: float | None) -> PageShape:
    return _shape(node.members(known=("tiers", "gutter_mm")), node, gutter)


def _pages(node: JsonNode, gutter: float | None) -> tuple[tuple[int, PageShape], ...]:
    if node.value == []:
        return ()
    pages: dict[int, PageShape] = {}
    for item in node.items(most=MOST_PAGES):
        page = item.members(known=("page", "tiers", "gutter_mm"))
        if "page" not in page:
            raise item.error("no page", advice='give its number: "page": 3')
        number = page["page"].whole(least=0, most=LAST_PAGE)
        if number in pages:
            raise page["page"].error(f"page {number} has a plan already", advice="leave one out")
        pages[number] = _shape(page, item, gutter)
    return tuple(sorted(pages.items(), key=lambda pair: pair[0]))


def _shape(members: Members, node: JsonNode, gutter: float | None) -> PageShape:
    if "tiers" not in members:
        raise node.error("no tiers", advice='give tiers, such as "tiers": "3 / 2:1"')
    return PageShape(tiers=_tiers(members["tiers"], 0), gutter_mm=_gutter(members, gutter))


def _tiers(node: JsonNode, depth: int) -> tuple[TierShape, ...]:
    if isinstance(node.value, str):
        line = node.text(advice="give tiers as a list", longest=LONGEST_PLAN)
        return _told(node, lambda: parse_tiers(line)).tiers
    return tuple(_tier(item, depth) for item in node.items(most=MOST_TIERS))


def _tier(node: JsonNode, depth: int) -> TierShape:
    tier = node.members(known=("height", "places"))
    if "places" not in tier:
        raise node.error("no places", advice='give its panels: "places": [{"width": 2}, {}]')
    places = [_place(item, depth) for item in tier["places"].items(most=MOST_PANELS_A_TIER)]
    height = tier["height"].number(advice=RATIO) if "height" in tier else 1.0
    widths, cells = zip(*places, strict=True)
    plain = all(cell == PLAIN for cell in cells)
    return _told(node, lambda: TierShape(widths, height, () if plain else cells))


def _place(node: JsonNode, depth: int) -> tuple[float, Cell]:
    place = node.members(known=("width", "bleeds", "insets", "stack"))
    width = place["width"].number(advice=RATIO) if "width" in place else 1.0
    if "stack" not in place:
        bleeds = place["bleeds"].flag() if "bleeds" in place else False
        panel = PanelShape(bleeds, _insets(place["insets"]) if "insets" in place else ())
        return width, PLAIN if panel == PLAIN else panel
    for name in ("bleeds", "insets"):
        if name in place:
            raise place[name].error("beside a stack", advice="give it to a panel of the stack")
    if depth == DEEPEST:
        raise place["stack"].error("stacks nested too deeply", advice="give the page fewer panels")
    return width, StackShape(_tiers(place["stack"], depth + 1))


def _insets(node: JsonNode) -> tuple[InsetShape, ...]:
    if node.value == []:
        return ()
    return tuple(_inset(item) for item in node.items(most=MOST_INSETS))


def _inset(node: JsonNode) -> InsetShape:
    inset = node.members(known=("corner", "width", "height"))
    for name in ("corner", "width", "height"):
        if name not in inset:
            raise node.error(f"no {name}", advice="give corner, width and height")
    corner = inset["corner"].text(advice=f"give one of {', '.join(CORNERS)}")
    width, height = (
        inset[name].number(advice="give a share of the panel's side, such as 0.4")
        for name in ("width", "height")
    )
    return _told(node, lambda: InsetShape(cast("Corner", corner), width, height))


def _told(node: JsonNode, make: Callable[[], T]) -> T:
    """What is made of a value, its own complaints told with the path."""
    try:
        return make()
    except PageError as error:
        raise node.error(error.what, advice=error.advice) from None
