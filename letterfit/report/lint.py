"""What the whole script can tell: one way of typing dashes, quotes, apostrophes and ellipses.

A book keeps one policy; which one is the letterer's choice (common practice, no source).
"""

import re
from collections.abc import Iterator, Sequence

from letterfit.findings import Finding
from letterfit.report.codes import found
from letterfit.script.model import Dialogue, Script

_WORD = r"[^\W_]"

POLICIES: tuple[tuple[str, str, tuple[tuple[str, re.Pattern[str]], ...]], ...] = (
    (
        "mixed-dashes",
        "breaks in speech",
        (
            ("two hyphens", re.compile(r"(?<!-)--(?!-)")),
            ("an em dash", re.compile("\u2014")),
            # Between digits an en dash is a range, no break in speech.
            ("an en dash", re.compile(r"(?<!\d)\u2013|\u2013(?!\d)")),
        ),
    ),
    (
        "mixed-quotes",
        "quotation marks",
        (
            ("straight quotes", re.compile('"')),
            ("curly quotes", re.compile("[\u201c\u201d\u201e]")),
            ("angle quotes", re.compile("[\u00ab\u00bb]")),
        ),
    ),
    (
        "mixed-apostrophes",
        "apostrophes",
        (
            ("straight ones", re.compile(f"(?<={_WORD})'(?={_WORD})")),
            ("curly ones", re.compile(f"(?<={_WORD})\u2019(?={_WORD})")),
        ),
    ),
    (
        "mixed-ellipses",
        "ellipses",
        (
            ("three stops", re.compile(r"(?<!\.)\.\.\.(?!\.)")),
            ("one character", re.compile("\u2026")),
        ),
    ),
)
"""Code, what it is about, and the ways of typing it."""


def lint_script(script: Script) -> tuple[Finding, ...]:
    """Each policy that the script mixes: one note, with counts and the rarest way's first line.

    >>> from letterfit.script.model import ScriptPage, ScriptPanel
    >>> texts = ("Wait -- no", "Stop--", "Run\u2014now")
    >>> said = tuple(Dialogue(kind="dialogue", text=t, line=n) for n, t in enumerate(texts, 1))
    >>> panel = ScriptPanel(number=1, line=1, elements=said)
    >>> script = Script(pages=(ScriptPage(numbers=(1,), line=1, panels=(panel,)),))
    >>> [(f.code, f.line, f.message) for f in lint_script(script)]
    [('mixed-dashes', 3, 'Breaks in speech are typed as two hyphens (2), an em dash (1).')]
    """
    said = [e for page in script.pages for panel in page.panels for e in panel.elements]
    return tuple(_mixed(said))


def _mixed(said: Sequence[Dialogue]) -> Iterator[Finding]:
    for code, what, ways in POLICIES:
        used = [(*_uses(said, pattern), name) for name, pattern in ways]
        used = [use for use in used if use[0]]
        if len(used) < 2:
            continue
        counts = ", ".join(f"{name} ({count})" for count, _, name in used)
        _, line, rarest = min(used, key=lambda use: use[0])
        yield found(
            code,
            f"{what.capitalize()} are typed as {counts}.",
            advice=f"Keep to one way in a book; {rarest} first: line {line}.",
            line=line,
        )


def _uses(said: Sequence[Dialogue], pattern: re.Pattern[str]) -> tuple[int, int]:
    """How often a pattern occurs, and the line where it first does."""
    counts = [(len(pattern.findall(element.text)), element.line) for element in said]
    first = next((line for count, line in counts if count), 0)
    return sum(count for count, _ in counts), first
