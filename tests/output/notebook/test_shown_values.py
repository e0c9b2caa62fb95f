"""Everything that notebooks show: sound HTML that collides with nothing, sound text."""

import re

import pytest

import letterfit as lf
from letterfit.output.terminal.report import to_text
from letterfit.shown import Shown, as_html, as_text
from tests.output import reports
from tests.output.html.made import HOSTILE, lettered
from tests.output.html.parsed import parse
from tests.output.notebook.shown_values import (
    DRAWN,
    TOLD,
    bundle,
    drawings,
    tree,
    value,
    width_mm,
)

NAMES = [*DRAWN, *TOLD]
CONTROL = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")
INERT = {
    "b", "br", "caption", "code", "div", "figcaption", "figure", "img", "li", "p", "pre", "small",
    "strong", "table", "tbody", "td", "th", "thead", "tr", "ul",
}  # fmt: skip
OWN = {"alt", "class", "scope", "src", "style"}


def test_every_public_kind_of_value_that_is_shown_is_tried_here() -> None:
    """No `Shown` among the public names is left out; of outlines, all drawn alike, two stand."""
    public = (getattr(lf, name) for name in lf.__all__)
    kinds = {one for one in public if isinstance(one, type) and issubclass(one, Shown)}
    tried = {type(value(name)) for name in NAMES}
    left = {one.__name__ for one in kinds - tried if not issubclass(one, lf.Outline)}
    assert left == set()
    assert len(tried) > 12


@pytest.mark.parametrize("name", DRAWN)
def test_the_html_is_closed_and_does_nothing(name: str) -> None:
    """Every element is one that only stands there; nothing runs, nothing is fetched."""
    nodes = [node for node in tree(name).walk() if node.name != "document"]
    assert {node.name for node in nodes} <= INERT
    assert {key for node in nodes for key in node.attributes} <= OWN
    assert all("url(" not in node.attributes.get("style", "") for node in nodes)


@pytest.mark.parametrize("name", DRAWN)
def test_ids_stay_inside_their_drawing(name: str) -> None:
    """No id stands in the notebook's document; in a drawing each is there once, if referred to."""
    for drawing in drawings(tree(name)):
        nodes = list(drawing.iter())
        ids = [node.attrib["id"] for node in nodes if "id" in node.attrib]
        links = [node.attrib["href"] for node in nodes if "href" in node.attrib]
        for node in nodes:
            links += re.findall(r"url\((#[^)]*)\)", " ".join(node.attrib.values()))
        assert len(ids) == len(set(ids))
        assert {link.removeprefix("#") for link in links} <= set(ids)
        assert all(link.startswith("#") for link in links)


def test_inside_one_document_the_ids_of_two_drawings_would_collide() -> None:
    """What the check above is for: two pages give out the same ids, for different shapes."""
    one, other = drawings(parse(as_html(lettered()) or ""))
    shapes = [
        {node.attrib["id"]: node.attrib.get("d") for node in page.iter() if "id" in node.attrib}
        for page in (one, other)
    ]
    same = shapes[0].keys() & shapes[1].keys()
    assert any(shapes[0][name] != shapes[1][name] for name in same)


@pytest.mark.parametrize("name", NAMES)
def test_the_same_value_gives_the_same_characters(name: str) -> None:
    """Twice, in both kinds."""
    drawn = as_html(value(name))
    assert (drawn is None) == (name in TOLD)
    again = {} if drawn is None else {"text/html": drawn}
    assert bundle(name) == {**again, "text/plain": as_text(value(name))}


@pytest.mark.parametrize("name", NAMES)
def test_nothing_hostile_comes_through(name: str) -> None:
    """No control character, no half surrogate; UTF-8 takes all of it."""
    for kind, text in bundle(name).items():
        assert CONTROL.findall(text) == [], kind
        assert text.encode("utf-8")


@pytest.mark.parametrize("name", DRAWN)
def test_every_image_says_what_it_shows_and_keeps_to_its_place(name: str) -> None:
    """Each has words in its stead, white under it, and a width in mm that may shrink."""
    for image in tree(name).named("img"):
        assert image.attributes["alt"].strip()
        assert "background:#ffffff" in image.attributes["style"]
        assert 5 < width_mm(image) < 1000


def test_words_are_words_and_never_markup() -> None:
    """A hostile speech stands in the alternative text as it was set, tags and all."""
    (image,) = tree("balloon").named("img")
    assert "<SCRIPT>" in image.attributes["alt"]
    assert HOSTILE.split(maxsplit=1)[0] == "<script>document.title"


def test_balloons_are_all_drawn_at_one_scale() -> None:
    """Three times their width in print, so that two of them can be compared."""
    for name in ("balloon", "joined", "reported"):
        document = tree(name)
        (image,), (drawing,) = document.named("img"), drawings(document)
        assert width_mm(image) == pytest.approx(
            3 * float(drawing.attrib["width"].removesuffix("mm")), abs=0.06
        )


def test_a_report_is_told_as_in_a_terminal_and_drawn_page_by_page() -> None:
    """The text is `to_text`; the HTML has the verdict, what there is to do, an image a page."""
    report = lettered()
    assert bundle("report")["text/plain"] == to_text(report).rstrip("\n")
    document = tree("report")
    assert len(document.named("img")) == len(report.pages) == 2
    assert "All 4 panels fit; 1 thing to look at again." in document.text
    assert any(item.text.startswith(("✗ 1.1", "! 1.1")) for item in document.named("li"))


def test_of_a_long_report_so_many_pages_are_drawn_and_the_rest_counted() -> None:
    """Two dozen, then a number."""
    page = reports.page(1, reports.panel("1.1", lf.Rect(8, 16, 150, 70)))
    document = parse(as_html(reports.report(*[page] * 26)) or "")
    assert len(document.named("img")) == 24
    assert "2 pages more, not drawn here." in document.text


def test_a_panel_that_does_not_fit_says_what_would_do() -> None:
    """Why, and the remedies, under the drawing and in the text."""
    told = "Cut 9 words"
    assert told in tree("failing panel").text
    assert told in bundle("failing panel")["text/plain"]


def test_a_cut_tells_what_goes_and_what_is_left() -> None:
    """The words that go, the words that stay, the figures."""
    gone, left, *_ = bundle("cut")["text/plain"].split("\n")
    assert gone.startswith("- Well, / really")
    assert left == "= I hold the gate."


def test_a_proposal_tells_what_its_cuts_come_to() -> None:
    """Where, why and how many words; each balloon as it would be; or that none will do."""
    for text in (bundle("proposal")["text/plain"], tree("proposal").text):
        assert text.startswith("1.1")
        assert "8 words, over 1" in text
        assert "Cut 7 words: 8 to 1" in text
    assert len(tree("proposal").named("img")) == 1
    hopeless = tree("hopeless proposal")
    assert "No cut of ours will do" in hopeless.text
    assert not hopeless.named("img")


def test_a_table_and_a_typeface_are_told_as_in_a_terminal() -> None:
    """Not as `repr` has them."""
    assert bundle("table")["text/plain"].startswith("✗ 1 of 2 texts does not fit at 7.5 pt.")
    assert bundle("font")["text/plain"].splitlines()[0] == "Bangers"


def test_a_bare_plan_counts_its_panels() -> None:
    """Each panel's number and size stand in the drawing and in the text."""
    assert "1 panel" in bundle("plan")["text/plain"]
    assert re.search(r"^  1  [0-9.]+ x [0-9.]+ mm", bundle("plan")["text/plain"], re.MULTILINE)
