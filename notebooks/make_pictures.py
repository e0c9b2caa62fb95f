"""Draw the README's pictures from the demo script: `python notebooks/make_pictures.py`.

Needs the test extra (resvg-py draws the SVG). Look at the pictures before you keep them.
"""

from importlib import resources
from pathlib import Path

import resvg_py

import letterfit as lf

FOLDER = Path(__file__).parent / "pictures"
DPI = 130


def main() -> None:
    """Write every page of the demo as PNG."""
    text = resources.files(lf).joinpath("demo", "slack_tide.txt").read_text(encoding="utf-8")
    report = lf.preflight(lf.parse_script(text))
    for page in report.pages:
        svg = lf.to_svg(page, lettering=report.lettering)
        image = resvg_py.svg_to_bytes(svg_string=svg, dpi=DPI, background="white")
        (FOLDER / f"slack-tide-{page.label}.png").write_bytes(bytes(image))


if __name__ == "__main__":
    main()
