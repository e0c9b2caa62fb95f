"""Anchors: the ids of one document, remembered by what they stand for, and links to them."""

from letterfit.output.html.markup import element
from letterfit.output.svg.elements import Names
from letterfit.report.model import PageReport, ScriptReport


class Anchors(Names):
    """Ids that are given out once, and links that only lead where there is an id.

    >>> anchors = Anchors()
    >>> anchors.new("about-1.2")
    'about-1.2'
    >>> anchors.link("about-1.2", "1.2"), anchors.link("about-9", "9")
    ('<a href="#about-1.2">1.2</a>', '9')
    """

    def __init__(self) -> None:
        super().__init__()
        self._known: dict[str, str] = {}

    def new(self, wanted: str) -> str:
        """An id like the one wanted, remembered by the first name it was asked under."""
        name = super().new(wanted)
        self._known.setdefault(wanted, name)
        return name

    def of(self, wanted: str) -> str | None:
        """The id that was given out under this name; None when none was."""
        return self._known.get(wanted)

    def link(self, wanted: str, content: str) -> str:
        """Content, already escaped, as a link to an id; the content alone where there is none."""
        name = self.of(wanted)
        if name is None:
            return content
        return element("a", content, attributes={"href": f"#{name}"})

    def place(self, where: str, content: str) -> str:
        """Content as a link to the place that a finding names, or to the nearest one round it.

        Args:
            where: "page.panel.balloon" or a part of it; "page 2" as in the list of what to do.
            content: Already escaped.
        """
        inner = where.removeprefix("page ")
        while inner:
            for kind in ("say", "about", "page"):
                if self.of(f"{kind}-{inner}") is not None:
                    return self.link(f"{kind}-{inner}", content)
            inner = inner.rpartition(".")[0]
        return content


def reserve(report: ScriptReport, anchors: Anchors) -> None:
    """Give out the ids that links lead to before their places are written."""
    for page in report.pages:
        anchors.new(f"page-{page.label}")
        for panel in page.panels:
            anchors.new(f"about-{panel.id}")
            anchors.new(f"see-{panel.id}")
        for name in _speeches(page):
            anchors.new(f"say-{name}")


def _speeches(page: PageReport) -> list[str]:
    """The ids of all that is lettered on a page."""
    return [
        *(balloon.id for panel in page.panels for balloon in panel.balloons),
        *(effect.id for panel in page.panels for effect in panel.effects),
    ]
