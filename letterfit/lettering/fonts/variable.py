"""The styles of a variable font: where on its axes regular, bold and italic stand."""

from collections.abc import Iterator, Mapping, Sequence

from letterfit.lettering.fonts.bundled import Style
from letterfit.lettering.fonts.contents import BOLD_WEIGHT, Axis, FileFace, style_of

REGULAR, BOLD = 400.0, 700.0
"""The usual weights (OpenType 1.9.1, axis tag "wght", which takes over usWeightClass)."""

HEAVIER, LEAST_HEAVIER = 200.0, 100.0
"""How much heavier than a weight that was chosen its bold is; with less it would not stand out
(common practice, no source)."""

SLANT = -15.0
"""Degrees: no text leans more."""

UPRIGHT_BELOW = 0.5
"""On the axis "ital" 0 is upright and 1 italic; in between the nearer one."""

Settings = tuple[tuple[str, float], ...]


def own_settings(axes: Sequence[Axis], chosen: Mapping[str, float]) -> Settings:
    """The settings of the face that was asked for: what is not chosen stays at its default.

    The weight is at regular, or as near to it as the axis allows: a font's default may be its
    thinnest.

    >>> own_settings([Axis("wght", "Weight", 100, 100, 900)], {})
    (('wght', 400.0),)
    """
    values = dict(chosen)
    for axis in axes:
        if axis.tag == "wght" and "wght" not in values:
            values["wght"] = _clamped(REGULAR, axis)
    return _settings(axes, values)


def is_bold(face: FileFace, chosen: Mapping[str, float]) -> bool:
    """Whether a variable font is bold where it was chosen; its name decides if it has no weight."""
    for axis in face.axes:
        if axis.tag == "wght":
            return chosen.get("wght", _clamped(REGULAR, axis)) >= BOLD_WEIGHT
    return "bold" in face.style


def is_italic(face: FileFace, chosen: Mapping[str, float]) -> bool:
    """Whether a variable font is italic where it was chosen; otherwise it says so itself."""
    if "ital" in chosen or "slnt" in chosen:
        return chosen.get("ital", 0) >= UPRIGHT_BELOW or chosen.get("slnt", 0) != 0
    return "italic" in face.style


def further_settings(
    axes: Sequence[Axis], chosen: Mapping[str, float], *, italic: bool
) -> Iterator[tuple[Style, Settings]]:
    """The styles that a variable font has besides the face that was asked for.

    Args:
        axes: The axes of the font.
        chosen: The values that were chosen, by tag.
        italic: Whether the face that was asked for is italic.

    >>> weight = Axis("wght", "Weight", 100, 400, 900)
    >>> list(further_settings([weight], {}, italic=False))
    [('bold', (('wght', 700.0),))]
    """
    own = dict(own_settings(axes, chosen))
    heavy = _heavy(axes, chosen)
    slanted = {} if italic else _slanted(axes, chosen)
    for more, bold, leans in (
        (heavy, True, italic),
        (slanted, False, True),
        ({**heavy, **slanted} if heavy and slanted else {}, True, True),
    ):
        if more:
            yield style_of(bold=bold, italic=leans), _settings(axes, {**own, **more})


def _heavy(axes: Sequence[Axis], chosen: Mapping[str, float]) -> dict[str, float]:
    """The weight of its bold; empty when the axis does not go that far."""
    for axis in axes:
        if axis.tag == "wght":
            own = chosen.get("wght", _clamped(REGULAR, axis))
            heavy = min(max(BOLD, own + HEAVIER), axis.high)
            if heavy >= max(BOLD_WEIGHT, own + LEAST_HEAVIER):
                return {"wght": heavy}
    return {}


def _slanted(axes: Sequence[Axis], chosen: Mapping[str, float]) -> dict[str, float]:
    """The settings of its italic; empty when it has none."""
    found = {}
    for axis in axes:
        if axis.tag in chosen:
            continue
        if axis.tag == "ital" and axis.high >= 1:
            found["ital"] = 1.0
        if axis.tag == "slnt" and axis.low < 0 <= axis.high:
            found["slnt"] = max(axis.low, SLANT)
    return found


def _clamped(value: float, axis: Axis) -> float:
    return max(axis.low, min(value, axis.high))


def _settings(axes: Sequence[Axis], values: Mapping[str, float]) -> Settings:
    """What differs from the font's defaults, in the order of tags."""
    defaults = {axis.tag: axis.default for axis in axes}
    return tuple(sorted((t, v) for t, v in values.items() if v != defaults.get(t)))
