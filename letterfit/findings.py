"""A finding: one thing a reader of the report should know, as a value."""

from dataclasses import dataclass
from typing import Literal

Severity = Literal["error", "warning", "note"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What was found, how grave it is, where, and what to do about it.

    Args:
        code: A short stable name in lower-case words joined by hyphens, such as "missing-glyph".
        severity: "error" when lettering does not fit or is lost, "warning" when it fits against
            advice, "note" for what is only worth knowing.
        message: One sentence: what was found.
        advice: One sentence: what to do; may be empty.
        where: "page.panel.balloon" or a part of it, such as "3.2"; may be empty.
        line: Line of the source, counted from 1, where one is known.

    >>> Finding(code="long-word", severity="note", message="31 letters.", where="1.2.1").where
    '1.2.1'
    """

    code: str
    severity: Severity
    message: str
    advice: str = ""
    where: str = ""
    line: int | None = None
