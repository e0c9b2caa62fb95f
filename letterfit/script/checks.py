"""Checks: what the numbers typed in a script's headings say against each other."""

from collections.abc import Iterator, Sequence

from letterfit.findings import Finding, Severity
from letterfit.script.model import ScriptPage


def heading_findings(pages: Sequence[ScriptPage]) -> Iterator[Finding]:
    """Findings on stated panel counts and on page and panel numbers that jump or come back.

    >>> [f.code for f in heading_findings([ScriptPage(numbers=(1,), line=1)])]
    ['empty-page']
    """
    for page in pages:
        yield from _page_findings(page)
    yield from _order_findings(pages)


def _page_findings(page: ScriptPage) -> Iterator[Finding]:
    found, stated = len(page.panels), page.stated_panel_count
    if not found:
        yield _of_page(
            page,
            "empty-page",
            message=f"Page {page.label} has no panels.",
            advice="Type its panels below the heading, or take the heading out.",
        )
    if stated is not None and found != stated:
        yield _of_page(
            page,
            "panel-count",
            message=f"Page {page.label} states {stated} panels, but {found} were found.",
            advice="Check the panel headings of the page, or its stated count.",
        )
    if len(page.numbers) > 2:
        yield _of_page(
            page,
            "many-pages",
            message=f"One heading names {len(page.numbers)} pages; they were taken as one.",
            advice="Type one heading a page, or one a spread.",
        )
    yield from _panel_order(page)


def _panel_order(page: ScriptPage) -> Iterator[Finding]:
    for before, panel in zip(page.panels, page.panels[1:], strict=False):
        if not isinstance(before.number, int) or not isinstance(panel.number, int):
            continue
        if panel.number != before.number + 1:
            yield Finding(
                code="panel-number",
                severity="note",
                message=f"Panel {panel.number} follows panel {before.number}.",
                advice="Check the numbers of the panels.",
                where=f"{page.label}.{panel.number}",
                line=panel.line,
            )


def _order_findings(pages: Sequence[ScriptPage]) -> Iterator[Finding]:
    seen: set[int] = set()
    before: int | None = None
    for page in pages:
        if seen & set(page.numbers):
            yield _number_finding(page, f"Page {page.label} comes twice.")
        elif before is not None and page.numbers[0] != before + 1:
            yield _number_finding(page, f"Page {page.label} follows page {before}.")
        seen |= set(page.numbers)
        before = page.numbers[-1]


def _number_finding(page: ScriptPage, message: str) -> Finding:
    advice = "Check the numbers of the pages."
    return _of_page(page, "page-number", severity="note", message=message, advice=advice)


def _of_page(
    page: ScriptPage, code: str, *, message: str, advice: str, severity: Severity = "warning"
) -> Finding:
    return Finding(
        code=code,
        severity=severity,
        message=message,
        advice=advice,
        where=page.label,
        line=page.line,
    )
