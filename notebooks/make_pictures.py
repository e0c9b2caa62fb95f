"""Draw the README's pictures: `python notebooks/make_pictures.py`.

They are pages of the demo script and of a Japanese one. Needs the test extra (resvg-py draws the
SVG). Look at the pictures before you keep them.
"""

from importlib import resources
from pathlib import Path

import resvg_py

import letterfit as lf

FOLDER = Path(__file__).parent / "pictures"
DATA = Path(__file__).parents[1] / "tests" / "data"
DPI = 130


def main() -> None:
    """Write the demo's pages and its sheet of figures, and the vertical script's pages, as PNG."""
    text = resources.files(lf).joinpath("demo", "slack_tide.txt").read_text(encoding="utf-8")
    report = lf.preflight(lf.parse_script(text))
    draw(report, "slack-tide")
    write(lf.figures_to_svg(report), "slack-tide-figures")
    face = DATA / "fonts" / "MPLUSRounded1c" / "MPLUSRounded1c-500Medium.ttf"
    columns = lf.Lettering(typeface=face, size_pt=8, writing="vertical")
    report = lf.preflight(
        lf.read_script(DATA / "columns" / "shiodome_tategaki.txt"),
        lettering=columns,
        effects=lf.Lettering(typeface=face, size_pt=14),
        paper=lf.Paper.named("b6-jis"),
    )
    draw(report, "shiodome")


def draw(report: lf.ScriptReport, name: str) -> None:
    """Write every page of a report as PNG."""
    for page in report.pages:
        write(lf.to_svg(page, lettering=report.lettering), f"{name}-{page.label}")


def write(svg: str, name: str) -> None:
    """Write a drawing as PNG."""
    image = resvg_py.svg_to_bytes(svg_string=svg, dpi=DPI, background="white")
    (FOLDER / f"{name}.png").write_bytes(bytes(image))


if __name__ == "__main__":
    main()
