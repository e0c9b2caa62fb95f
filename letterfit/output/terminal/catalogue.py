"""A catalogue of scripts as terminal text: a line for each, and their sum."""

from collections.abc import Sequence

from letterfit.counting import counted, does
from letterfit.output.plain import one_line
from letterfit.report.catalogue import ScriptEnded


def catalogue_line(ended: ScriptEnded) -> str:
    """One script of a catalogue in a sentence.

    >>> catalogue_line(ScriptEnded(source="gate.txt", fits=True, pages=1, panels=2,
    ...                            panels_that_fit=2, words=20))
    '✓ gate.txt: all fits; 1 page, 2 panels, 20 words'
    """
    over = ended.panels - ended.panels_that_fit
    size = [(ended.pages, "page"), (ended.panels, "panel"), (ended.words, "word")]
    sizes = ", ".join(counted(number, noun) for number, noun in size)
    if ended.fits:
        said = "all fits"
    elif over:
        said = f"{counted(over, 'panel')} {does(over)} not fit"
    else:
        said = "not all of the lettering can be set"
    name = one_line(ended.source) or "the script"
    return f"{'✓' if ended.fits else '✗'} {name}: {said}; {sizes}"


def catalogue_sum(ended: Sequence[ScriptEnded], *, refused: int) -> str:
    """All scripts of a catalogue in a sentence.

    Args:
        ended: Those that were checked.
        refused: How many could not be used.

    >>> gate = ScriptEnded(source="gate.txt", fits=True)
    >>> catalogue_sum([gate, gate], refused=1)
    '3 scripts: 2 fit, 0 do not, 1 cannot be used.'
    """
    fit = sum(one.fits for one in ended)
    misfit = len(ended) - fit
    parts = [
        f"{fit} {'fits' if fit == 1 else 'fit'}",
        f"{misfit} {does(misfit)} not",
        *([f"{refused} cannot be used"] if refused else []),
    ]
    return f"{counted(len(ended) + refused, 'script')}: {', '.join(parts)}."
