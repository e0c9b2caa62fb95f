"""A house's own limits, read from TOML: its rules in the place of common practice.

[balloon]
words_per_balloon = 22
lines_per_balloon = 6

[panel]
coverage = 0.3                # share of a panel under lettering
words_per_panel = 30
balloons_per_panel = 3

[tier]
words_per_tier = 90
panels_per_tier = 4

[page]
words_per_page = 180
panels_per_page = 9

[type]
least_size_pt = 6.5

[figure]
figure_aspect = 0.35          # width over height of the figure box
whole_figure = 0.5            # share of a panel's height
steady_share = 0.7            # share of the page's middle figure room

Every key is the name of a limit and may be left out; what is left out is common practice.
"""

from letterfit.report.limits import Limits
from letterfit.toml_lines import TomlLines, is_number, load_toml, value_told

TABLES: dict[str, tuple[str, ...]] = {
    "balloon": ("words_per_balloon", "lines_per_balloon"),
    "panel": ("coverage", "words_per_panel", "balloons_per_panel"),
    "tier": ("words_per_tier", "panels_per_tier"),
    "page": ("words_per_page", "panels_per_page"),
    "type": ("least_size_pt",),
    "figure": ("figure_aspect", "whole_figure", "steady_share"),
}
"""Tables and their keys."""

MOST_COUNT = 100_000
"""A limit of more words, lines, balloons or panels than this is a slip."""

RANGES: dict[str, tuple[float, float]] = {
    "coverage": (0.01, 1.0),
    "least_size_pt": (1.0, 72.0),
    "figure_aspect": (0.05, 5.0),
    "whole_figure": (0.01, 1.0),
    "steady_share": (0.01, 1.0),
}
"""The least and the greatest value of each limit that is no count."""


def parse_limits(text: str, *, source: str = "") -> Limits:
    r"""The limits that a house states in TOML 1.0.0; those it leaves out are common practice.

    Args:
        text: The file's text: tables named balloon, panel, tier, page, type and figure, whose keys
            are the names of the limits.
        source: Its name, for messages.

    Returns:
        The limits; `Limits.house` names those that the text states.

    Raises:
        PageError: When it is no TOML, is too long, or holds a key that means nothing or a value of
            the wrong type or out of its range. The message names the key and its line.

    >>> limits = parse_limits("[panel]\nwords_per_panel = 30\ncoverage = 0.3")
    >>> limits.words_per_panel, limits.coverage, limits.words_per_page, limits.house
    (30, 0.3, 210, ('coverage', 'words_per_panel'))
    """
    table = load_toml(
        text,
        source=source,
        what="house rules",
        too_long="give each limit once",
        example="write tables such as [panel] with a line words_per_panel = 30",
    )
    lines = TomlLines(text, source)
    stated: dict[str, float] = {}
    for name, value in table.items():
        if name not in TABLES:
            raise lines.error(f"unknown key {name[:40]!r}", (name,), advice=_place_of(name))
        for key, limit in lines.table(value, (name,)).items():
            if key not in TABLES[name]:
                raise lines.error(
                    f"unknown key {key[:40]!r}", (name, key), advice=_place_of(key, table=name)
                )
            stated[key] = _checked(limit, (name, key), lines)
    house = tuple(name for name in Limits.names() if name in stated)
    return _limits(stated, house)


def _limits(stated: dict[str, float], house: tuple[str, ...]) -> Limits:
    usual = Limits()
    return Limits(house=house, **{n: stated.get(n, getattr(usual, n)) for n in Limits.names()})


def _checked(value: object, path: tuple[str, str], lines: TomlLines) -> float:
    """A limit's value, in its range."""
    key = path[1]
    if key in RANGES:
        least, greatest = RANGES[key]
        advice = f"give a number from {least:g} to {greatest:g}"
        if not is_number(value):
            raise lines.error(f"{value_told(value)} is no number", path, advice=advice)
    else:
        least, greatest = 1, MOST_COUNT
        advice = f"give a whole number from 1 to {MOST_COUNT}"
        if not isinstance(value, int) or isinstance(value, bool):
            raise lines.error(f"{value_told(value)} is no whole number", path, advice=advice)
    if not least <= value <= greatest:
        raise lines.error(f"{value_told(value)} is out of range", path, advice=advice)
    return value


def _place_of(key: str, *, table: str = "") -> str:
    """Where a key belongs; or, where it means nothing, the keys that do."""
    for name, keys in TABLES.items():
        if key in keys:
            return f"it stands under [{name}]"
    if table:
        return f"the keys are {', '.join(TABLES[table])}"
    return f"the tables are {', '.join(f'[{name}]' for name in TABLES)}"
