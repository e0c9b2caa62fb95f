"""The built reference tells every name once, and the checker of it finds what is wrong."""

from collections import Counter

import pytest

import letterfit
from tests.api import page
from tests.api.groups import GROUPS

GOOD = """<title>letterfit</title><style>a { content: "`" }</style>
<nav><a href="#fit">fit</a> <a href="https://pdoc.dev">pdoc</a></nav>
<section id="fit"><h6>Returns:</h6><p>A <code>`</code> fit.</p><pre>&gt;&gt;&gt; fit</pre></section>
"""


def test_every_public_name_stands_in_one_group() -> None:
    """The reference, which follows the groups, leaves nothing out and says nothing twice."""
    told = Counter(name for group in GROUPS for name in group.names)
    assert set(told) == set(letterfit.__all__)
    assert set(told.values()) == {1}


def test_a_good_page_has_no_fault() -> None:
    """Marks of docstrings may stand in code and styles, links may lead to the web."""
    assert list(page.faults(GOOD, ("fit",))) == []


@pytest.mark.parametrize(
    ("right", "wrong", "found"),
    [
        ('<section id="fit">', "<section>", "fit is not told"),
        ("</section>", '</section><p id="fit">', "fit is there 2 times"),
        ('"#fit"', '"#fits"', "a link leads to #fits, which there is not"),
        ('"https://pdoc.dev"', '"letterfit/fit.html"', "a link leads out of the page"),
        ("<code>`</code>", "`", "not read as markup: A ` fit."),
        ("<pre>&gt;&gt;&gt; fit</pre>", "<p>&gt;&gt;&gt; fit</p>", "not read as markup: >>> fit"),
        ("<code>`</code>", "<code>Tail.tip</code>", "Tail.tip is spoken of without a link"),
        ("<h6>Returns:</h6>", "<p>Returns:</p>", "not read as markup: Returns:"),
        ("A ", "**A** ", "not read as markup: **A**"),
    ],
)
def test_planted_faults_are_found(right: str, wrong: str, found: str) -> None:
    """Names left out or doubled, links that lead nowhere, markup that was not understood."""
    html = GOOD.replace(right, wrong, 1)
    assert html != GOOD
    assert any(fault.startswith(found) for fault in page.faults(html, ("fit",)))
