"""What can be wrong with the built reference: links that lead nowhere, markup that was not read."""

import re
from collections import Counter
from collections.abc import Iterator
from html.parser import HTMLParser

LEFT_OVER = re.compile(r">>> |\*\*|`|^\s*(?:Args|Returns|Raises):|:(?:class|func|meth):|<factory>")
"""Marks of a docstring that readers see only where its markup was not understood."""

UNLINKED = re.compile(r"<code>([A-Z]\w+\.\w+)</code>")
"""A member of a class that is spoken of in code."""

NOT_PROSE = {"code", "pre", "style", "title", "h6"}
"""Where those marks may stand: in code, and in the headings that sections became."""


class Reader(HTMLParser):
    """Collects the ids of a page, where its links lead, and its prose."""

    def __init__(self) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.links: list[str] = []
        self.text: list[str] = []
        self.inside: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Take note of an element's id and link."""
        self.ids += [value for name, value in attrs if name == "id" and value]
        self.links += [value for name, value in attrs if (tag, name) == ("a", "href") and value]
        self.inside += [tag] if tag in NOT_PROSE else []

    def handle_endtag(self, tag: str) -> None:
        """Leave an element that is no prose."""
        if self.inside and tag == self.inside[-1]:
            self.inside.pop()

    def handle_data(self, data: str) -> None:
        """Keep text that is read as prose."""
        if not self.inside:
            self.text += [line.strip() for line in data.splitlines() if line.strip()]


def faults(html: str, names: tuple[str, ...]) -> Iterator[str]:
    """What is wrong with a page that tells of these names, in one line each."""
    reader = Reader()
    reader.feed(html)
    ids = Counter(reader.ids)
    yield from (f"{name} is not told" for name in names if name not in ids)
    yield from (f"{name} is there {count} times" for name, count in ids.items() if count > 1)
    for link in dict.fromkeys(reader.links):
        if link.startswith("#") and link[1:] not in ids:
            yield f"a link leads to {link}, which there is not"
        elif not link.startswith(("#", "https://")):
            yield f"a link leads out of the page, to {link}"
    yield from (f"{name} is spoken of without a link" for name in UNLINKED.findall(html))
    yield from (f"not read as markup: {line}" for line in reader.text if LEFT_OVER.search(line))
