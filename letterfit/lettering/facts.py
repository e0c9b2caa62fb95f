"""Facts about a typeface that help to choose it: its proportions, its licence, its languages."""

from dataclasses import dataclass
from string import ascii_uppercase

from letterfit.lettering.bundled import BUNDLED, SYMBOLS, Style
from letterfit.lettering.face import Face, engine
from letterfit.lettering.typeface import Typeface, open_typeface

ALPHABETS: dict[str, str] = {
    "en": "",
    "cs": "ÁČĎÉĚÍŇÓŘŠŤÚŮÝŽ",
    "da": "ÆØÅ",
    "de": "ÄÖÜß",
    "es": "ÁÉÍÑÓÚÜ¿¡",
    "et": "ÄÕÖÜŠŽ",
    "fi": "ÄÖÅ",
    "fr": "ÀÂÆÇÉÈÊËÎÏÔŒÙÛÜŸ«»",
    "hr": "ČĆĐŠŽ",
    "hu": "ÁÉÍÓÖŐÚÜŰ",
    "is": "ÁÐÉÍÓÚÝÞÆÖ",
    "it": "ÀÈÉÌÒÙ",
    "lt": "ĄČĘĖĮŠŲŪŽ",
    "lv": "ĀČĒĢĪĶĻŅŠŪŽ",
    "nb": "ÆØÅ",
    "nl": "ËÏÉ",
    "pl": "ĄĆĘŁŃÓŚŹŻ",
    "pt": "ÁÂÃÀÇÉÊÍÓÔÕÚ",
    "ro": "ĂÂÎȘȚ",
    "sk": "ÁÄČĎÉÍĹĽŇÓÔŔŠŤÚÝŽ",
    "sl": "ČŠŽ",
    "sv": "ÅÄÖ",
    "tr": "ÇĞİIÖŞÜı",
    "vi": "ĂÂĐÊÔƠƯẠẢẤẦẨẪẬẮẰẲẴẶẸẺẼẾỀỂỄỆỈỊỌỎỐỒỔỖỘỚỜỞỠỢỤỦỨỪỬỮỰỲỴỶỸ",
    "el": "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩΆΈΉΊΌΎΏΪΫς",
    "bg": "АБВГДЕЖЗИЙКЛМНОПРСТУФХЦЧШЩЪЬЮЯ",
    "ru": "АБВГДЕЁЖЗИЙКЛМНОПРСТУФХЦЧШЩЪЫЬЭЮЯ",
    "sr": "АБВГДЂЕЖЗИЈКЛЉМНЊОПРСТЋУФХЦЧЏШ",
    "uk": "АБВГҐДЕЄЖЗИІЇЙКЛМНОПРСТУФХЦЧШЩЬЮЯ",
    "ar": "ابتثجحخدذرزسشصضطظعغفقكلمنهويءة",
    "he": "אבגדהוזחטיכלמנסעפצקרשתךםןףץ",
    "hi": "अआइईउऊएऐओऔकखगघचछजझटठडढतथदधनपफबभमयरलवशषसह",
    "ja": "あいうえおかきくけこアイウエオカキクケコ。、「」日本人水門",
    "th": "กขคงจชซดตถทนบปผพฟมยรลวสหอฮะาิีึืุูเแโไ",
}
"""A test alphabet for each language: the letters beyond A to Z that its texts need, after the main
exemplar characters of Unicode CLDR (from memory, capitals only). Languages written with Latin
letters need A to Z besides."""

LATIN = frozenset(list(ALPHABETS)[: list(ALPHABETS).index("el")])


@dataclass(frozen=True, slots=True, kw_only=True)
class FontFacts:
    """What there is to know of a typeface before choosing it.

    Args:
        family: Its name.
        styles: The styles it has.
        cap_height_em: Height of the ink of H.
        x_height_em: Height of the ink of x.
        capital_width_em: Mean advance of A to Z, unkerned.
        licence: What the font says of its licence, in one line.
        languages: Language tags whose test alphabet (`ALPHABETS`) it has itself, capitals and
            small letters, without its fallback.
    """

    family: str
    styles: tuple[Style, ...]
    cap_height_em: float
    x_height_em: float
    capital_width_em: float
    licence: str
    languages: tuple[str, ...]


def font_facts(typeface: Typeface) -> FontFacts:
    """The facts about a typeface, measured in its regular face.

    >>> font_facts(open_typeface("Comic Relief")).styles
    ('regular', 'bold')
    """
    face = typeface.styled("regular")
    widths = [face.advance_em(letter) for letter in ascii_uppercase]
    return FontFacts(
        family=typeface.family,
        styles=typeface.styles,
        cap_height_em=face.cap_height_em,
        x_height_em=face.x_height_em,
        capital_width_em=sum(widths) / len(widths),
        licence=face.licence,
        languages=tuple(sorted(tag for tag in ALPHABETS if _speaks(face, tag))),
    )


def bundled_families() -> tuple[FontFacts, ...]:
    """The facts about the families that come with letterfit, the default first.

    >>> [facts.family for facts in bundled_families()]
    ['Grandstander', 'Comic Neue', 'Balsamiq Sans', 'Comic Relief', 'Bangers']
    """
    names = [name for name in BUNDLED if name != SYMBOLS]
    return tuple(font_facts(open_typeface(name)) for name in names)


def _speaks(face: Face, tag: str) -> bool:
    """Whether a face has the letters of a language, capitals and small ones."""
    needed = ALPHABETS[tag] + (ascii_uppercase if tag in LATIN else "")
    letters = {char for char in needed + needed.lower() if char.isprintable()}
    return letters - {"\u0307"} <= engine(face).chars
