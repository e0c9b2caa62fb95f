"""SVG text: escaped, in mm, ids unique and well named."""

import re
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.output.plain import one_line
from letterfit.output.svg.elements import Names, document, length, tag, title

anything = st.text(st.characters(exclude_categories=()), max_size=40)


@given(value=st.floats(-1e5, 1e5))
def test_a_length_is_short_and_near(value: float) -> None:
    """A coordinate is written without exponent or idle noughts, half a micrometre off at most."""
    text = length(value)
    assert re.fullmatch(r"-?\d+(\.\d*[1-9])?", text)
    assert text != "-0"
    assert abs(float(text) - value) <= 0.0005 * (1 + 1e-6)


@given(text=anything)
def test_whatever_is_written_comes_back_from_a_strict_parser(text: str) -> None:
    """Markup in attributes and titles is text, not markup."""
    svg = document(
        width=10, height=5, heading=text, children=[tag("g", {"class": text}, [title(text)])]
    )
    root = ET.fromstring(svg.encode("utf-8"))  # noqa: S314 - our own output
    group = root[1]
    assert root[0].text == one_line(text) or not one_line(text)
    assert group.get("class") == one_line(text)


def test_a_sheet_is_measured_in_mm() -> None:
    """Width and height carry the unit, the view box counts the same mm."""
    root = ET.fromstring(  # noqa: S314 - our own output
        document(width=168.275, height=260.35, heading="page 1", children=[])
    )
    assert (root.get("width"), root.get("height")) == ("168.275mm", "260.35mm")
    assert root.get("viewBox") == "0 0 168.275 260.35"


@given(wanted=st.lists(st.sampled_from(["a", "a_2", "panel-1.2", "", "9", "é<"]) | anything))
def test_ids_are_names_and_never_repeat(wanted: list[str]) -> None:
    """However often a name is asked for, each id is an XML name of its own."""
    names = Names()
    given_out = [names.new(name) for name in wanted]
    assert len(set(given_out)) == len(given_out)
    assert all(re.fullmatch(r"[A-Za-z_][A-Za-z0-9_.-]*", name) for name in given_out)


@pytest.mark.parametrize("children", [[], [""]])
def test_an_element_without_content_closes_itself(children: list[str]) -> None:
    """Nothing inside, nothing written."""
    assert tag("g", {}, children) == "<g/>"
