"""Fields in the built reference: pdoc links to members, and a field is told among the arguments."""

import re
from functools import partial

ARGUMENTS = re.compile(
    r'<section id="([A-Z]\w+)">'
    r"(?:(?!<div id=|</section>).)*"  # the class itself, before its members
    r"<h6>Arguments:</h6>\s*<ul>.*?</ul>",
    re.DOTALL,
)
ARGUMENT = re.compile(r"<li><strong>(\w+):</strong>")
SPOKEN_OF = re.compile(r"<code>([A-Z]\w+\.\w+)</code>")


def with_fields(html: str) -> str:
    """The page with an id for each argument of a class, and links to those spoken of in code.

    >>> tail = '<section id="Tail"><h6>Arguments:</h6><ul><li><strong>tip:</strong></li></ul>'
    >>> with_fields(tail).partition("<ul>")[2]
    '<li id="Tail.tip"><strong>tip:</strong></li></ul>'
    >>> with_fields(tail + "</section><code>Tail.tip</code>").partition("</section>")[2]
    '<code><a href="#Tail.tip">Tail.tip</a></code>'
    """
    told = ARGUMENTS.sub(partial(_with_ids, html), html)
    return SPOKEN_OF.sub(partial(_link, told), told)


def _with_ids(page: str, told: re.Match[str]) -> str:
    """A class whose arguments have ids, but for those that are told again as members."""

    def with_id(argument: re.Match[str]) -> str:
        place = f'id="{told[1]}.{argument[1]}"'
        return argument[0] if place in page else argument[0].replace("<li>", f"<li {place}>")

    return ARGUMENT.sub(with_id, told[0])


def _link(page: str, spoken: re.Match[str]) -> str:
    """The link to a field, where the page has it."""
    path = spoken[1]
    return f'<code><a href="#{path}">{path}</a></code>' if f'id="{path}"' in page else spoken[0]
