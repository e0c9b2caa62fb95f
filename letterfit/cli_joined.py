"""The command line's joined balloons: what is written and shown, and when they are advised."""

from collections.abc import Callable

import letterfit as lf
from letterfit.cli_status import FITS, MISFIT
from letterfit.joining import MOST_LINES, MOST_WORDS, wants_two
from letterfit.output.terminal.joined import joined_size_text


def tell_joined(
    joined: lf.JoinedBalloon,
    lettering: lf.Lettering,
    *,
    files: tuple[str | None, str | None],
    write: Callable[[str, str], None],
    show: Callable[[str], None],
) -> int:
    """Write and show joined balloons as asked; the status, a misfit where a letter is lost.

    Args:
        joined: The balloons.
        lettering: How they were lettered.
        files: The names of the JSON and the SVG file; None where none is asked for.
        write: Writes a text to a named file, or to standard output.
        show: Shows a text.
    """
    json_file, svg_file = files
    if svg_file is not None:
        write(svg_file, lf.joined_to_svg(joined, lettering=lettering))
    if json_file is not None:
        write(json_file, lf.joined_to_json(joined))
    if "-" not in files:
        show(lf.joined_to_text(joined))
    lost = any(finding.severity == "error" for finding in joined.findings)
    return MISFIT if lost else FITS


def joined_advice(
    text: str, fitted: lf.FittedBalloon, lettering: lf.Lettering, *, language: str
) -> str:
    """Lines that advise two joined balloons and what they would take; empty where one will do.

    Args:
        text: The text as typed.
        fitted: It in one balloon.
        lettering: How it is lettered.
        language: A BCP 47 code.
    """
    if not (fitted.fits and wants_two(fitted)):
        return ""
    why = f"Past {MOST_LINES} lines or about {MOST_WORDS} words a text wants two balloons (advice)."
    try:
        kind = "superellipse" if fitted.outline.kind == "superellipse" else "ellipse"
        pair = lf.fit_joined(text, lettering, outline=kind, language=language)
    except lf.LetterfitError:  # nowhere to part it, or no air to join them in
        return f"→ {why}\n"
    return f"→ {why}\n  --joined sets it in two that take {joined_size_text(pair)}.\n"
