"""Cuts beside a panel: the text as typed with the words struck, and what it reads then."""

from collections.abc import Mapping
from typing import Literal

from letterfit.cuts.model import Cut, Proposal
from letterfit.output.html.anchors import Anchors
from letterfit.output.html.markup import classed, element, quoted, spoken, words
from letterfit.output.html.struck import struck
from letterfit.output.html.typed import Speech
from letterfit.output.terminal.cuts import cut_figures, cut_head, least_told


def cuts_told(
    found: tuple[Proposal, ...],
    *,
    said: Mapping[str, Speech],
    language: str,
    anchors: Anchors,
    level: Literal["h3", "h4"] = "h4",
) -> str:
    """The proposals for one place, first the one for it as a whole; nothing where there is none.

    Args:
        found: The proposals.
        said: What is typed, by the balloon's id.
        language: The script's, a BCP 47 tag.
        anchors: The document's ids.
        level: Their heading.
    """
    if not found:
        return ""
    parts = [element(level, "Proposals for cuts")]
    last = ""
    for one in found:
        parts += _proposal(one, again=one.where == last, anchors=anchors)
        parts += [_cut(cut, said, language=language, anchors=anchors) for cut in one.cuts]
        last = one.where
    return classed("div.cuts", parts)


def _proposal(one: Proposal, *, again: bool, anchors: Anchors) -> list[str]:
    """Where there is too much, unless that was just said, and what a proposal comes to."""
    name = one.where if "." in one.where else f"Page {one.where}"
    where = classed("strong.where", anchors.place(one.where, words(name)))
    head = [] if again else [classed("p.head", [where, words(f": {one.why}.")])]
    if one.cuts:
        way = cut_head(one, "Or cut" if again else "Cut")
    else:
        way = "No cut of ours will do: give it more room, or share it out"
    least = "" if one.least is None else f" {least_told(one.least, one)}"
    return [*head, classed("p.way", words(f"{way}.{least}"))]


def _cut(cut: Cut, said: Mapping[str, Speech], *, language: str, anchors: Anchors) -> str:
    """One balloon: struck, and restored; the words that go stand in a list of their own, too."""
    own = said.get(cut.where)
    marked = None if own is None else struck(own.text, cut.removed, left=cut.text)
    kinds = [
        f"“{gone}” ({kind})" if kind else f"“{gone}”"
        for gone, kind in zip(cut.removed, cut.kinds, strict=True)
    ]
    figures = cut_figures(cut, named=False)
    parts = [
        classed("p.quiet", _whose(cut, own, language=language, anchors=anchors)),
        element("p", marked, attributes={"class": "struck", "dir": "auto", **spoken(language)})
        if marked
        else "",
        element("p", ["Out goes: ", element("bdi", words("; ".join(kinds)))]),
        element("p", ["Reads then: ", quoted("span", cut.text, kind="left", language=language)]),
        classed("p.quiet", words(f"{figures[:1].upper()}{figures[1:]}.")),
    ]
    return classed("blockquote.cut", parts)


def _whose(cut: Cut, own: Speech | None, *, language: str, anchors: Anchors) -> list[str]:
    """The balloon, who speaks, and its line."""
    told = [anchors.place(cut.where, words(cut.where))]
    if own is not None:
        who = element("bdi", words(own.who), attributes=spoken(language)) if own.who else own.kind
        told += [" ", who, words(f", line {own.line}")]
    return told
