"""What `fit` and the commands on scripts alike are told of words and of what goes round them."""

import functools
import re

import click

import letterfit as lf


def language_tag(_context: click.Context, _option: click.Parameter, tag: str | None) -> str | None:
    """A language tag that looks like one (BCP 47, section 2.1)."""
    if tag is not None and not re.fullmatch(r"[A-Za-z]{2,8}([-_][A-Za-z0-9]{1,8})*", tag):
        raise click.BadParameter(f"{tag!r} is no language tag such as fr or pt-BR.")
    return tag


outline_option = functools.partial(
    click.option,
    "--outline",
    type=click.Choice(sorted(lf.FAMILIES)),
    metavar="NAME",
    default="ellipse",
    show_default=True,
    help=f"The family of balloon outlines: {', '.join(sorted(lf.FAMILIES))}.",
)
"""The option, to which a command adds what becomes of its value."""

LANGUAGE_HELP = (
    "The words' language, a BCP 47 tag such as fr or pt-BR.  [default: en, or the script's]"
)
