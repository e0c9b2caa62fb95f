"""Notices: the findings made while a script is read, each about one line of it."""

from letterfit.findings import Finding


def page_supposed(number: int, *, line: int) -> Finding:
    """A panel stands before any page heading."""
    return Finding(
        code="page-supposed",
        severity="note",
        message=f"No page heading stands before this line; page {number} is supposed.",
        advice=f'Begin the page with a line "PAGE {number}".',
        where=str(number),
        line=line,
    )


def lettering_before_panel(where: str, *, line: int) -> Finding:
    """A page letters something before its first panel heading."""
    return Finding(
        code="lettering-before-panel",
        severity="warning",
        message="Something is lettered before the page's first panel heading; "
        "it was put in the first panel.",
        advice="Move it below a panel heading.",
        where=where,
        line=line,
    )


def no_words(name: str, where: str, *, line: int) -> Finding:
    """A name or label has nothing to say."""
    return Finding(
        code="no-words",
        severity="warning",
        message=f"{name} has no words to letter.",
        advice="Type the words behind the name or on the next line.",
        where=where,
        line=line,
    )


def perhaps_spoken(name: str, where: str, *, line: int) -> Finding:
    """A description looks like a speech typed with a dash, where speeches have colons."""
    return Finding(
        code="perhaps-spoken",
        severity="warning",
        message=f"This line was read as description, but it may be what {name} says.",
        advice=f"If it is, type a colon behind the name: {name}:",
        where=where,
        line=line,
    )


def plan_twice(text: str, where: str, *, line: int) -> Finding:
    """A page states its plan a second time."""
    return Finding(
        code="plan-twice",
        severity="warning",
        message=f"The page states its plan twice; this one was left out: {text}",
        advice="Keep one TIERS line a page.",
        where=where,
        line=line,
    )


def plan_outside_page(text: str, *, line: int) -> Finding:
    """A plan is stated in the front matter."""
    return Finding(
        code="plan-outside-page",
        severity="warning",
        message=f"A plan is stated before the first page; it was left out: {text}",
        advice="Put the TIERS line below the page heading.",
        line=line,
    )
