"""The command line's lettering options: how the words are set, and what letterers do by habit.

Every option leaves its value with click's context (`cli_kept`); a command asks for
`chosen_lettering()`.
"""

import functools
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeVar

import click

import letterfit as lf
from letterfit.cli_fonts import font_choice
from letterfit.cli_kept import keep, kept
from letterfit.lettering.breaks.rules import JAPANESE, RULES
from letterfit.lettering.settings import (
    ALIGNS,
    CASES,
    EFFECTS_FACE,
    EFFECTS_SIZE_PT,
    WRITINGS,
    Align,
)
from letterfit.lettering.style.habits import (
    CROSSBAR_IN,
    CROSSBARS,
    DASHES,
    ELLIPSES,
    EMPHASES,
    QUOTES,
)

Command = TypeVar("Command", bound=Callable[..., object])


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One option: a choice, a number, a word, a flag, or a word that may be given several times."""

    name: str
    says: str
    default: str | float | tuple[str, ...] | None = None
    choices: Sequence[str] = ()
    metavar: str | None = None
    is_number: bool = False
    is_flag: bool = False

    def __call__(self, command: Command) -> Command:
        """Add the option to a command."""
        many = isinstance(self.default, tuple)
        number = self.is_number or isinstance(self.default, float)
        kind = click.Choice(self.choices) if self.choices else click.FLOAT if number else None
        return click.option(
            self.name,
            type=kind,
            default=False if self.is_flag else self.default,
            help=self.says,
            metavar=self.metavar,
            is_flag=self.is_flag,
            multiple=many,
            show_default=self.default not in (None, ()),
            expose_value=False,
            callback=keep,
        )(command)


_LETTERING = (
    Option(
        name="--typeface",
        default=(),
        metavar="NAME|FILE",
        says="A bundled family or a font file; given several times, files of one family, a style "
        "each.",
    ),
    Option(name="--face", metavar="N", says="The face of a font collection, counted from 0."),
    Option(name="--instance", metavar="NAME", says="A named instance of a variable font."),
    Option(
        name="--axis",
        default=(),
        metavar="TAG=VALUE",
        says="A value on an axis of a variable font, such as wght=600. May be given several times.",
    ),
    Option(name="--size", default=7.5, says="Type size, pt."),
    Option(
        name="--leading",
        metavar="RATIO",
        is_number=True,
        says="Line to line, over the size: 1.08, or 1.25 from column to column.",
    ),
    Option(name="--air", default=1.2, says="Least ink to outline, mm."),
    Option(name="--tracking", default=0.0, metavar="EM", says="Space added after each letter, em."),
    Option(
        name="--writing", default="horizontal", choices=WRITINGS, says="In lines, or in columns."
    ),
    Option(
        name="--align",
        choices=ALIGNS,
        says="Lines centred, as they are unless asked otherwise, or beginning together, as columns "
        "are.",
    ),
    Option(
        name="--case", default="upper", choices=CASES, says="Capitals, or as the script has it."
    ),
    Option(
        name="--keep-case",
        default=("Mc*",),
        metavar="WORD",
        says="A word with small letters among capitals, such as MacLAREN; Mc* keeps Mc before a "
        "capital, '' none. May be given several times.",
    ),
    Option(
        name="--emphasis",
        default="bold-italic",
        choices=EMPHASES,
        says="What *so*, **so** and _so_ mean.",
    ),
    Option(
        name="--crossbar",
        default="auto",
        metavar=f"{'|'.join(CROSSBARS)}|TAG",
        says="Where the I with crossbars comes from: a known family's alternate, a slot of a font "
        "that has capitals only, or an OpenType feature.",
    ),
    Option(
        name="--crossbar-in",
        default="pronoun",
        choices=CROSSBAR_IN,
        says="Which I has crossbars, in English.",
    ),
    Option(name="--dashes", default="as-typed", choices=DASHES, says="Breaks in speech."),
    Option(name="--ellipses", default="as-typed", choices=ELLIPSES, says="Words that trail off."),
    Option(
        name="--quotes",
        default="as-typed",
        choices=QUOTES,
        says="Quotation marks and apostrophes; curly ones are those of the language.",
    ),
    Option(name="--hyphenate", is_flag=True, says="Hyphenate words, in all languages but English."),
    Option(name="--hyphenate-english", is_flag=True, says="Hyphenate English words."),
    Option(
        name="--japanese",
        default="strict",
        choices=JAPANESE,
        says="How near to its marks and small kana Japanese may break.",
    ),
    Option(name="--phrases", is_flag=True, says="Break Japanese between phrases only."),
    Option(
        name="--without",
        default=(),
        metavar="RULE",
        says=f"A rule of line breaks to switch off: {', '.join(RULES)}. May be given several "
        "times.",
    ),
)
_ASIDES = (
    Option(
        name="--aside",
        default=0.5,
        metavar="PT",
        says="How much smaller captions and whispers are, pt.",
    ),
    Option(
        name="--caption-align",
        choices=ALIGNS,
        says="Whether lines of captions begin together, flush left, or are centred; as the rest "
        "where it is not given.",
    ),
    Option(
        name="--effects-typeface",
        default=EFFECTS_FACE,
        metavar="NAME|FILE",
        says="What sound effects are measured in.",
    ),
    Option(name="--effects-size", default=EFFECTS_SIZE_PT, metavar="PT", says="Their size, pt."),
)


def lettering_options(command: Command) -> Command:
    """Add the options that say how words are set; the command calls `chosen_lettering()`."""
    return functools.reduce(lambda done, option: option(done), reversed(_LETTERING), command)


def script_options(command: Command) -> Command:
    """Add those of a whole script too, for `chosen_effects()` and `chosen_aside()`."""
    added = functools.reduce(lambda done, option: option(done), reversed(_ASIDES), command)
    return lettering_options(added)


def chosen_lettering() -> lf.Lettering:
    """The lettering that the running command was asked for.

    Raises:
        FontError: When a value is impossible.
    """
    chosen = kept()
    return lf.Lettering(
        typeface=font_choice(
            chosen["typeface"],
            face=chosen["face"],
            instance=chosen["instance"],
            axes=chosen["axis"],
        ),
        size_pt=chosen["size"],
        leading=chosen["leading"],
        case=chosen["case"],
        air_mm=chosen["air"],
        tracking=chosen["tracking"],
        writing=chosen["writing"],
        align=chosen["align"],
        habits=_habits(chosen),
        breaks=lf.BreakRules(
            without=chosen["without"],
            japanese=chosen["japanese"],
            phrases=chosen["phrases"],
            hyphenate=chosen["hyphenate"],
            hyphenate_english=chosen["hyphenate_english"],
        ),
    )


def font_files() -> tuple[str, ...]:
    """The names that may be font files; a bundled family's name is among them."""
    chosen = kept()
    effects = chosen.get("effects_typeface")
    return (*chosen.get("typeface", ()), *([] if effects is None else [effects]))


def chosen_effects() -> lf.Lettering:
    """How the running command was asked to measure sound effects: by the same habits.

    Raises:
        FontError: When a value is impossible.
    """
    chosen = kept()
    return lf.Lettering(
        typeface=lf.open_typeface(chosen["effects_typeface"]),
        size_pt=chosen["effects_size"],
        case=chosen["case"],
        habits=_habits(chosen),
    )


def chosen_aside() -> float:
    """By how many points captions and whispers shall be smaller."""
    aside: float = kept()["aside"]
    return aside


def chosen_caption_align() -> Align | None:
    """How lines of captions shall stand; None for as the rest."""
    align: Align | None = kept()["caption_align"]
    return align


def _habits(chosen: Mapping[str, Any]) -> lf.Habits:
    return lf.Habits(
        emphasis=chosen["emphasis"],
        crossbar=chosen["crossbar"],
        crossbar_in=chosen["crossbar_in"],
        dashes=chosen["dashes"],
        ellipses=chosen["ellipses"],
        quotes=chosen["quotes"],
        keep_case=tuple(word for word in chosen["keep_case"] if word),
    )
