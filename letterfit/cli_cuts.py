"""The command `letterfit cuts`: which words of a script to cut, most pressing first."""

from collections.abc import Callable

import letterfit as lf
from letterfit.cli_house_rules import chosen_limits
from letterfit.cli_lettering import (
    chosen_aside,
    chosen_caption_align,
    chosen_effects,
    chosen_lettering,
)
from letterfit.cli_placing import chosen_butted, chosen_same_speaker
from letterfit.output.cuts_json import cuts_to_json, proposals
from letterfit.output.terminal.cuts import cuts_to_text


def tell_cuts(  # noqa: PLR0913 - what the command was asked for, keyword-only
    script: lf.Script,
    *,
    paper: str | None,
    plans: lf.Plans | None,
    outline: str,
    reading: lf.Reading | None,
    json_file: str | None,
    width: int,
    colour: bool,
    progress: Callable[[int, int], None] | None,
    write: Callable[[str, str], None],
    show: Callable[[str], None],
) -> bool:
    """Tell of the cuts that a script asks for.

    Args:
        script: The parsed script.
        paper: A name or a size; None is the plans' or the usual one.
        plans: The pages' tiers.
        outline: The family of balloon outlines.
        reading: From which side pages read; None is as most balloons do.
        json_file: Where JSON goes; "-" is standard output, where no text goes then.
        width: Cells in a line of text.
        colour: Whether to colour it.
        progress: Called with the pages done and all pages.
        write: Writes a text under a file's name.
        show: Prints a text.

    Returns:
        Whether there is nothing to cut.

    Raises:
        LetterfitError: When the script, the plans or the lettering cannot be used.
    """
    report = lf.preflight(
        script,
        lettering=chosen_lettering(),
        paper=lf.Paper.named(paper) if paper is not None else None,
        plans=plans,
        limits=chosen_limits(),
        reading=reading,
        outline=outline,
        effects=chosen_effects(),
        aside_pt=chosen_aside(),
        caption_align=chosen_caption_align(),
        same_speaker=chosen_same_speaker(),
        butted=chosen_butted(),
        cuts=True,
        progress=progress,
    )
    if json_file is not None:
        write(json_file, cuts_to_json(report))
    if json_file != "-":
        show(cuts_to_text(report, width=width, colour=colour))
    return not proposals(report)
