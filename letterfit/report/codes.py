"""What the report may find: one table of codes, how grave each is, and what it means.

Limits are advice. Every default limit is common practice, no source; each can be set.
"""

from collections.abc import Mapping
from types import MappingProxyType

from letterfit.findings import Finding, Severity

CODES: Mapping[str, tuple[Severity, str]] = MappingProxyType(
    {
        "panel-overflow": ("error", "a panel's balloons do not go into it"),
        "long-text": ("error", "an element is longer than any balloon, and only begun"),
        "coverage": ("warning", "lettering covers more of a panel than the limit"),
        "balloon-words": ("warning", "a balloon has more words than the limit"),
        "balloon-lines": ("note", "a stack has more lines than the limit: it wants two balloons"),
        "panel-words": ("warning", "a panel has more words than the limit"),
        "page-words": ("warning", "a page has more words than the limit"),
        "tier-words": ("warning", "tiers of a page have more words than the limit"),
        "panel-balloons": ("warning", "panels of a page have more balloons than the limit"),
        "tier-panels": ("warning", "tiers of a page have more panels than the limit"),
        "page-panels": ("warning", "a page has more panels than the limit"),
        "reading-doubt": ("warning", "readers may take two balloons in the wrong order"),
        "not-joined": ("note", "a balloon that was to be joined to the one before it is not"),
        "panel-order": ("warning", "readers will take panels in another order than the script's"),
        "uneven-figures": ("note", "one panel holds a much lower figure than its page's others"),
        "close-view": ("note", "no whole figure stands clear in a panel: the view comes closer"),
        "effects-room": ("note", "sound effects and signs take more of a panel than the limit"),
        "no-words": ("note", "an element has no words to letter"),
        "small-type": ("warning", "the type is smaller than the least legible size"),
        "restricted-font": ("warning", "a font says that it must not be embedded in a file"),
        "mixed-dashes": ("note", "dashes are typed in more than one way"),
        "mixed-quotes": ("note", "quotation marks are typed in more than one way"),
        "mixed-apostrophes": ("note", "apostrophes are typed in more than one way"),
        "mixed-ellipses": ("note", "ellipses are typed in more than one way"),
        "lettering-outside": ("error", "lettering on an existing page leaves its balloon"),
        "lettering-close": ("warning", "lettering comes nearer to its outline than the air"),
        "no-grid": ("warning", "no tiers within the limits give every panel its figure"),
        "plan-without-page": ("warning", "a plan names a page that the script has not"),
    }
)
"""Severity and meaning by code. Findings of other stages pass through with their own."""


def found(
    code: str, message: str, *, advice: str = "", where: str = "", line: int | None = None
) -> Finding:
    """A finding of a code in the table, with the severity that stands there.

    >>> found("coverage", "41 % is covered.", where="1.2").severity
    'warning'
    """
    severity, _ = CODES[code]
    return Finding(
        code=code, severity=severity, message=message, advice=advice, where=where, line=line
    )


def gravest_first(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """The findings sorted by how grave they are, otherwise in the order they came.

    >>> [f.code for f in gravest_first((found("no-words", ""), found("panel-overflow", "")))]
    ['panel-overflow', 'no-words']
    """
    rank = ("error", "warning", "note")
    return tuple(sorted(findings, key=lambda finding: rank.index(finding.severity)))
