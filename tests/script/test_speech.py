"""Who speaks: the rule that tells a speaker's line from a description with a colon in it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from letterfit.script.cast import EMPTY_CAST, Cast, cast_of
from letterfit.script.delivery import is_off_panel
from letterfit.script.heads import split_head, split_index
from letterfit.script.labels import is_beat, is_direction, is_silence
from letterfit.script.names import look_of
from letterfit.script.parse import parse_script
from letterfit.script.spoken import spoken_line

CAPITALS = cast_of(["WENNA", "WENNA", "BARGE PILOT", "ODILE"], [])


def said(
    text: str, *, cast: Cast = CAPITALS
) -> tuple[str, str | None, tuple[str, ...], str] | None:
    """Kind, speaker, modifiers and words of a line; None if it is description."""
    spoken = spoken_line(text, cast=cast)
    if spoken is None:
        return None
    return spoken.kind, spoken.speaker, spoken.modifiers, spoken.words


@pytest.mark.parametrize(
    "text",
    [
        "From behind her: a barge horn somewhere in the mist.",
        "Note: the gate stays shut.",
        "NOTE: the gate stays shut.",
        "NOTE TO ARTIST: the gate stays shut.",
        "CLOSE ON WENNA: she has not slept.",
        "WIDE: the lock at dawn.",
        "EXT. LOCK NINE - DAY: mist.",
        "GROS PLAN : sa main.",
        "Nahaufnahme: ihre Hand.",
        "PRIMER PLANO: la mano.",
        "LEFT: the barge.",
        "She reads the sign: LOCK NINE.",
        "Her face says one thing: no.",
        "WENNA LEANS ON THE BEAM AND LOOKS AT THE FAR GATE: nothing.",
        "It is 12:30 and she waits.",
        "WENNA - tired, wet - leans on the beam.",
        "WENNA (sixties) - the keeper of Lock Nine.",
        "http://example.org: no",
        "Sign: LOCK NINE",
        "WENNA, sixties, leans on the balance beam. She has not slept.",
        "Lantern: brass, dented.",
        "wenna waits: the tide turns",
        "WENNA (who has waited all night: the tide turned",
        "He whispers (softly): no name stands here",
        ":",
        ": words",
        "(off): words",
    ],
)
def test_a_colon_in_a_description_is_no_speaker(text: str) -> None:
    """In a script whose names stand in capitals, none of these lines is lettered."""
    assert said(text) is None


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("WENNA: Hold.", ("dialogue", "WENNA", (), "Hold.")),
        (
            "Harbour Master (over radio): Hold.",
            ("dialogue", "Harbour Master", ("over radio",), "Hold."),
        ),
        ("WENNA (radio, off): Hold.", ("dialogue", "WENNA", ("radio", "off"), "Hold.")),
        ("SHIP COMPUTER: Hold.", ("dialogue", "SHIP COMPUTER", (), "Hold.")),
        ("WENNA, ROBOT: Hold.", ("dialogue", "WENNA, ROBOT", (), "Hold.")),
        ("WENNA:Hold.", ("dialogue", "WENNA", (), "Hold.")),
        ("WENNA : Hold.", ("dialogue", "WENNA", (), "Hold.")),
        ("WENNA\u00a0: Hold.", ("dialogue", "WENNA", (), "Hold.")),
        ("WENNA：Hold.", ("dialogue", "WENNA", (), "Hold.")),
        ("WENNA\tHold.", ("dialogue", "WENNA", (), "Hold.")),
        ("WENNA:\tHold.", ("dialogue", "WENNA", (), "Hold.")),
        ("Wenna: Hold.", ("dialogue", "WENNA", (), "Hold.")),
        ("Odile (pense) : Hold.", ("thought", "ODILE", ("pense",), "Hold.")),
        ("A DECKHAND: Aye.", ("dialogue", "A DECKHAND", (), "Aye.")),
        ("GUARD #2: Halt!", ("dialogue", "GUARD #2", (), "Halt!")),
        ("DR. STONE: Hm.", ("dialogue", "DR. STONE", (), "Hm.")),
        ("O’BRIEN: Hm.", ("dialogue", "O’BRIEN", (), "Hm.")),
        ("McKAY: Hm.", ("dialogue", "McKAY", (), "Hm.")),
        ("JEAN-LUC: Hm.", ("dialogue", "JEAN-LUC", (), "Hm.")),
        ("WENNA & PILOT: No!", ("dialogue", "WENNA & PILOT", (), "No!")),
        ("WENNA/PILOT: No!", ("dialogue", "WENNA/PILOT", (), "No!")),
        ("ÉCLUSIÈRE : Non.", ("dialogue", "ÉCLUSIÈRE", (), "Non.")),
        ("WENNA (OFF): Hold.", ("dialogue", "WENNA", ("OFF",), "Hold.")),
        ("WENNA [OFF]: Hold.", ("dialogue", "WENNA", ("OFF",), "Hold.")),
        ("WENNA (OFF) (WHISPER): Hold.", ("dialogue", "WENNA", ("OFF", "WHISPER"), "Hold.")),
        ("WENNA (OFF, WHISPER): Hold.", ("dialogue", "WENNA", ("OFF", "WHISPER"), "Hold.")),
        ("WENNA (aside, low): Hold.", ("dialogue", "WENNA", ("aside, low",), "Hold.")),
        ("WENNA (to: the pilot): Hold.", ("dialogue", "WENNA", ("to: the pilot",), "Hold.")),
        ("WENNA, OFF: Hold.", ("dialogue", "WENNA", ("OFF",), "Hold.")),
        ("WENNA O.S.: Hold.", ("dialogue", "WENNA", ("O.S.",), "Hold.")),
        ("WENNA *(off)*: Hold.", ("dialogue", "WENNA", ("off",), "Hold.")),
        ("WENNA (O.S.) - Hold: now.", ("dialogue", "WENNA", ("O.S.",), "Hold: now.")),
        ("SFX - KRRAK", ("sfx", None, (), "KRRAK")),
        ("SFX — the gate: KRRAK", ("sfx", None, ("the gate",), "KRRAK")),
        ("CAP (WENNA, CONT’D): Later.", ("caption", "WENNA", ("CONT’D",), "Later.")),
        ("CAP (WENNA) (CONT’D): Later.", ("caption", "WENNA", ("CONT’D",), "Later.")),
        ("WENNA (V.O.): Later.", ("caption", "WENNA", ("V.O.",), "Later.")),
        ("WENNA CAPTION: Later.", ("caption", "WENNA", (), "Later.")),
        ("CAPTION: Later.", ("caption", None, (), "Later.")),
        ("Caption: Later.", ("caption", None, (), "Later.")),
        ("CAPTION (WENNA): Later.", ("caption", "WENNA", (), "Later.")),
        ("CAPTION (ELSEWHERE): Later.", ("caption", None, ("ELSEWHERE",), "Later.")),
        ("CAPTION - WENNA: Later.", ("caption", "WENNA", (), "Later.")),
        ("CAP 2: Later.", ("caption", None, ("2",), "Later.")),
        ("NARRATOR: Later.", ("caption", "NARRATOR", (), "Later.")),
        ("WENNA'S DIARY: Later.", ("caption", "WENNA'S DIARY", (), "Later.")),
        ("SFX: KRRK", ("sfx", None, (), "KRRK")),
        ("SFX (OFF): KRRK", ("sfx", None, ("OFF",), "KRRK")),
        ("SFX GATE: KRRK", ("sfx", None, ("GATE",), "KRRK")),
        ("SIGN: LOCK NINE", ("sign", None, (), "LOCK NINE")),
        ("THOUGHT (WENNA): Hold.", ("thought", "WENNA", (), "Hold.")),
        ("WENNA (THOUGHT): Hold.", ("thought", "WENNA", ("THOUGHT",), "Hold.")),
        ("ウェンナ：潮が変わった", ("dialogue", "ウェンナ", (), "潮が変わった")),
        ("ウェンナ「潮が変わった」", ("dialogue", "ウェンナ", (), "「潮が変わった」")),
        ("ウェンナ（小声）「もう少し」", ("dialogue", "ウェンナ", ("小声",), "「もう少し」")),
        ("WENNA:", ("dialogue", "WENNA", (), "")),
    ],
)
def test_lettered_lines(text: str, expected: tuple[str, str | None, tuple[str, ...], str]) -> None:
    """Names in capitals, names known from elsewhere, labels, brackets, tabs, wide colons."""
    assert said(text) == expected


LABELS = {
    "en": ("CAPTION", "NARRATION", "SFX", "SOUND EFFECT", "SIGN"),
    "fr": ("RÉCITATIF", "CARTOUCHE", "BRUITAGE", "ONOMATOPÉE", "PANNEAU"),
    "es": ("CARTELA", "NARRACIÓN", "EFECTO DE SONIDO", "ONOMATOPEYA", "LETRERO"),
    "de": ("KASTEN", "TEXTBOX", "GERÄUSCH", "LAUTMALEREI", "SCHILD"),
    "it": ("DIDASCALIA", "NARRAZIONE", "RUMORE", "ONOMATOPEA", "INSEGNA"),
    "pt": ("LEGENDA", "RECORDATÓRIO", "SOM", "ONOMATOPEIA", "PLACA"),
    "nl": ("BIJSCHRIFT", "TEKSTKADER", "GELUID", "GELUIDSEFFECT", "BORD"),
    "ja": ("ナレーション", "キャプション", "効果音", "擬音", "看板"),
}


@pytest.mark.parametrize("language", LABELS)
def test_labels_of_eight_languages(language: str) -> None:
    """Two words for captions, two for sound effects, one for signs, each with its own colon."""
    cast = cast_of(["WENNA"], [], language=language)
    kinds = [said(f"{label}: x", cast=cast) for label in LABELS[language]]
    assert [said_ and said_[:2] for said_ in kinds] == [
        ("caption", None), ("caption", None), ("sfx", None), ("sfx", None), ("sign", None),
    ]  # fmt: skip


def test_a_label_of_another_language_may_be_a_name() -> None:
    """SON is a sound in French, and somebody's son in English."""
    french = cast_of([], [], language="fr")
    assert said("SON: x", cast=french) == ("sfx", None, (), "x")
    assert said("SON: x") == ("dialogue", "SON", (), "x")


def test_mixed_case_names_count_where_no_name_stands_in_capitals() -> None:
    """A script typed with Wenna: and Guard: has speakers; going on in small letters is none."""
    mixed = cast_of(["Wenna", "Wenna", "Guard", "Morning"], [])
    assert said("Wenna: hold", cast=mixed) == ("dialogue", "Wenna", (), "hold")
    assert said("Guard: Halt!", cast=mixed) == ("dialogue", "Guard", (), "Halt!")
    assert said("Morning: the mist lifts.", cast=mixed) is None
    assert said("From behind her: a horn", cast=mixed) is None
    assert said("Sign: LOCK NINE", cast=mixed) == ("sign", None, (), "LOCK NINE")


def test_mixed_case_names_must_come_back_beside_names_in_capitals() -> None:
    """One odd "Lantern:" is description; three of them are a speaker."""
    once, often = cast_of(["WENNA", "Mate"], []), cast_of(["WENNA", "Mate", "Mate", "Mate"], [])
    assert said("Mate: Aye.", cast=once) is None
    assert said("Mate: Aye.", cast=often) == ("dialogue", "Mate", (), "Aye.")


def test_one_speaker_has_one_spelling() -> None:
    """The spelling in capitals, wherever it stands, else the first."""
    assert cast_of(["Odile", "ODILE"], []).spelling("odile") == "ODILE"
    assert cast_of(["Odile", "ODILE"], []).spelling("Ödile") == "ODILE"
    assert EMPTY_CAST.spelling("Odile") == "Odile"


def test_a_name_behind_a_panel_heading_must_be_known() -> None:
    """Descriptions begin with names in capitals; labels are never descriptions."""
    line = spoken_line("STRANGER: tall, wet.", cast=CAPITALS, behind_heading=True)
    known = spoken_line("WENNA: Hold.", cast=CAPITALS, behind_heading=True)
    label = spoken_line("SFX: KRRK", cast=CAPITALS, behind_heading=True)
    assert line is None
    assert known is not None
    assert label is not None


@pytest.mark.parametrize(
    ("text", "index"),
    [
        ("1. WENNA: Hold.", 1),
        ("12) WENNA: Hold.", 12),
        ("(3) WENNA: Hold.", 3),
        ("4 WENNA: Hold.", 4),
        ("5 - WENNA: Hold.", 5),
        ("#6 WENNA: Hold.", 6),
        ("1.7 WENNA: Hold.", 7),
        ("WENNA: 8 bells.", None),
    ],
)
def test_a_balloon_number_is_read_and_is_no_part_of_the_name(text: str, index: int | None) -> None:
    """However it is typed before the name."""
    spoken = spoken_line(text, cast=CAPITALS)
    assert spoken is not None
    assert (spoken.index, spoken.speaker) == (index, "WENNA")


@pytest.mark.parametrize(
    "text",
    ["NO DIALOGUE", "No dialogue.", "SILENT", "(Muette.)", "Sans paroles", "OHNE TEXT",
     "SIN DIÁLOGO", "Senza dialoghi.", "Sem diálogo", "Geen tekst.", "セリフなし", "[No copy]"],
)  # fmt: skip
def test_notes_that_a_panel_is_silent(text: str) -> None:
    """In eight languages, with or without brackets and stop."""
    assert is_silence(text)
    assert not is_silence(text + " on the water")


def test_beats_and_directions_are_whole_phrases() -> None:
    """A word that only begins like one is none."""
    assert all(map(is_beat, ["beat", "A beat.", "Pause", "un temps", "間"]))
    assert not any(map(is_beat, ["beating", "beat him", "", "hold"]))
    assert is_direction("CLOSE ON WENNA")
    assert not is_direction("CLOSER")


@given(st.text(max_size=150))
def test_any_line_can_be_cut_and_judged(text: str) -> None:
    """Nothing raises; words and index come from the line itself."""
    head = split_head(text)
    if head is not None:
        assert head.words in text
        look_of(head.name)
    _, rest = split_index(text)
    assert text.endswith(rest)
    spoken_line(text, cast=CAPITALS)
    is_off_panel([text])


def test_a_japanese_name_alone_on_a_line_speaks_the_quotes_below_it() -> None:
    """The quotes stand for the colon there, too; the line below a description does not speak."""
    panel = parse_script("1ページ\n1コマ目\n船頭\n「閉めろ！」\n").pages[0].panels[0]
    assert [(e.speaker, e.text) for e in panel.elements] == [("船頭", "閉めろ！")]
    assert panel.description == ""


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("WENNA - Shut it!", True),
        ("WENNA — “Shut it!”", True),
        ("WENNA - ¡Cerradla!", True),
        ("WENNA - tired, wet, at the winch.", False),
        ("WENNA - Tired - at the winch.", False),
        ("GATE - Shut.", False),
    ],
)
def test_a_dash_behind_a_known_speaker_is_told(text: str, *, told: bool) -> None:
    """Where names have colons, what may be a speech is description, and a finding names it."""
    script = parse_script(f"PAGE 1\nPanel 1. The lock.\nWENNA: Hold.\n\n{text}\n")
    assert [(f.code, f.line) for f in script.findings] == [("perhaps-spoken", 5)] * told
    assert script.pages[0].panels[0].description == f"The lock. {text}"
