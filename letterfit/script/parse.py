"""Parse: numbered lines and table rows become a Script, and an account of where each one went."""

from collections.abc import Iterator, Sequence

from letterfit.errors import ScriptError
from letterfit.findings import Finding
from letterfit.script.account import Placed
from letterfit.script.blocks import Block, Row
from letterfit.script.checks import heading_findings
from letterfit.script.classify import classify, opens_dotted
from letterfit.script.events import Blank
from letterfit.script.first_reading import gather_cast
from letterfit.script.headings import PageHeading, PanelHeading, heading_of
from letterfit.script.headwords import leading_language
from letterfit.script.lines import split_lines
from letterfit.script.machine import Machine
from letterfit.script.markup import is_rule, peel
from letterfit.script.model import Script
from letterfit.script.reading import check_size
from letterfit.script.tables import pipe_tables, row_events

MOST_LINES = 200_000
"""The longest script that is read; a script of 500 pages has some 40,000 lines."""

MOST_PAGES = 5_000
"""The most pages of a script: some two hundred issues (common practice, no source)."""

_TITLE_LABELS = ("title", "titre", "título", "titel", "titolo")


def parse_script(text: str, *, source: str = "") -> Script:
    r"""Read a typed script into pages, panels and what is lettered in them.

    Args:
        text: The whole script.
        source: Its name, for messages and reports.

    Returns:
        The script. Every line that is not blank ends in it or in one of its findings.

    Raises:
        ScriptError: There is nothing in the text that a script is made of, or far too much text.

    >>> script = parse_script("PAGE 1\nPanel 1. The lock.\nWENNA (OFF): Hold a little longer.")
    >>> script.pages[0].panels[0].elements[0].speaker
    'WENNA'
    """
    check_size(len(text), source=source)
    lines, findings = split_lines(text)
    script, _ = parse_blocks(pipe_tables(lines), source=source, findings=findings)
    return script


def parse_blocks(
    blocks: Sequence[Block], *, source: str = "", findings: Sequence[Finding] = ()
) -> tuple[Script, tuple[Placed, ...]]:
    """Read numbered lines and table rows; also give an account of where each of them went.

    Args:
        blocks: The script.
        source: Its name.
        findings: What was found before, in reading the file.

    Raises:
        ScriptError: No page and no panel is among them, or there are more than MOST_LINES lines or
            MOST_PAGES pages.
    """
    start, has_pages = _start(blocks)
    if start is None or len(blocks) > MOST_LINES:
        raise _no_script(blocks, source)
    cast = gather_cast(blocks[start:])
    machine = Machine(cast=cast, has_pages=has_pages)
    account = tuple(_take(machine, blocks, at) for at in range(len(blocks)))
    pages = machine.finish()
    if len(pages) > MOST_PAGES:
        raise _too_many(f"{MOST_PAGES:,} pages", source)
    front = tuple(placed.text for placed in account if placed.place == "front matter")
    script = Script(
        pages=pages,
        language=leading_language(machine.languages),
        title=_title(front),
        front_matter=front,
        findings=(*findings, *machine.findings, *heading_findings(pages)),
        source=source,
    )
    return script, account


def _take(machine: Machine, blocks: Sequence[Block], at: int) -> Placed:
    """Let a line or a row happen; where it went."""
    block = blocks[at]
    if not isinstance(block, Row):
        place = machine.take(classify(blocks, at, cast=machine.cast), block.number)
        return Placed(block.number, block.text, place)
    events = row_events(block, cast=machine.cast, page=machine.page_numbers)
    places = [machine.take(event, block.number) for event in events]
    machine.take(Blank(), block.number)  # a row ends what is said in it
    return Placed(block.number, " ".join(block.cells), places[-1] if places else "blank")


def _start(blocks: Sequence[Block]) -> tuple[int | None, bool]:
    """Where the first heading, table or "1.1" stands, and whether any heading is a page's."""
    first: int | None = None
    for at, heading in _headings(blocks):
        first = at if first is None else first
        if isinstance(heading, PageHeading):
            return first, True
    if first is None:
        dotted = (at for at, block in enumerate(blocks) if opens_dotted(block))
        first = next(dotted, None)
    return first, False


def _headings(blocks: Sequence[Block]) -> Iterator[tuple[int, PageHeading | PanelHeading | None]]:
    for at, block in enumerate(blocks):
        if isinstance(block, Row):
            if block.columns:
                yield at, None
        elif block.text and (heading := heading_of(block.text)) is not None:
            yield at, heading


def _no_script(blocks: Sequence[Block], source: str) -> ScriptError:
    if len(blocks) > MOST_LINES:
        return _too_many(f"{MOST_LINES:,} lines", source)
    if not any(not isinstance(block, Row) and block.text for block in blocks):
        return ScriptError("the script is empty", advice="give a typed script", source=source)
    return ScriptError(
        "no page and no panel was found",
        advice='begin each page with a line such as "PAGE 1" and each panel with "Panel 1."',
        source=source,
    )


def _too_many(what: str, source: str) -> ScriptError:
    return ScriptError(
        f"the script has more than {what}", advice="give one script at a time", source=source
    )


def _title(front: Sequence[str]) -> str | None:
    """The first line of the title block, without Markdown and without the word "title"."""
    for line in front:
        if is_rule(line):
            continue
        plain = peel(line).text.strip("*_# ")
        label, colon, rest = plain.partition(":")
        if colon and label.strip().casefold() in _TITLE_LABELS:
            return rest.strip() or None
        return plain
    return None
