"""The HTML report: one file that stands alone, whose links land, whose text is only text."""

import re
from collections import Counter
from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest

from letterfit.output.html.document import POLICY, to_html
from letterfit.output.html.summary import MOST_ITEMS
from letterfit.report.model import PanelReport
from letterfit.script.parse import parse_script
from letterfit.stages import preflight
from tests.output import reports
from tests.output.html.made import HOSTILE, document, lettered
from tests.output.html.parsed import Node, parse
from tests.plays import play_script

NAMES = ("small", "nasty", "long", "empty", "lettered")

PAGES_MEASURED, ISSUE, MOST_BYTES = 3, 24, 1_500_000

FETCHING = {
    "audio",
    "base",
    "embed",
    "form",
    "iframe",
    "image",
    "img",
    "input",
    "object",
    "picture",
}
FETCHING |= {"portal", "script", "source", "track", "video", "foreignobject", "template"}
"""Elements that fetch, send or run."""


@cache
def tree(name: str) -> Node:
    """A document, parsed."""
    return parse(document(name))


@pytest.mark.parametrize("name", NAMES)
def test_a_document_is_whole(name: str) -> None:
    """Every element is closed; there is one head, one body, one main part and one first heading."""
    root = tree(name)
    assert document(name).startswith("<!doctype html>\n<html lang")
    counts = Counter(node.name for node in root.walk())
    assert [counts[one] for one in ("html", "head", "body", "main", "h1")] == [1] * 5
    assert root.named("html")[0].attributes["lang"] == "en"


@pytest.mark.parametrize("name", NAMES)
def test_ids_are_unique_and_links_land(name: str) -> None:
    """No id comes twice; every link and every reference leads to an id of the document."""
    nodes = list(tree(name).walk())
    ids = [node.attributes["id"] for node in nodes if "id" in node.attributes]
    assert len(ids) == len(set(ids))
    assert "" not in ids
    wanted = []
    for node in nodes:
        href = node.attributes.get("href", "")
        if href and node.name != "link":
            assert href.startswith("#"), href
            wanted.append(href[1:])
        for key in ("aria-labelledby", "aria-describedby"):
            wanted += node.attributes.get(key, "").split()
        wanted += re.findall(r"url\(#(.*?)\)", " ".join(node.attributes.values()))
    assert wanted
    assert set(wanted) <= set(ids)


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_fetched_or_run(name: str) -> None:
    """No element that fetches or runs, no event, no address but the empty icon's; the policy."""
    root = tree(name)
    assert {node.name for node in root.walk()}.isdisjoint(FETCHING)
    for node in root.walk():
        assert not [key for key in node.attributes if key.startswith("on")]
    (icon,) = root.named("link")
    assert icon.attributes["href"] == "data:,"
    policy = [n for n in root.named("meta") if "http-equiv" in n.attributes]
    assert [one.attributes["content"] for one in policy] == [POLICY]
    assert POLICY.startswith("default-src 'none'; style-src 'unsafe-inline'; img-src data:")
    style = root.named("style")[0].text
    assert "url(" not in style
    assert "@import" not in style


@pytest.mark.parametrize("name", NAMES)
def test_a_scripts_words_are_only_words(name: str) -> None:
    """Markup in a title, a name, a speech or a description is text; controls are replaced."""
    written = document(name)
    assert written.encode("utf-8")
    assert not re.search("[\x00-\x09\x0b-\x1f\x7f-\x9f]", written)
    if name in ("nasty", "lettered"):
        shown = tree(name).named("body")[0].text
        assert "<script>document.title = 'run'</script>" in shown
        assert HOSTILE not in shown
        assert "[31m" in shown


def test_an_unclosed_element_would_be_found() -> None:
    """The strict reader refuses what browsers forgive."""
    for planted in ("<p><b>so</p></b>", "<p>so", "<p/>", '<p id="a" id="b"></p>'):
        with pytest.raises(AssertionError):
            parse(planted)


@pytest.mark.parametrize("name", NAMES)
def test_headings_come_in_order(name: str) -> None:
    """A heading is at most one step below the one before it (WCAG 2.2, 1.3.1)."""
    levels = [int(node.name[1]) for node in tree(name).named("h1", "h2", "h3", "h4")]
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


@pytest.mark.parametrize("name", NAMES)
def test_tables_have_a_caption_and_headings(name: str) -> None:
    """Every column and every row has a heading with its scope, and no cell is too many."""
    for table in tree(name).named("table"):
        assert table.named("caption")[0].text
        head, body = table.named("thead")[0], table.named("tbody")[0]
        columns = [one.attributes["scope"] for one in head.named("th")]
        assert set(columns) == {"col"}
        for row in body.named("tr"):
            cells = row.named("th", "td")
            assert len(cells) == len(columns)
            assert [c.attributes.get("scope") for c in cells] == ["row"] + [None] * (len(cells) - 1)


@pytest.mark.parametrize("name", NAMES)
def test_pictures_have_names(name: str) -> None:
    """A drawing is an image with a title and a description; every other picture is silent."""
    for node in tree(name).named("svg"):
        if node.attributes.get("role") == "img":
            title, description = node.children[1], node.children[3]
            assert isinstance(title, Node)
            assert isinstance(description, Node)
            assert (title.name, description.name) == ("title", "desc")
            assert node.attributes["aria-labelledby"] == title.attributes["id"]
            assert node.attributes["aria-describedby"] == description.attributes["id"]
            assert title.text
            assert description.text
        else:
            assert "aria-label" in node.attributes or node.attributes["aria-hidden"] == "true"


def test_every_panel_is_linked_both_ways() -> None:
    """From its place in the drawing to its text, and back; speeches to their balloons."""
    root = tree("lettered")
    ids = {node.attributes["id"]: node for node in root.walk() if "id" in node.attributes}
    panels = [panel for page in lettered().pages for panel in page.panels]
    for panel in panels:
        assert ids[f"see-{panel.id}"].attributes["href"] == f"#about-{panel.id}"
        links = [one.attributes["href"] for one in ids[f"about-{panel.id}"].named("a")]
        assert f"#see-{panel.id}" in links
        for balloon in panel.balloons:
            (own,) = ids[f"say-{balloon.id}"].named("a")
            assert own.attributes["href"] == f"#balloon-{balloon.id}"
            assert own.text == f"line {balloon.line}"
    assert len(panels) == 4


def test_the_scripts_lines_are_there_as_typed() -> None:
    """Speeches with who says them and how; effects, captions and descriptions too."""
    texts = {n.attributes["id"]: n.text for n in tree("lettered").walk() if "id" in n.attributes}
    assert "WENNA (WHISPER): Listen to me, I really think" in texts["say-1.1.1"]
    assert "*that* every spring" in texts["say-1.1.2"]
    assert "(sound effect): SKREEE" in texts["say-1.2.e1"]
    assert "(caption): <script>" in texts["say-1.2.1"]
    assert "WENNA (THOUGHT): Ask me" in texts["say-2-3.1.2"]
    assert "The gate shudders." in texts["about-1.3"]


def test_findings_stand_beside_their_panel() -> None:
    """An error, a warning and a note are told in the article of the panel they are about."""
    texts = {n.attributes["id"]: n.text for n in tree("nasty").walk() if "id" in n.attributes}
    assert "Look again 41 %." in texts["about-104-105.1"]
    assert "Does not fit" not in texts["about-104-105.1"]
    assert "does not fit" in texts["about-104-105.2"]
    assert "Cut 9 words" in texts["about-104-105.2"]
    assert "Fault No place found for 1 word" in texts["about-106.2"]


def test_cuts_are_struck_and_restored() -> None:
    """Words that go are marked as deleted in the typed text; what is left stands beneath."""
    cuts = tree("lettered").classed("cut")
    proposed = [
        cut
        for page in lettered().pages
        for one in (*page.cuts, *(c for panel in page.panels for c in panel.cuts))
        for cut in one.cuts
    ]
    assert len(cuts) == len(proposed) > 0
    for shown, cut in zip(cuts, proposed, strict=True):
        assert shown.classed("left")[0].text == " ".join(cut.text.split())
        struck = " ".join(one.text for one in shown.named("del")).replace("*", "")
        assert struck.split() == " ".join(cut.removed).split()
    assert "the writer decides" in tree("lettered").named("footer")[0].text
    assert "the writer decides" not in tree("small").named("footer")[0].text


def test_a_cut_says_whose_words_it_is_about() -> None:
    """The balloon, linked to its line; who speaks, and the line of the script; a heading above."""
    article = next(n for n in tree("lettered").named("article") if n.classed("cuts"))
    headings = [one.text.strip() for one in article.named("h3", "h4")]
    assert headings[1:] == ["Proposals for cuts"]
    told = [cut.named("p")[0] for cut in article.classed("cut")]
    assert told[0].text.strip() == "1.1.1 WENNA, line 8"
    assert [one.attributes["href"] for one in told[0].named("a")] == ["#say-1.1.1"]
    places = [one.text for one in article.classed("head")]
    assert len(places) == len(set(places))


def test_balloons_named_in_an_item_are_links() -> None:
    """Where an item about a panel tells of its balloons, each is a link to its line."""
    (item,) = tree("lettered").named("ol")[0].named("li")
    links = [(one.text, one.attributes["href"]) for one in item.named("a")]
    assert links[1:] == [("1.1.1", "#say-1.1.1"), ("1.1.2", "#say-1.1.2")]


def test_words_of_a_script_are_in_its_language() -> None:
    """Title, speakers and speeches say so; what the report itself says does not."""
    typed = "Titre : La marée\n\nPLANCHE 1\n\nCase 1. La porte.\n\nPILOTE : Ohé !\n"
    root = parse(to_html(preflight(parse_script(typed))))
    french = [one.text for one in root.walk() if one.attributes.get("lang") == "fr"]
    assert french == ["La marée", "La porte.", "PILOTE", "Ohé !"]


def test_what_to_do_comes_first_and_unfolds() -> None:
    """The first section is what to do; ten items at once, each a link to its place."""
    root = tree("nasty")
    first = root.named("section")[0]
    assert first.attributes["aria-labelledby"] == "what-to-do"
    assert "#about-104-105.2" in [one.attributes["href"] for one in first.named("a")]
    assert "Nothing" in tree("small").named("section")[0].text
    pages = [reports.page(n, _failing(n)) for n in range(1, MOST_ITEMS + 4)]
    many = parse(to_html(reports.report(*pages))).named("section")[0]
    shown, rest = many.named("ol")
    assert (len(shown.named("li")), len(rest.named("li"))) == (MOST_ITEMS, 3)
    assert many.named("summary")[0].text == "3 more"


def test_places_in_a_gathered_item_are_links() -> None:
    """Where one item tells of many panels, each is a link; numbers that are no place are not."""
    section = tree("long").named("section")[0]
    (item,) = [one for one in section.named("li") if "8 places" in one.text]
    links = [(one.text, one.attributes["href"]) for one in item.named("a")]
    assert links == [(f"{n}.2", f"#about-{n}.2") for n in range(3, 25, 3)]
    assert item.text.count("39%") == 8


def _failing(number: int) -> PanelReport:
    """A panel of a page of that number that does not fit."""
    return replace(reports.long(5).pages[4].panels[2], id=f"{number}.1")


def test_the_same_report_gives_the_same_characters() -> None:
    """Made twice, the documents are the same, byte for byte."""
    assert to_html(lettered()) == document("lettered")
    assert to_html(reports.long()) == document("long")


def test_an_issue_stays_small() -> None:
    """An eighth of an issue of a play is under an eighth of 1.5 MB, with all that is shared."""
    script = parse_script(play_script("macbeth", pages=PAGES_MEASURED))
    written = to_html(preflight(script))
    assert len(written.encode()) * ISSUE / PAGES_MEASURED < MOST_BYTES
