"""Draw the README's pictures: `python notebooks/make_pictures.py`.

They are the pages that README's commands make of the demo, the examples and a Japanese script.
Needs the test extra (resvg-py draws SVG, pypdfium2 PDF). Look at the pictures before you keep them.
"""

from importlib import resources
from pathlib import Path

import pypdfium2
import resvg_py
from PIL import ImageOps

import letterfit as lf

TOP = Path(__file__).parents[1]
FOLDER, EXAMPLES, DATA = TOP / "notebooks" / "pictures", TOP / "examples", TOP / "tests" / "data"
DPI = 130
A5 = lf.Paper.named("a5")


def main() -> None:
    """Write every picture as PNG."""
    demo()
    proof()
    overlong()
    plan()
    columns()


def demo() -> None:
    """The demo's pages and its sheet of figures."""
    text = resources.files(lf).joinpath("demo", "slack_tide.txt").read_text(encoding="utf-8")
    report = lf.preflight(lf.parse_script(text))
    draw(report, "slack-tide")
    write(lf.figures_to_svg(report), "slack-tide-figures")


def proof() -> None:
    """The print proof of one page, and the page to check a print by."""
    script = lf.parse_script((EXAMPLES / "lamp.txt").read_text("utf-8"), source="lamp.txt")
    report = lf.preflight(script, lettering=lf.Lettering(size_pt=7), paper=A5)
    with pypdfium2.PdfDocument(lf.to_pdf(report)) as pages:
        for page, name in zip(pages, ("page", "check"), strict=True):
            framed = ImageOps.expand(page.render(scale=DPI / 72).to_pil(), 2, "silver")
            framed.quantize(64).save(FOLDER / f"lamp-proof-{name}.png", optimize=True)


def overlong() -> None:
    """A page with too many words: as written, with the cuts proposed, and in the tiers advised."""
    text = (EXAMPLES / "stairs.txt").read_text(encoding="utf-8")
    written = lf.preflight(lf.parse_script(text), paper=A5, cuts=True)
    draw(written, "stairs-written")
    lines = text.splitlines()
    [panel, *_] = written.pages[0].panels
    [proposal] = panel.cuts
    places = {balloon.id: balloon.line - 1 for balloon in panel.balloons}
    for cut in proposal.cuts:
        speaker, _, _ = lines[places[cut.where]].partition(": ")
        lines[places[cut.where]] = f"{speaker}: {cut.text}"
    draw(lf.preflight(lf.parse_script("\n".join(lines)), paper=A5), "stairs-cut")
    write(lf.to_svg(lf.tier_advice(written.pages[0]).after), "stairs-tiers")


def plan() -> None:
    """A plan's panels bare, and lettered."""
    script = lf.read_script(EXAMPLES / "lamp.txt")
    plans = lf.parse_plans((EXAMPLES / "plan.json").read_text(encoding="utf-8"))
    [page] = lf.plan_script(script, plans=plans, paper=A5)
    write(lf.page_plan_to_svg(page), "lamp-plan")
    draw(lf.preflight(script, plans=plans, paper=A5), "lamp-lettered")


def columns() -> None:
    """The vertical script's pages."""
    face = DATA / "fonts" / "MPLUSRounded1c" / "MPLUSRounded1c-500Medium.ttf"
    report = lf.preflight(
        lf.read_script(DATA / "columns" / "shiodome_tategaki.txt"),
        lettering=lf.Lettering(typeface=face, size_pt=8, writing="vertical"),
        effects=lf.Lettering(typeface=face, size_pt=14),
        paper=lf.Paper.named("b6-jis"),
    )
    draw(report, "shiodome")


def draw(report: lf.ScriptReport, name: str) -> None:
    """Write every page of a report as PNG."""
    for page in report.pages:
        end = f"-{page.label}" if len(report.pages) > 1 else ""
        write(lf.to_svg(page, lettering=report.lettering), f"{name}{end}")


def write(svg: str, name: str) -> None:
    """Write a drawing as PNG."""
    image = resvg_py.svg_to_bytes(svg_string=svg, dpi=DPI, background="white")
    (FOLDER / f"{name}.png").write_bytes(bytes(image))


if __name__ == "__main__":
    main()
