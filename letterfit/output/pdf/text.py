"""Lines as text operators (ISO 32000-1, 9.4), every glyph at its own place.

Units are micrometres on the page, y downwards, as for paths. Glyphs of one face on one baseline
share an operator; what their advances leave to their places is said between them, in tenths of a
thousandth of an em, from the pen as it really stands, so that no rounding adds up.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from letterfit.output.pdf.alphabet import Alphabet, actual_text
from letterfit.output.pdf.clusters import Cluster
from letterfit.output.pdf.runs import Run, Spot

DIGITS = 4
"""Decimals of the size of an em in micrometres."""


@dataclass(frozen=True, slots=True)
class SetFont:
    """What setting text asks of an embedded font.

    Args:
        resource: Its name among the page's resources.
        codes: The code of each glyph.
        widths: The advance of each glyph in thousandths of an em.
        space: Its space, None where it has none.
    """

    resource: str
    codes: Mapping[int, int]
    widths: Mapping[int, float]
    space: int | None


def text_operators(
    run: Run, fonts: Mapping[str, SetFont], alphabet: Alphabet
) -> tuple[list[str], list[str]]:
    """A line as text: its glyphs, and what they read where they do not say so themselves.

    Returns:
        The operators before those glyphs of it that are drawn, and after them.
    """
    clusters = alphabet.clusters(run)
    if not clusters:
        plain = _shown([(False, spot) for spot in run.spots], fonts)
        told = [actual_text(run.text)] if run.text else []
        return [*told, *(["BT", *plain, "ET"] if run.spots else [])], ["EMC"] if told else []
    parts = ["BT"]
    for spelt, group in groupby(clusters, key=alphabet.spells):
        if spelt:
            parts += _shown([glyph for cluster in group for glyph in _glyphs(cluster)], fonts)
            continue
        for cluster in group:
            head = actual_text(" " * cluster.space + cluster.text)
            parts += [head, *_shown([(False, spot) for spot in cluster.spots], fonts), "EMC"]
    return [*parts, "ET"], []


def _glyphs(cluster: Cluster) -> list[tuple[bool, Spot]]:
    """The glyphs of a cluster, each with whether a space stands before it."""
    return [(cluster.space and not k, spot) for k, spot in enumerate(cluster.spots)]


def _shown(glyphs: Sequence[tuple[bool, Spot]], fonts: Mapping[str, SetFont]) -> Iterator[str]:
    for (face, em, turned, _), part in groupby(glyphs, key=lambda pair: _stretch(pair[1])):
        font = fonts[face]
        stretch = list(part)
        first = stretch[0][1]
        size = number(em, DIGITS)
        matrix = f"0 {size} {size} 0" if turned else f"{size} 0 0 -{size}"
        yield f"/{font.resource} 1 Tf"
        yield f"{matrix} {first.x} {first.y} Tm"
        yield f"[{_array(stretch, font)}] TJ"


def _stretch(spot: Spot) -> tuple[str, float, bool, int]:
    """What glyphs of one operator have in common: face, size, direction and baseline."""
    return spot.face, spot.em, spot.turned, spot.x if spot.turned else spot.y


def _array(stretch: Sequence[tuple[bool, Spot]], font: SetFont) -> str:
    """Codes, and between them the tenths of a thousandth of an em that the pen goes back."""
    parts: list[str] = []
    codes: list[str] = []
    pen: float | None = None
    for space, spot in stretch:
        here = float(spot.y if spot.turned else spot.x)
        if space and pen is not None and font.space is not None:
            codes.append(f"{font.codes[font.space]:04X}")
            pen += font.widths[font.space] * spot.em / 1000
        back = 0.0 if pen is None else round((pen - here) / spot.em * 1000, 1)
        if back and pen is not None:
            parts += [f"<{''.join(codes)}>", number(back, 1)]
            codes = []
            pen -= back * spot.em / 1000
        codes.append(f"{font.codes[spot.glyph_id]:04X}")
        pen = (here if pen is None else pen) + font.widths[spot.glyph_id] * spot.em / 1000
    return "".join(parts) + f"<{''.join(codes)}>"


def number(value: float, digits: int) -> str:
    """A number without idle noughts.

    >>> number(2.50, 3), number(-0.0001, 3)
    ('2.5', '0')
    """
    text = f"{value:.{digits}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text
