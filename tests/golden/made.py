"""What is kept, made now; and how a text made now may differ from one that was kept."""

import re
from importlib import resources
from pathlib import Path

import letterfit as lf

FOLDER = Path(__file__).parent
DEMO = "slack_tide.txt"

ROUNDED = 0.002
"""By how much a number may differ: in the third decimal, where the last digit of a sine on another
processor may round it the other way. Numbers with one last digit too many or too few in every sine,
cosine, logarithm and root differed by no more."""

NUMBER = re.compile(r"-?\d+\.\d+(?:e-?\d+)?|(?<![\w.#-])-?\d+(?![\w.])")


def made() -> dict[str, str]:
    """The demo script's report as JSON and its first page as SVG, by the names of their files."""
    text = resources.files(lf).joinpath("demo", DEMO).read_text(encoding="utf-8")
    report = lf.preflight(lf.parse_script(text, source=DEMO))
    page = lf.to_svg(report.pages[0], lettering=report.lettering, text="live")
    return {"report.json": lf.to_json(report), "page-1.svg": page}


def differences(kept: str, now: str) -> list[str]:
    """The lines that differ by more than rounding, each as it was and as it is.

    >>> differences('"x": 25.863', '"x": 25.862')
    []
    >>> differences('<g id="a" x="1.5">', '<g id="a" x="2.5">')
    ['<g id="a" x="1.5"> -> <g id="a" x="2.5">']
    """
    before, after = kept.splitlines(), now.splitlines()
    if len(before) != len(after):
        return [f"{len(before)} lines -> {len(after)} lines"]
    pairs = zip(before, after, strict=True)
    return [f"{one} -> {other}" for one, other in pairs if not _alike(one, other)]


def _alike(one: str, other: str) -> bool:
    if one == other:
        return True
    values = [list(map(float, NUMBER.findall(line))) for line in (one, other)]
    if NUMBER.sub("#", one) != NUMBER.sub("#", other):
        return False
    return all(abs(a - b) <= ROUNDED for a, b in zip(*values, strict=True))
