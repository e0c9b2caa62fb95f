"""The command line's lettering options: each reaches the lettering, and bad values are told."""

import json
import re
from pathlib import Path

import pytest

from letterfit import cli
from letterfit.cli_status import FITS, MISFIT, UNUSABLE
from tests.command import Run, runner

SCRIPT = """\
PAGE ONE

Panel 1. Wenna on the gate.
CAPTION: Slack water.
WENNA: The tide -- it turned... "an hour" ago, Mr. McCoy.
WENNA (WHISPER): I *know*.
SFX: KLANG
"""


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """Run the command line in a folder that holds one script: status, output, errors."""
    monkeypatch.chdir(tmp_path)
    Path("gate.txt").write_text(SCRIPT, encoding="utf-8")
    return runner(capsys)


def set_text(run: Run, text: str, *options: str) -> str:
    """The text that `fit` sets with these options, on one line."""
    status, out, err = run("fit", text, *options, "--json", "-")
    assert (status, err) == (FITS, "")
    return " ".join(line["text"] for line in json.loads(out)["lines"])


@pytest.mark.parametrize(
    ("options", "expected"),
    [
        ((), 'THE TIDE -- IT TURNED... "AN HOUR" AGO, McCOY. I\'M SO.'),
        (("--dashes", "em-dash"), 'THE TIDE — IT TURNED... "AN HOUR" AGO, McCOY. I\'M SO.'),
        (("--ellipses", "ellipsis-character"), 'THE TIDE -- IT TURNED… "AN HOUR" AGO, McCOY.'),
        (("--quotes", "curly"), "THE TIDE -- IT TURNED... “AN HOUR” AGO, McCOY. I’M SO."),
        (
            ("--quotes", "curly", "--language", "de"),
            "THE TIDE -- IT TURNED... „AN HOUR“ AGO, McCOY. I’M SO.",
        ),
        (("--keep-case", ""), 'THE TIDE -- IT TURNED... "AN HOUR" AGO, MCCOY. I\'M SO.'),
        (
            ("--keep-case", "tiDE", "--keep-case", "Mc*"),
            'THE tiDE -- IT TURNED... "AN HOUR" AGO, McCOY. I\'M SO.',
        ),
        (("--case", "as-typed"), 'The tide -- it turned... "an hour" ago, McCoy. I\'m so.'),
    ],
)
def test_habits_show_in_the_text_as_set(run: Run, options: tuple[str, ...], expected: str) -> None:
    """Each option changes what it names and nothing else."""
    typed = 'The tide -- it turned... "an hour" ago, McCoy. I\'m *so*.'
    assert set_text(run, typed, *options).startswith(expected)


def test_the_language_decides_capitals_and_hyphens(run: Run) -> None:
    """Turkish i keeps its dot; French words are cut where that is asked for."""
    assert set_text(run, "ikinci", "--language", "tr") == "İKİNCİ"
    narrow = ("--language", "fr", "--width", "24", "--height", "40")
    long = "La marée descend incontestablement."
    assert run("fit", long, *narrow)[0] == MISFIT
    cut = set_text(run, long, *narrow, "--hyphenate")
    assert cut.replace("- ", "").replace("\u00ad", "") == "LA MARÉE DESCEND INCONTESTABLEMENT."
    assert "- " in cut


@pytest.mark.parametrize(
    ("option", "value"),
    [
        ("--tracking", "0.1"),
        ("--emphasis", "plain"),
        ("--crossbar", "none"),
        ("--writing", "vertical"),
        ("--leading", "1.3"),
        ("--size", "9"),
        ("--air", "2"),
    ],
)
def test_measures_change_the_balloon(run: Run, option: str, value: str) -> None:
    """Tracking, emphasis, the crossbar I, columns, leading, size and air all take room."""
    text = "I *said* I know"
    plain, other = run("fit", text, "--json", "-"), run("fit", text, option, value, "--json", "-")
    assert plain[0] == other[0] == FITS
    assert json.loads(plain[1]) != json.loads(other[1])


def test_initials_get_crossbars_where_asked_for(run: Run) -> None:
    """The barred I is wider than the plain one."""
    narrow = json.loads(run("fit", "A.I.", "--json", "-")[1])
    wide = json.loads(run("fit", "A.I.", "--crossbar-in", "pronoun-and-initials", "--json", "-")[1])
    assert wide["lines"][0]["width"] > narrow["lines"][0]["width"]


def balloons(run: Run, *options: str) -> list[dict[str, object]]:
    """The balloons of the script's panel."""
    status, out, err = run("preflight", "gate.txt", *options, "--json", "-")
    assert (status, err) == (FITS, "")
    found: list[dict[str, object]] = json.loads(out)["pages"][0]["panels"][0]["balloons"]
    return found


@pytest.mark.parametrize(("aside", "sizes"), [("0.5", [7, 7.5, 7]), ("0", [7.5] * 3)])
def test_captions_and_whispers_are_smaller(run: Run, aside: str, sizes: list[float]) -> None:
    """By half a point, or by as much as asked for."""
    assert [balloon["size_pt"] for balloon in balloons(run, "--aside", aside)] == sizes


def test_a_whole_script_is_set_by_the_habits(run: Run) -> None:
    """Preflight takes them too, and a language in place of the script's own."""
    said = balloons(run, "--dashes", "em-dash", "--language", "en-GB")[1]
    lines = said["lines"]
    assert isinstance(lines, list)
    assert "—" in " ".join(line["text"] for line in lines)


def effect(run: Run, *options: str) -> dict[str, float]:
    """The measure of the script's one sound effect."""
    _, out, _ = run("preflight", "gate.txt", *options, "--json", "-")
    (found,) = json.loads(out)["pages"][0]["panels"][0]["effects"]
    measure: dict[str, float] = found
    return measure


def test_sound_effects_have_a_typeface_and_a_size(run: Run) -> None:
    """Twice the size is twice the ink, and another face is another measure."""
    plain, large = effect(run), effect(run, "--effects-size", "28")
    other = effect(run, "--effects-typeface", "Grandstander")
    assert large["width_mm"] == pytest.approx(2 * plain["width_mm"], abs=0.02)
    assert other["width_mm"] != plain["width_mm"]


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--dashes", "long"), "--dashes"),
        (("--crossbar", "SS01"), "SS01"),
        (("--crossbar", "ss19"), "ss19"),
        (("--crossbar", "upper-slot"), "small letters"),
        (("--tracking", "nan"), "tracking"),
        (("--tracking", "-0.5"), "over -0.1"),
        (("--keep-case", "MCCOY"), "MCCOY"),
        (("--without", "gravity"), "gravity"),
        (("--language", "no such"), "no such"),
        (("--writing", "up"), "--writing"),
    ],
)
def test_bad_values_get_one_line(run: Run, options: tuple[str, ...], said: str) -> None:
    """With status 2, for one balloon as for a script."""
    for command in (("fit", "Hold."), ("preflight", "gate.txt")):
        status, out, err = run(*command, *options)
        assert (status, out) == (UNUSABLE, "")
        assert err.count("\n") == 1
        assert said in err


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--aside", "-1"), "-1"),
        (("--aside", "9"), "under 7.5"),
        (("--aside", "nan"), "nan"),
        (("--effects-size", "0"), "size"),
        (("--effects-typeface", "No Such Face"), "No Such Face"),
    ],
)
def test_bad_values_for_a_script_get_one_line(
    run: Run, options: tuple[str, ...], said: str
) -> None:
    """Captions stay at a size that can be set, and effects in a face that there is."""
    status, out, err = run("preflight", "gate.txt", *options)
    assert (status, out) == (UNUSABLE, "")
    assert err.count("\n") == 1
    assert said in err


def test_the_readme_names_options_that_there_are(run: Run) -> None:
    """Every option in README's table of habits is one of preflight's, with the default shown."""
    text = (Path(cli.__file__).parents[1] / "README.md").read_text(encoding="utf-8")
    rows = [line.split("|") for line in text.splitlines() if line.startswith("| `--")]
    helped = " ".join(run("preflight", "--help")[1].split())
    assert len(rows) > 10
    for _, names, default, *_ in rows:
        for name in re.findall("--[a-z-]+", names):
            assert f" {name} " in helped
        for value in re.findall("`([^`]+)`", default):
            assert value in helped
