"""Labels: the words before a colon that are no name, in eight languages, as data.

From memory, no source. A *label* says what an element is (CAPTION, SFX); a *direction* belongs to
the description although a colon follows it (NOTE:, CLOSE ON WENNA:); a *silence* says that a
panel has no lettering; a *beat* parts one speech into two balloons.

A label is **sure** if it can hardly begin a sentence of description: then it counts in any case
and in a script of any language. The others (SIGN, LETTER, SOUND) must be typed in capitals, and
in a script of their language or in English, which is used everywhere: French "SON" is a sound
effect, but an English son speaks.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from letterfit.script.folding import fold
from letterfit.script.model import Kind


@dataclass(frozen=True, slots=True)
class Label:
    """What a label says.

    Args:
        kind: The kind of element it begins.
        voice: Whether it names a voice (NARRATOR, DIARY) rather than a mere kind (CAPTION).
        sure: Whether it counts in small letters too.
        languages: The languages that use it; empty where it tells nothing.
    """

    kind: Kind
    voice: bool
    sure: bool
    languages: tuple[str, ...]


_SURE: dict[Kind, dict[str, str]] = {
    "caption": {
        "": "cap, caps",
        "en": "caption, captions, narration, caption box, text box, narrative caption",
        "fr": "récitatif, récitatifs, cartouche, narration, récit, texte off, didascalie",
        "es": "cartela, cartelas, narración, recuadro, cartucho, cuadro de texto, texto de apoyo, "
        "didascalia, apoyo",
        "de": "kasten, textkasten, textbox, blocktext, erzählkasten, erzähltext, erzähler-text, "
        "bildunterschrift, erzählung",
        "it": "didascalia, didascalie, dida, narrazione, cartiglio",
        "pt": "legenda, legendas, narração, recordatório, recordatória, cartela, didascália, "
        "caixa de texto",
        "nl": "tekstkader, bijschrift, vertelkader, tekstvak, vertelling, tekstblok, onderschrift",
        "ja": "ナレーション, ナレ, キャプション, 地の文",
    },
    "sfx": {
        "": "sfx, fx",
        "en": "sound effect, sound effects, sound fx, soundfx, sound-effect",
        "fr": "bruitage, bruitages, onomatopée, onomatopées, effet sonore, bruit",
        "es": "onomatopeya, onomatopeyas, efecto de sonido, efectos de sonido, efecto sonoro, "
        "sonido, ruido",
        "de": "geräusch, geräusche, soundword, soundwords, onomatopoesie, lautmalerei, "
        "soundeffekt, onpo",
        "it": "onomatopea, onomatopee, rumore, rumori, effetto sonoro, suono",
        "pt": "onomatopeia, onomatopeias, onomatopéia, efeito sonoro, ruído, som",
        "nl": "geluidseffect, geluid, geluiden, onomatopee, klanknabootsing",
        "ja": "効果音, 擬音, 書き文字, 描き文字, オノマトペ, 音",
    },
    "thought": {
        "en": "thought, thoughts, thought balloon, thought bubble",
        "fr": "pensée, pensées",
        "es": "pensamiento, pensamientos",
        "de": "gedanke, gedanken, gedankenblase",
        "it": "pensiero, pensieri",
        "pt": "pensamento, pensamentos",
        "nl": "gedachte, gedachten, denkwolk",
        "ja": "心の声, 内心",
    },
    "sign": {
        "fr": "enseigne, panneau, affiche, écriteau",
        "es": "letrero, cartel",
        "it": "insegna, cartello",
        "pt": "letreiro, placa, cartaz",
        "de": "schild, aufschrift",
        "nl": "opschrift, uithangbord",
        "ja": "看板, 貼り紙",
    },
}

_IN_CAPITALS: dict[Kind, dict[str, str]] = {
    "caption": {
        "en": "box, title, titles, text, txt, credits, subtitle",
        "fr": "titre, texte",
        "es": "título, texto",
        "de": "titel, text",
        "it": "titolo, testo",
        "pt": "título, texto",
        "nl": "titel, tekst",
        "ja": "n",
    },
    "sfx": {
        "en": "sound, sounds, effect, noise",
        "fr": "son, sons, effet, ono",
        "es": "efecto, efectos, son",
        "it": "effetto",
        "pt": "efeito, sons",
        "nl": "effect",
        "ja": "se",
    },
    "sign": {
        "en": "sign, signs, screen, poster, label, display, newspaper, headline, billboard, "
        "banner, graffiti, lettering, plaque, logo",
        "fr": "écran, pancarte, logo",
        "es": "pantalla, pancarta, rótulo",
        "de": "bildschirm, plakat, schrift",
        "it": "schermo, scritta, manifesto",
        "pt": "tela, faixa",
        "nl": "scherm, bord, affiche",
    },
}

_NARRATORS = {
    "en": "narrator, narr",
    "fr": "narrateur, narratrice, voix narrative",
    "es": "narrador, narradora, voz narradora",
    "de": "erzähler, erzählerin",
    "it": "narratore, narratrice, voce narrante",
    "pt": "narrador, narradora",
    "nl": "verteller, vertelster",
    "ja": "語り手, 語り",
}  # captions, sure

_PAPERS = {
    "en": "diary, journal, letter, log",
    "fr": "journal, lettre, carnet",
    "es": "diario, carta",
    "de": "tagebuch, brief",
    "it": "diario, lettera",
    "pt": "diário, carta",
    "nl": "dagboek, brief",
    "ja": "日記, 手紙, モノローグ",
}  # captions read from paper; in capitals

_DIRECTION_OPENERS = (
    # a head that begins with one of these words is description
    "close, closeup, close-up, cu, ecu, mcu, wide, medium, extreme, angle, pov, shot, shots, int, "
    "ext, inset, insert, cut, camera, establishing, view, reverse, tight, splash, spread, "
    "background, foreground, bg, fg, note, notes, n.b, nb, setting, flashback, flashforward, "
    "on panel, from, in, at, with, as, when, while, where, there, here, then, it, this, that, "
    "these, those, tiers, "
    "gros plan, plan, vue, contrechamp, contre-plongée, plongée, arrière-plan, avant-plan, "
    "premier plan, remarque, décor, insert, dans, sur, "
    "primer plano, plano, vista, contraplano, picado, contrapicado, fondo, interior, exterior, "
    "en, sobre, "
    "nahaufnahme, großaufnahme, totale, halbtotale, hinweis, anmerkung, hintergrund, "
    "vordergrund, innen, außen, einstellung, im, auf, "
    "primo piano, primissimo piano, campo, sfondo, interno, esterno, inquadratura, "
    "dettaglio, "
    "grande plano, close no, fundo, externa, interna, "
    "opmerking, achtergrond, voorgrond, shot van, binnen, buiten, "
    "注, 備考, メモ, 背景"
)
_DIRECTIONS = (
    # a head that is exactly this is description
    "location, scene, place, date, description, desc, action, art, artist, artwork, art note, "
    "colour, color, colours, colors, colourist, layout, ref, refs, reference, references, mood, "
    "lighting, ps, p.s, nota, "
    "attention, important, warning, remark, remarks, editor, to artist, cast, characters, "
    "style, theme, pacing, transition, dialogue, dialog, copy, image, picture, visual, "
    "same, detail, details, todo, fixme, http, https, "
    "lieu, scène, date, ambiance, couleur, couleurs, description, action, "
    "dialogues, temps, "
    "lugar, escena, fecha, acción, color, descripción, diálogo, diálogos, "
    "ort, szene, datum, zeit, beschreibung, aktion, farbe, stimmung, dialoge, bild, "
    "luogo, scena, data, azione, colore, descrizione, nota bene, dialoghi, "
    "local, cena, ação, cor, descrição, diálogo, falas, "
    "plaats, scène, tijd, actie, kleur, beschrijving, noot, beeld, dialoog, tekst, "
    "note, notes, remarque, hinweis, anmerkung, opmerking, 注, 備考, メモ, 背景, "
    "場所, 時間, 場面, 季節, 状況, 注意, 絵, 動き, 演出, 補足, 構図, 台詞, セリフ"
)
_SIDES = (
    # a head that is exactly this is description, unless it comes back so often that it is a name
    "left, right, top, bottom, centre, center, middle, above, below, time, light, night, day, "
    "morning, evening, gauche, droite, haut, bas, nuit, jour, izquierda, derecha, arriba, abajo, "
    "noche, día, links, rechts, oben, unten, nacht, tag, sinistra, destra, alto, basso, notte, "
    "giorno, esquerda, direita, cima, baixo, noite, dia, boven, onder, dag"
)
_SILENCES = (
    "no dialogue, no dialog, no copy, no text, no lettering, no balloons, no words, silent, "
    "silence, silent panel, wordless, no sfx, no captions, "
    "muet, muette, case muette, sans dialogue, sans dialogues, sans paroles, sans texte, "
    "pas de dialogue, "
    "sin diálogo, sin diálogos, sin texto, muda, viñeta muda, sin palabras, "
    "ohne text, ohne worte, kein text, kein dialog, stumm, ohne dialog, stummes panel, "
    "senza dialoghi, senza dialogo, senza parole, senza testo, muta, vignetta muta, "
    "sem diálogo, sem diálogos, sem texto, sem falas, mudo, quadro mudo, silencioso, "
    "geen tekst, zonder tekst, geen dialoog, zonder woorden, stil, "
    "セリフなし, 台詞なし, 無言, サイレント, 文字なし"
)
_BEATS = (
    "beat, a beat, long beat, pause, a pause, long pause, silence, then, "
    "un temps, temps, une pause, un silence, "
    "pausa, silencio, una pausa, "
    "stille, kurze pause, lange pause, eine pause, moment, "
    "silenzio, un attimo, battuta, "
    "silêncio, uma pausa, "
    "stilte, een stilte, korte stilte, een pauze, pauze, "
    "間, 沈黙, ま, しばし沈黙, 少し間"
)


def _split(words: str) -> Iterator[str]:
    return (fold(word) for word in words.split(",") if word.strip())


def _labels() -> Iterator[tuple[str, Label]]:
    for sure, table in ((False, _IN_CAPITALS), (True, _SURE)):
        for kind, by_language in table.items():
            for language, words in by_language.items():
                for word in _split(words):
                    yield word, Label(kind, False, sure, (language,) if language else ())
    for sure, voices in ((True, _NARRATORS), (False, _PAPERS)):
        for language, words in voices.items():
            for word in _split(words):
                yield word, Label("caption", True, sure, (language,))


def _merged() -> Mapping[str, Label]:
    """One label a word; a word of several languages names them all."""
    table: dict[str, Label] = {}
    for word, label in _labels():
        known = table.get(word)
        tongues = label.languages if known is None else known.languages + label.languages
        sure = label.sure or (known is not None and known.sure)
        table[word] = Label(label.kind, label.voice, sure, tongues)
    return MappingProxyType(table)


LABELS = _merged()
"""All labels by their folded word; `find_label` says whether one counts."""
DIRECTION_OPENERS = frozenset(_split(_DIRECTION_OPENERS))
DIRECTIONS = frozenset(_split(_DIRECTIONS))
SIDES = frozenset(_split(_SIDES))
SILENCES = frozenset(_split(_SILENCES))
BEATS = frozenset(_split(_BEATS))
PLAN_WORDS = frozenset({"tiers"})
"""The keyword of the line on which a page states its own plan: "TIERS: 3 / 2:1 / 4"."""


def find_label(word: str, *, capitals: bool, language: str) -> Label | None:
    """The label that a word is, as typed in a script of a language.

    Args:
        word: A head, or some of its words.
        capitals: Whether it stands in capitals (or in a script that has none).
        language: The language the script's headings are typed in.

    >>> find_label("Caption", capitals=False, language="fr").kind
    'caption'
    >>> find_label("SON", capitals=True, language="en") is None
    True
    """
    label = LABELS.get(fold(word).strip(". "))
    if label is None or label.sure:
        return label
    spoken_here = {"en", language} & set(label.languages)
    return label if capitals and spoken_here else None


def is_silence(text: str) -> bool:
    """Whether a line only says that a panel has no lettering.

    >>> is_silence("NO DIALOGUE."), is_silence("(Muette.)"), is_silence("Silent street.")
    (True, True, False)
    """
    return len(text) < 60 and fold(text).strip(".!()[]（）。 ") in SILENCES


def is_beat(text: str) -> bool:
    """Whether the words in a bracket are a beat.

    >>> is_beat("Beat."), is_beat("beating the gate")
    (True, False)
    """
    return len(text) < 60 and fold(text).strip(". 。…") in BEATS


def is_direction(head: str) -> bool:
    """Whether the words before a colon belong to a description.

    >>> is_direction("NOTE"), is_direction("CLOSE ON WENNA"), is_direction("WENNA")
    (True, True, False)
    """
    key = fold(head).strip(". ")
    words = key.replace(".", " ").replace("/", " ").split()
    starts = {" ".join(words[:length]) for length in (1, 2)}
    return key in DIRECTIONS or key in DIRECTION_OPENERS or bool(starts & DIRECTION_OPENERS)
