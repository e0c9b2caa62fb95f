"""The command `letterfit fonts`: what there is to know of typefaces before choosing one."""

from collections.abc import Callable, Sequence

import click

import letterfit as lf
from letterfit.cli_files import show, write_given
from letterfit.cli_outputs import Writing, json_option
from letterfit.cli_screen import screen_width
from letterfit.cli_status import FITS
from letterfit.lettering.fonts.bundled import find_bundled
from letterfit.lettering.fonts.facts import bundled_families


@click.command(cls=Writing, short_help="Tell of typefaces: styles, measures, languages, licence.")
@click.argument("files", metavar="[NAME|FILE]...", nargs=-1)
@json_option
def fonts(*, files: tuple[str, ...], json_file: str | None) -> int:
    """Tell of the bundled typefaces, or of given FILES: styles, measures, languages, licence."""
    tell_fonts(files, json_file=json_file, width=screen_width(), write=write_given, show=show)
    return FITS


def tell_fonts(
    files: Sequence[str],
    *,
    json_file: str | None,
    width: int,
    write: Callable[[str, str], None],
    show: Callable[[str], None],
) -> None:
    """Tell of the bundled families, or of the fonts that are named.

    Args:
        files: Names of bundled families or font files; none tells of all bundled families.
        json_file: Where JSON goes; "-" is standard output, where no text goes then.
        width: Cells in a line of text.
        write: Writes a text under a file's name.
        show: Prints a text.

    Raises:
        FontError: When a font cannot be opened.
    """
    facts = tuple(lf.font_facts(lf.open_typeface(file)) for file in files)
    if json_file is not None:
        write(json_file, lf.fonts_to_json(facts or bundled_families()))
    if json_file != "-":
        show(lf.fonts_to_text(facts or None, width=width))


def font_choice(
    files: Sequence[str], *, face: str | None, instance: str | None, axes: Sequence[str]
) -> lf.Typeface | None:
    """The typeface that the options ask for; None when they ask for none.

    Args:
        files: A bundled family's name or a font file; several are styles of one family.
        face: The number of a face in a collection.
        instance: A named instance of a variable font.
        axes: Values on its axes, such as "wght=600".

    Raises:
        UsageError: When a choice is made within no font, or a number is mistyped.
        FontError: When a font cannot be opened, has not what was chosen, or two have one style.
    """
    chosen = face is not None or instance is not None or bool(axes)
    if not files:
        if chosen:
            raise click.UsageError("--face, --instance and --axis choose within --typeface FILE.")
        return None
    if len(files) > 1:
        return _family(files, chosen=chosen)
    if not chosen:
        return lf.open_typeface(files[0])
    choice = lf.FontChoice(
        files[0],
        index=_number(face) if face is not None else None,
        instance=instance or "",
        axes=dict(map(_axis, axes)),
    )
    return lf.open_typeface(choice)


def _family(files: Sequence[str], *, chosen: bool) -> lf.Typeface:
    """The typeface whose styles are in several files."""
    if chosen:
        raise click.UsageError("--face, --instance and --axis choose within one --typeface FILE.")
    for file in files:
        if find_bundled(file) is not None:
            raise click.UsageError(
                f"Several --typeface are files of one family; {file} is a whole one."
            )
    return lf.open_typeface(files)


def _number(typed: str) -> int:
    try:
        return int(typed)
    except ValueError:
        raise click.UsageError(f"--face {typed!r} is no number; faces count from 0.") from None


def _axis(typed: str) -> tuple[str, float]:
    tag, _, value = typed.partition("=")
    try:
        return tag.strip(), float(value)
    except ValueError:
        raise click.UsageError(f"--axis {typed!r} is not of the form wght=600.") from None
