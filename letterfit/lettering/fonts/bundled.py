"""The families that come with letterfit: their names, their styles and where their files are.

All are under the SIL Open Font License 1.1, taken whole and unmodified; `fonts_open/SOURCES.json`
names the package, version and checksum of every file.
"""

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Literal

from letterfit.errors import FontError

Style = Literal["regular", "bold", "italic", "bold italic"]

STYLES: tuple[Style, ...] = ("regular", "bold", "italic", "bold italic")
"""The four styles a family can have, in the order in which they are listed."""

PACKAGE = Path(__file__).parents[2]
FOLDER = "fonts_open"
DEFAULT_FAMILY = "Grandstander"
"""The default: the narrowest of the four-style families, with a crossbar I for the pronoun."""

SYMBOLS = "Letterfit Symbols"

FALLBACK_FAMILIES = (SYMBOLS, "Balsamiq Sans", "Comic Relief", DEFAULT_FAMILY)
"""Where a character missing from a face is taken from, in order: notes, hearts and stars, all from
one hand; the rest of Latin, and Cyrillic; Greek; Vietnamese."""


@dataclass(frozen=True, slots=True)
class BundledFamily:
    """A bundled family: its name and the styles it has.

    >>> BUNDLED["Bangers"].path_of("regular")
    'Bangers/Bangers-Regular.ttf'
    """

    name: str
    styles: tuple[Style, ...]

    def path_of(self, style: Style) -> str:
        """Where a style's file is, from the folder of fonts."""
        stem = self.name.replace(" ", "")
        return f"{stem}/{stem}-{style.title().replace(' ', '')}.ttf"


BUNDLED: dict[str, BundledFamily] = {
    family.name: family
    for family in (
        BundledFamily(DEFAULT_FAMILY, STYLES),
        BundledFamily("Comic Neue", STYLES),
        BundledFamily("Balsamiq Sans", STYLES),
        BundledFamily("Comic Relief", ("regular", "bold")),
        BundledFamily("Bangers", ("regular",)),
        BundledFamily(SYMBOLS, ("regular", "bold")),
    )
}


def find_bundled(name: str) -> BundledFamily | None:
    """The bundled family of that name, case, spaces and hyphens forgiven; None if there is none.

    >>> find_bundled("comicneue").name
    'Comic Neue'
    """
    wanted = bare_name(name)
    return next((family for family in BUNDLED.values() if bare_name(family.name) == wanted), None)


def read_bundled(path: str) -> bytes:
    """The bytes of a bundled font file.

    Args:
        path: From the folder of fonts, as `BundledFamily.path_of` gives it.

    Raises:
        FontError: When the file did not come with this installation.
    """
    try:
        return (fonts_folder() / path).read_bytes()
    except OSError:
        raise FontError(
            f"the bundled font {path} is missing", advice="install letterfit again"
        ) from None


@cache
def fonts_folder() -> Path:
    """The folder of the bundled fonts: in an installed package within it, in a checkout beside it.

    Raises:
        FontError: When neither is there.
    """
    for folder in (PACKAGE / FOLDER, PACKAGE.parent / FOLDER):
        if folder.is_dir():
            return folder
    raise FontError("the bundled fonts are missing", advice="install letterfit again")


def bare_name(name: str) -> str:
    """A name as names are compared: case, spaces and hyphens do not matter.

    >>> bare_name("Comic-Neue") == bare_name("comic neue")
    True
    """
    return "".join(char for char in name.casefold() if char.isalnum())
