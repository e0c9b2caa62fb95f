"""Whole scripts in the styles and languages they are typed in. Words from memory, no source."""

import pytest

from letterfit.script.model import Script
from letterfit.script.parse import parse_script


def summary(script: Script) -> list[str]:
    """One line a panel and an element, short enough to read."""
    lines = []
    for page in script.pages:
        for panel in page.panels:
            lines.append(f"{page.label}.{panel.number} {panel.description}")
            for e in panel.elements:
                index = "" if e.index is None else f"{e.index} "
                brackets = "".join(f" ({modifier})" for modifier in e.modifiers)
                lines.append(f"  {index}{e.kind} {e.speaker or '-'}{brackets}: {e.text}")
    return lines


STYLES = {
    "an outline by indentation alone, effects in brackets": (
        """PAGE 1
PANEL 1
\tLock Nine, dusk.
\tWENNA
\t\tYou're early.
\tPILOT (O.P.)
\t\tTide waits for no one.
\tSFX
\t\tCLANG!
[SFX: KRRAK]
""",
        [
            "1.1 Lock Nine, dusk.",
            "  dialogue WENNA: You're early.",
            "  dialogue PILOT (O.P.): Tide waits for no one.",
            "  sfx -: CLANG!",
            "  sfx -: KRRAK",
        ],
    ),
    "columns made with the space bar, splash, prose with colons": (
        """LOW WATER #2
by (writer)

CHARACTERS:
WENNA: lock keeper, sixties

PAGE ONE

PANEL ONE

Establishing shot. Three things matter here: the gate, the lamp, the barge.

1   CAPTION   Lock Nine.
2   WENNA (whisper)   Hold.

PANEL TWO

3   PILOT (off)
    Ahoy!

    SFX: HOOOM

PANEL THREE
(no dialogue)

PAGE TWO — SPLASH

The barge.
TITLE: LOW WATER
""",
        [
            "1.1 Establishing shot. Three things matter here: the gate, the lamp, the barge.",
            "  1 caption -: Lock Nine.",
            "  2 dialogue WENNA (whisper): Hold.",
            "1.2 ",
            "  3 dialogue PILOT (off): Ahoy!",
            "  sfx -: HOOOM",
            "1.3 ",
            "2.1 The barge.",
            "  caption -: LOW WATER",
        ],
    ),
    "mixed case, panels numbered by page": (
        """Page 1.

1.1 - Ext. lock. Dawn.

Caption (Wenna): I was young then.
Wenna: Hello?
Man's voice (o.p.): Ahoy!
sfx: krrk

1.2 - Close.
Wenna (thinking): No.
No dialogue.

Page 2.
2.1 - Int. cottage.
Radio: ...storm warning...
Both: No!
""",
        [
            "1.1.1 Ext. lock. Dawn.",
            "  caption Wenna: I was young then.",
            "  dialogue Wenna: Hello?",
            "  dialogue Man's voice (o.p.): Ahoy!",
            "  sfx -: krrk",
            "1.1.2 Close.",
            "  thought Wenna (thinking): No.",
            "2.2.1 Int. cottage.",
            "  dialogue Radio: ...storm warning...",
            "  dialogue Both: No!",
        ],
    ),
    "screenplay without blank lines, panels in square brackets": (
        """PAGE 1 - 2 PANELS

[1] Wide on the lock.

WENNA
The tide turned.
PILOT
(shouting)
Ahoy!

[2] Her hand.

WENNA
Hold.
PILOT
What?
""",
        [
            "1.1 Wide on the lock.",
            "  dialogue WENNA: The tide turned.",
            "  dialogue PILOT (shouting): Ahoy!",
            "1.2 Her hand.",
            "  dialogue WENNA: Hold.",
            "  dialogue PILOT: What?",
        ],
    ),
    "dashes behind the names": (
        """PAGE 1
Panel 1 - Wide - dawn.
WENNA - Hold on: the gate.
PILOT (off) – Ahoy!
WENNA — Go.
""",
        [
            "1.1 Wide - dawn.",
            "  dialogue WENNA: Hold on: the gate.",
            "  dialogue PILOT (off): Ahoy!",
            "  dialogue WENNA: Go.",
        ],
    ),
    "dashes in the descriptions of a script with colons": (
        """PAGE 1
Panel 1
WENNA - wet, tired - looks up.
WENNA: Hold.
""",
        ["1.1 WENNA - wet, tired - looks up.", "  dialogue WENNA: Hold."],
    ),
    "Markdown": (
        """# LOW WATER

## Page 1 *(two panels)*

### Panel 1

A canal lock.

**CAPTION:** *Lock Nine.*

1. **WENNA:** Hold.
2. **PILOT** (shouting): Ahoy!

* **Panel 2:** *Close.*
* WENNA: Go.

---
""",
        [
            "1.1 A canal lock.",
            "  caption -: *Lock Nine.*",
            "  1 dialogue WENNA: Hold.",
            "  2 dialogue PILOT (shouting): Ahoy!",
            "1.2 *Close.*",
            "  dialogue WENNA: Go.",
        ],
    ),
    "panels without numbers": (
        "PAGE 1\nPANEL: Wide.\nWENNA: Hold.\nPANEL\nHer hand.\n",
        ["1.1 Wide.", "  dialogue WENNA: Hold.", "1.2 Her hand."],
    ),
}

LANGUAGES = {
    "fr": (
        """PLANCHE UN (2 cases)

CASE 1 : Plan large. Au fond : l’écluse.
CARTOUCHE : Écluse neuf.
ODILE, off : Ohé !
Case 2 — Gros plan.
Odile (pense) : Trop large…
ONOMATOPÉE : CRAC
Sans paroles
""",
        [
            "1.1 Plan large. Au fond : l’écluse.",
            "  caption -: Écluse neuf.",
            "  dialogue ODILE (off): Ohé !",
            "1.2 Gros plan.",
            "  thought ODILE (pense): Trop large…",
            "  sfx -: CRAC",
        ],
    ),
    "es": (
        """PÁGINA UNO

VIÑETA 1: La esclusa. Al fondo: la barcaza.
CARTELA: Esclusa nueve.
WENNA (susurra): Aguanta.
Viñeta 2.
NARRADOR: Y no cupo.
EFECTO DE SONIDO: ¡CRAC!
SIN DIÁLOGO
""",
        [
            "1.1 La esclusa. Al fondo: la barcaza.",
            "  caption -: Esclusa nueve.",
            "  dialogue WENNA (susurra): Aguanta.",
            "1.2 ",
            "  caption NARRADOR: Y no cupo.",
            "  sfx -: ¡CRAC!",
        ],
    ),
    "de": (
        """Seite eins

Bild 1: Totale. Im Hintergrund: ein Kahn.
KASTEN: Schleuse neun.
WENNA: „Die Flut ist da.“
LOTSE (aus dem Off): Ahoi!
Hinweis: Nebel.

Bild 2
Wenna (denkt): Viel zu breit ...
GERÄUSCH: KRRK
""",
        [
            "1.1 Totale. Im Hintergrund: ein Kahn. Hinweis: Nebel.",
            "  caption -: Schleuse neun.",
            "  dialogue WENNA: „Die Flut ist da.“",
            "  dialogue LOTSE (aus dem Off): Ahoi!",
            "1.2 ",
            "  thought WENNA (denkt): Viel zu breit ...",
            "  sfx -: KRRK",
        ],
    ),
    "it": (
        """TAVOLA DUE (3 vignette)

1) Campo lungo. La chiusa.
DIDASCALIA: Chiusa nove.

2) Primo piano: Wenna.
WENNA: La marea...
... è cambiata.

3) Buio.
PILOTA (f.c.): Ehi!
RUMORE: CRAC
""",
        [
            "2.1 Campo lungo. La chiusa.",
            "  caption -: Chiusa nove.",
            "2.2 Primo piano: Wenna.",
            "  dialogue WENNA: La marea... ... è cambiata.",
            "2.3 Buio.",
            "  dialogue PILOTA (f.c.): Ehi!",
            "  sfx -: CRAC",
        ],
    ),
    "pt": (
        """PÁGINA 1

Quadro 1 - A eclusa. Ao fundo: a barca.
LEGENDA: Eclusa nove.
SOM: CRAC
Quadro 2
WENNA (pensamento): Aguenta.
PILOTO (fora de quadro): Ei!
""",
        [
            "1.1 A eclusa. Ao fundo: a barca.",
            "  caption -: Eclusa nove.",
            "  sfx -: CRAC",
            "1.2 ",
            "  thought WENNA (pensamento): Aguenta.",
            "  dialogue PILOTO (fora de quadro): Ei!",
        ],
    ),
    "nl": (
        """BLADZIJDE TWEE

Kader 1: De sluis. Op de achtergrond: een aak.
BIJSCHRIFT: Sluis negen.
GELUID: KRAK
Plaatje 2
WENNA (fluistert): Hou vol.
LOODS (buiten beeld): Ahoi!
""",
        [
            "2.1 De sluis. Op de achtergrond: een aak.",
            "  caption -: Sluis negen.",
            "  sfx -: KRAK",
            "2.2 ",
            "  dialogue WENNA (fluistert): Hou vol.",
            "  dialogue LOODS (buiten beeld): Ahoi!",
        ],
    ),
    "ja": (
        """潮位

【１ページ目】

■1コマ目
夜明けの水門。
場所：水門
N「水門九番」
ウェンナ「潮が変わった。
まだ誰も来ない」
彼女は振り向く。
船頭(画面外)「おーい！」
SE：ゴオオ
●2コマ目：手のアップ
ウェンナ（心の声）：入らない
（無言）
""",
        [
            "1.1 夜明けの水門。場所：水門彼女は振り向く。",
            "  caption -: 水門九番",
            "  dialogue ウェンナ: 潮が変わった。まだ誰も来ない",
            "  dialogue 船頭 (画面外): おーい！",
            "  sfx -: ゴオオ",
            "1.2 手のアップ",
            "  thought ウェンナ (心の声): 入らない",
        ],
    ),
}


@pytest.mark.parametrize("style", STYLES)
def test_styles_of_typing(style: str) -> None:
    """Each style gives its panels, balloons and descriptions, and no finding."""
    text, expected = STYLES[style]
    script = parse_script(text)
    assert summary(script) == expected
    assert script.findings == ()


@pytest.mark.parametrize("language", LANGUAGES)
def test_whole_scripts_of_seven_languages(language: str) -> None:
    """Each gives its panels and balloons, tells its language, and no finding."""
    text, expected = LANGUAGES[language]
    script = parse_script(text)
    assert summary(script) == expected
    assert script.language == language
    assert script.findings == ()


@pytest.mark.parametrize("language", LANGUAGES)
def test_capitals_do_not_change_a_script(language: str) -> None:
    """A script typed in capitals throughout has the same panels and as many balloons."""
    text, _ = LANGUAGES[language]
    one, other = parse_script(text), parse_script(text.upper())
    shape = [[len(panel.elements) for panel in page.panels] for page in one.pages]
    assert [[len(panel.elements) for panel in page.panels] for page in other.pages] == shape
