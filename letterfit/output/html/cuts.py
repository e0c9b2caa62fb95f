"""Cuts beside a panel: the text as typed with the words struck, and what it reads then."""

from collections.abc import Mapping

from letterfit.cuts import Cut, Proposal
from letterfit.output.html.markup import classed, element, quoted, spoken, words
from letterfit.output.html.struck import struck
from letterfit.output.terminal.cuts import cut_figures, cut_head, least_told


def cuts_told(found: tuple[Proposal, ...], *, texts: Mapping[str, str], language: str) -> str:
    """The proposals for one place, first the one for it as a whole; nothing where there is none.

    Args:
        found: The proposals.
        texts: What is typed, by the balloon's id.
        language: The script's, a BCP 47 tag.
    """
    if not found:
        return ""
    seen: set[str] = set()
    parts = []
    for one in found:
        parts.append(_proposal(one, again=one.where in seen, texts=texts, language=language))
        seen.add(one.where)
    return classed("div.cuts", parts)


def _proposal(one: Proposal, *, again: bool, texts: Mapping[str, str], language: str) -> str:
    where = classed("strong.where", words(one.where))
    told = [classed("p.head", [where, words(f": {one.why}.")])]
    if one.cuts:
        way = cut_head(one, "Or cut" if again else "Cut")
    else:
        way = "No cut of ours will do: give it more room, or share it out"
    least = "" if one.least is None else f" {least_told(one.least, one)}"
    told.append(element("p", words(f"{way}.{least}")))
    told += [_cut(cut, texts=texts, language=language) for cut in one.cuts]
    return "".join(told)


def _cut(cut: Cut, *, texts: Mapping[str, str], language: str) -> str:
    """One balloon: struck, and restored; the words that go stand in a list of their own, too."""
    marked = None
    if cut.where in texts:
        marked = struck(texts[cut.where], cut.removed, left=cut.text)
    kinds = [
        f"“{gone}” ({kind})" if kind else f"“{gone}”"
        for gone, kind in zip(cut.removed, cut.kinds, strict=True)
    ]
    parts = [
        element("p", marked, attributes={"class": "struck", "dir": "auto", **spoken(language)})
        if marked
        else "",
        element("p", ["Out goes: ", element("bdi", words("; ".join(kinds)))]),
        element("p", ["Reads then: ", quoted("span", cut.text, kind="left", language=language)]),
        classed("p.quiet", words(f"{cut_figures(cut, named=True)}.")),
    ]
    return classed("blockquote.cut", parts)
