"""The words of page and panel headings in eight languages, as data.

From memory, no source. A word names the languages that use it: the languages of all headings
together tell the language of the script.
"""

from collections.abc import Mapping
from types import MappingProxyType

from letterfit.script.folding import fold

LANGUAGES = ("en", "fr", "es", "de", "it", "pt", "nl", "ja")
"""In this order where a tie must be broken."""

_PAGE = {
    "page": "en fr", "pages": "en fr", "pg": "en", "pgs": "en", "p": "en", "pp": "en",
    "planche": "fr", "planches": "fr", "pl": "fr",
    "página": "es pt", "páginas": "es pt", "pág": "es pt", "págs": "es pt",
    "lámina": "es", "láminas": "es",
    "seite": "de", "seiten": "de", "doppelseite": "de",
    "pagina": "it nl es pt", "pagine": "it", "tavola": "it", "tavole": "it", "pag": "it nl es",
    "prancha": "pt", "pranchas": "pt",
    "pagina's": "nl", "paginas": "nl es pt", "bladzijde": "nl", "bladzijden": "nl", "blz": "nl",
    "plaat": "nl",
    "ページ": "ja", "頁": "ja", "ページ目": "ja", "頁目": "ja", "見開き": "ja",
}  # fmt: skip

_PANEL = {
    "panel": "en de es nl", "panels": "en de nl", "pnl": "en", "frame": "en", "frames": "en",
    "pic": "en", "picture": "en",
    "case": "fr", "cases": "fr", "vignette": "fr it", "vignettes": "fr",
    "viñeta": "es", "viñetas": "es", "cuadro": "es", "cuadros": "es",
    "bild": "de", "bilder": "de",
    "vignetta": "it", "vign": "it fr", "viñ": "es", "riquadro": "it", "riquadri": "it",
    "quadro": "pt", "quadros": "pt", "quadrinho": "pt", "quadrinhos": "pt", "painel": "pt",
    "painéis": "pt", "vinheta": "pt", "vinhetas": "pt", "requadro": "pt",
    "kader": "nl", "kaders": "nl", "plaatje": "nl", "plaatjes": "nl", "prent": "nl",
    "beeld": "nl", "beelden": "nl", "paneel": "nl", "panelen": "nl",
    "コマ": "ja", "コマ目": "ja", "駒": "ja", "パネル": "ja",
}  # fmt: skip

_SPLASH = (
    "splash", "splashpage", "pleine", "splashseite", "ganzseitig", "ganzseite", "paginagroot",
    "大ゴマ", "一枚絵",
)  # fmt: skip
_SPREAD = (
    "spread", "dps", "double", "double-page", "doppelseite", "doppelseitig", "doble", "doppia",
    "dupla", "dubbele", "dubbelpagina", "見開き",
)  # fmt: skip
_FILLERS = (
    # words that stand beside the others and say nothing by themselves
    "page", "pages", "planche", "página", "pagina", "seite", "full", "a", "an", "en", "as", "the",
    "in", "total", "all", "entière", "completa", "intera", "inteira", "hele", "全", "new",
    "cont'd", "contd", "continued", "cont", "suite", "with",
)  # fmt: skip
_JOINERS = (
    "and", "to", "et", "à", "y", "a", "und", "bis", "e", "en", "tot", "through",
    "から", "と",
)  # fmt: skip
_OF = ("of", "sur", "de", "von", "di", "van")
_LEADS = ("splash", "double", "double-page", "doble", "doppia", "dupla", "dubbele", "full", "new")
_ORDINALS = ("st", "nd", "rd", "th", "re", "er", "e", "eme", "ª", "º", "°", "a", "o", "第")


def _keys(words: tuple[str, ...]) -> frozenset[str]:
    return frozenset(fold(word) for word in words)


def _table(words: Mapping[str, str]) -> Mapping[str, tuple[str, ...]]:
    return MappingProxyType({fold(word): tuple(used.split()) for word, used in words.items()})


PAGE_WORDS = _table(_PAGE)
PANEL_WORDS = _table(_PANEL)
SPLASH_WORDS = _keys(_SPLASH)
SPREAD_WORDS = _keys(_SPREAD)
FILLER_WORDS = _keys(_FILLERS)
JOINER_WORDS = _keys(_JOINERS)
OF_WORDS = _keys(_OF)
LEAD_WORDS = _keys(_LEADS)
ORDINAL_MARKS = _keys(_ORDINALS)
UNNUMBERED_PANEL_WORDS = _keys(
    ("panel", "pnl", "viñeta", "vignette", "vignetta", "quadrinho", "plaatje", "コマ")
)
"""Panel words that make a heading without a number; the others are everyday words, too, and
need capitals for that."""

SHORT_PAGE_WORDS = _keys(("p", "pp", "pl", "pg", "pgs"))
"""Page words that are initials too: they need digits to make a heading."""
FIRST_WORDS = frozenset(
    PAGE_WORDS.keys() | PANEL_WORDS.keys() | LEAD_WORDS | SPREAD_WORDS | SPLASH_WORDS | {"第"}
)
"""The words with which a heading can begin."""
KANJI = frozenset("〇一二三四五六七八九十")


def leading_language(votes: Mapping[str, int]) -> str:
    """The language with most votes; the first of LANGUAGES on a tie.

    >>> leading_language({"fr": 3, "en": 2})
    'fr'
    """
    return max(LANGUAGES, key=lambda language: votes.get(language, 0))
