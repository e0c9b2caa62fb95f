"""How a line is spoken, read off what stands in brackets after the name.

Vocabulary of eight languages, from memory. A phrase counts where it stands in the modifier as
whole words, so "OFF", "off-panel" and "calling from off" all mean off-panel, but "coffee" not.
"""

import re
from collections.abc import Sequence
from functools import cache

from letterfit.script.folding import fold

OFF_PANEL = (
    "off", "off panel", "offpanel", "off screen", "offscreen", "off camera", "off stage", "o.s.",
    "o.p.", "o.c.", "os", "op", "o/p", "o/s", "from off", "unseen", "out of frame",
    "hors champ", "hors cadre", "hors case", "hors vignette", "voix off",
    "fuera de campo", "fuera de cuadro", "fuera de plano", "fuera de viñeta", "voz en off",
    "aus dem off", "außerhalb", "nicht im bild",
    "fuori campo", "fuoricampo", "fuori scena", "fuori vignetta", "f.c.",
    "fora de quadro", "fora de campo", "fora de cena", "voz off",
    "buiten beeld", "buiten kader",
    "画面外", "コマ外", "枠外", "オフ",
)  # fmt: skip

WHISPER = (
    "whisper", "whispers", "whispering", "whispered", "sotto voce", "under her breath",
    "under his breath", "under their breath", "small", "quiet", "quietly", "softly",
    "murmurs", "muttering", "mutters",
    "à voix basse", "voix basse", "chuchote", "chuchotant", "chuchoté", "murmure", "murmurant",
    "tout bas",
    "susurra", "susurrando", "susurro", "en voz baja", "murmura", "murmurando",
    "flüstert", "flüsternd", "flüstern", "leise", "murmelt",
    "sussurra", "sussurrando", "sussurro", "a bassa voce", "sottovoce", "bisbiglia", "mormora",
    "em voz baixa", "baixinho", "cochicha",
    "fluistert", "fluisterend", "zachtjes", "fluister",
    "小声", "ささやき", "ささやく", "囁き", "ひそひそ",
)  # fmt: skip

SHOUT = (
    "shout", "shouts", "shouting", "yell", "yells", "yelling", "scream", "screams", "screaming",
    "burst", "loud", "bellows", "roars",
    "crie", "criant", "cri", "hurle", "hurlant", "très fort",
    "grita", "gritando", "grito", "chilla",
    "schreit", "schreiend", "ruft", "brüllt", "laut",
    "urla", "urlando", "urlo", "grida", "gridando",
    "berra", "aos gritos",
    "schreeuwt", "schreeuwend", "roept", "gilt", "luid",
    "叫び", "叫ぶ", "大声", "怒鳴り", "絶叫",
)  # fmt: skip

MACHINE = (
    "radio", "over radio", "on radio", "phone", "on phone", "telephone", "speaker", "loudspeaker",
    "intercom", "electronic", "computer", "robot", "tv", "television", "tannoy", "recording",
    "à la radio", "au téléphone", "haut-parleur", "électronique", "ordinateur",
    "por radio", "por teléfono", "altavoz", "electrónico", "ordenador",
    "funk", "über funk", "am telefon", "lautsprecher", "elektronisch",
    "alla radio", "al telefono", "altoparlante", "elettronico",
    "no rádio", "ao telefone", "alto-falante", "eletrônico",
    "luidspreker", "via radio", "aan de telefoon",
    "無線", "電話", "スピーカー", "電子音",
)  # fmt: skip

CONTINUED = (
    "cont'd", "contd", "cont", "cont.", "continued", "continuing", "more",
    "suite", "suivant", "continue",
    "cont.", "continúa", "continuación", "sigue",
    "forts.", "fortsetzung", "weiter",
    "continua", "segue", "cont.",
    "continuação", "continuando",
    "vervolg", "vervolgt",
    "続き", "つづき", "続く",
)  # fmt: skip

THOUGHT = (
    "thought", "thoughts", "thinks", "thinking", "think", "thought balloon", "thought bubble",
    "internal", "inner voice", "to herself, in thought",
    "pense", "pensée", "pensées", "pensant", "en pensée", "en pensées",
    "piensa", "pensamiento", "pensando", "en pensamientos",
    "denkt", "denkend", "gedanke", "gedanken", "in gedanken", "gedankenblase",
    "pensa", "pensiero", "pensieri", "pensando tra sé",
    "pensamento", "pensamentos",
    "gedachte", "gedachten", "in gedachten", "denkwolk",
    "心の声", "思考", "心の中", "心中", "内心",
)  # fmt: skip

CAPTION = (
    "caption", "captions", "cap", "narration", "narrating", "voice over", "voiceover", "v.o.", "vo",
    "v/o", "box",
    "récitatif", "cartouche", "narratif",
    "cartela", "narración", "recuadro",
    "kasten", "textkasten", "textbox", "erzählkasten",
    "didascalia", "narrazione",
    "narração", "legenda", "recordatório",
    "tekstkader", "bijschrift",
    "ナレーション", "モノローグ", "キャプション",
)  # fmt: skip


def is_off_panel(modifiers: Sequence[str]) -> bool:
    """Whether the speaker is out of the picture.

    >>> is_off_panel(["hors champ"]), is_off_panel(["over coffee"])
    (True, False)
    """
    return any(_finder(OFF_PANEL).search(fold(modifier)) for modifier in modifiers)


def is_whisper(modifiers: Sequence[str]) -> bool:
    """Whether the words are whispered.

    >>> is_whisper(["à voix basse"])
    True
    """
    return any(_finder(WHISPER).search(fold(modifier)) for modifier in modifiers)


def is_shout(modifiers: Sequence[str]) -> bool:
    """Whether the words are shouted.

    >>> is_shout(["SCHREIT"])
    True
    """
    return any(_finder(SHOUT).search(fold(modifier)) for modifier in modifiers)


def is_machine(modifiers: Sequence[str]) -> bool:
    """Whether the voice comes out of a machine.

    >>> is_machine(["OVER RADIO"]), is_machine(["radiant"])
    (True, False)
    """
    return any(_finder(MACHINE).search(fold(modifier)) for modifier in modifiers)


def is_continued(modifiers: Sequence[str]) -> bool:
    """Whether the speech goes on from an earlier balloon.

    >>> is_continued(["CONT’D"])
    True
    """
    return any(_finder(CONTINUED).search(fold(modifier)) for modifier in modifiers)


def is_thought(modifiers: Sequence[str]) -> bool:
    """Whether the words are thought, not spoken.

    >>> is_thought(["pense"])
    True
    """
    return any(_whole(modifier, THOUGHT) for modifier in modifiers)


def is_caption(modifiers: Sequence[str]) -> bool:
    """Whether a character's words are read as a caption.

    >>> is_caption(["V.O."])
    True
    """
    return any(_whole(modifier, CAPTION) for modifier in modifiers)


def is_known(modifier: str) -> bool:
    """Whether the whole of the text is one modifier that this module knows.

    >>> is_known("OFF"), is_known("over radio"), is_known("to the pilot")
    (True, True, False)
    """
    return names_nobody(modifier) or _whole(modifier, MACHINE)


def names_nobody(modifier: str) -> bool:
    """Whether it is one that can be no name: a machine may speak under what it is called.

    >>> names_nobody("OFF"), names_nobody("ROBOT")
    (True, False)
    """
    tables = (OFF_PANEL, WHISPER, SHOUT, CONTINUED, THOUGHT, CAPTION)
    return any(_whole(modifier, table) for table in tables)


def is_technical(modifier: str) -> bool:
    """Whether the whole of the text is a modifier that only scripts use: off, cont'd, caption.

    >>> is_technical("o.p."), is_technical("softly")
    (True, False)
    """
    return any(_whole(modifier, table) for table in (OFF_PANEL, CONTINUED, THOUGHT, CAPTION))


@cache
def _keys(phrases: tuple[str, ...]) -> frozenset[str]:
    return frozenset(_bare(phrase) for phrase in phrases)


def _bare(phrase: str) -> str:
    return fold(phrase).replace(".", "").replace("-", " ")


def _whole(modifier: str, phrases: tuple[str, ...]) -> bool:
    return _bare(modifier) in _keys(phrases)


@cache
def _finder(phrases: tuple[str, ...]) -> re.Pattern[str]:
    # Kana and kanji run on without spaces, so only cased neighbours end a word.
    words = "|".join(re.escape(fold(phrase)).replace(r"\ ", r"[ -]") for phrase in phrases)
    return re.compile(rf"(?<![a-z0-9])(?:{words})(?![a-z0-9])")
