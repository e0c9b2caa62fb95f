"""The option --watch, in a world whose time is a list of what happens while nobody looks."""

import io
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from letterfit import cli, cli_parse
from letterfit.cli_status import FITS, INTERRUPTED, MISFIT, UNUSABLE
from letterfit.cli_watch import PATIENCE, Surroundings, Watching, stamps
from tests.command import Run, runner

SCRIPT = "PAGE ONE\n\nPanel 1. The gate.\nWENNA: Hold.\n"
WORDY = SCRIPT.replace("Hold.", "The tide turned an hour ago, and nobody has come. " * 5)
FULL = SCRIPT.replace("Hold.", "The tide turned an hour ago, and nobody has come. " * 60)

Event = Callable[[], object]
Watch = Callable[..., tuple[int, str, str]]


def nothing() -> None:
    """A moment in which nothing happens."""


def save(text: str, name: str = "gate.txt") -> Event:
    """Write a file in place."""
    return lambda: Path(name).write_text(text, encoding="utf-8")


def exchange(text: str, name: str = "gate.txt") -> Event:
    """Write another file and give it the name, as many editors save."""

    def event() -> None:
        Path("other").write_text(text, encoding="utf-8")
        Path("other").replace(name)

    return event


def remove() -> None:
    """Take the script away."""
    Path("gate.txt").unlink()


def interrupt() -> None:
    """Ctrl-C."""
    raise KeyboardInterrupt


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """The command line in a folder with a script and its settings."""
    monkeypatch.chdir(tmp_path)
    save(SCRIPT)()
    save('[page.1]\ntiers = "1"\n', "plan.toml")()
    save("[balloon]\nwords_per_balloon = 22\n", "house.toml")()
    return runner(capsys)


@pytest.fixture
def watch(run: Run, monkeypatch: pytest.MonkeyPatch) -> Watch:
    """Run a command with --watch while events happen, one at each look, and Ctrl-C at the end."""

    def watched(*arguments: str, events: Sequence[Event] = ()) -> tuple[int, str, str]:
        happening = iter([*events, *[nothing] * (PATIENCE + 1), interrupt])
        times = (f"14:00:{second:02}" for second in range(60))

        def sleep(_seconds: float) -> None:
            next(happening)()

        world = Surroundings(look=stamps, clock=lambda: next(times), sleep=sleep)
        monkeypatch.setattr(Watching, "surroundings", world)
        return run(*arguments, "--watch")

    return watched


def checks(err: str) -> list[str]:
    """The line that tells each check's time and verdict."""
    return [line for line in err.splitlines() if line.startswith("14:00:")]


def test_each_save_is_checked_and_told_with_what_changed(watch: Watch) -> None:
    """The report comes anew with its time, files are written again; the status is the last one."""
    status, out, err = watch(
        "preflight", "gate.txt", "--json", "out.json", events=[save(FULL), nothing, save(WORDY)]
    )
    assert status == FITS
    assert out.count("PAGE 1") == 3
    assert checks(err) == [
        "14:00:00  ✓ The one panel fits.",
        "14:00:01  ✗ The one panel does not fit.",
        "14:00:02  ! The one panel fits; 1 thing to look at again.",
    ]
    assert "Since 14:00:00: newly failing: 1.1." in err
    assert "Since 14:00:01: mended, but against advice: 1.1." in err
    assert "Watching gate.txt: save to check again, Ctrl-C ends." in err
    assert '"panel-words"' in Path("out.json").read_text(encoding="utf-8")


@pytest.mark.parametrize(("text", "status"), [(FULL, MISFIT), ("no script", UNUSABLE)])
def test_the_status_is_that_of_the_last_check(watch: Watch, text: str, status: int) -> None:
    """Whatever the first one was."""
    assert watch("preflight", "gate.txt", events=[save(text)])[0] == status


def test_bad_input_is_one_line_and_the_watch_goes_on(watch: Watch) -> None:
    """The next good script is checked, and compared with the last one that was."""
    status, out, err = watch("preflight", "gate.txt", events=[save("eels"), nothing, save(FULL)])
    told = [line for line in err.splitlines() if line.startswith("letterfit: ")]
    assert status == MISFIT
    assert len(told) == 1
    assert told[0].startswith("letterfit: gate.txt: no page and no panel was found")
    assert out.count("PAGE 1") == 2
    assert checks(err)[1] == "14:00:01  Not checked."
    assert "Since 14:00:00: newly failing: 1.1." in err


def test_a_file_half_written_or_gone_for_a_moment_is_not_read(watch: Watch) -> None:
    """It is left to settle; one that comes back as it was is not read again."""
    status, out, err = watch(
        "parse", "gate.txt", events=[save("PA"), save("PAGE ON"), save(WORDY), nothing, nothing]
    )
    assert (status, len(checks(err)), out.count("PAGE 1")) == (FITS, 2, 2)
    status, out, err = watch("parse", "gate.txt", events=[remove, nothing, exchange(SCRIPT)])
    assert (status, len(checks(err)), out.count("PAGE 1")) == (FITS, 2, 2)
    away = [lambda: Path("gate.txt").rename("away"), lambda: Path("away").rename("gate.txt")]
    status, out, err = watch("parse", "gate.txt", events=[*away, nothing])
    assert (status, len(checks(err)), out.count("PAGE 1")) == (FITS, 1, 1)


def test_a_file_that_stays_away_is_told_and_waited_for(watch: Watch) -> None:
    """One line says that it is gone; when it is there again it is read."""
    gone = [remove, *[nothing] * PATIENCE]
    status, out, err = watch("parse", "gate.txt", events=[*gone, exchange(SCRIPT), nothing])
    assert "letterfit: gate.txt: there is no such file; check the name" in err
    assert (status, len(checks(err)), out.count("PAGE 1")) == (FITS, 3, 2)


def test_an_editor_that_saves_by_renaming_is_seen(watch: Watch) -> None:
    """Also where the new file is as long as the old one."""
    _, _, err = watch("parse", "gate.txt", events=[exchange(SCRIPT.replace("Hold", "Wait"))])
    assert len(checks(err)) == 2


def test_plans_house_rules_and_fonts_are_watched_too(watch: Watch) -> None:
    """All files that were named; a bundled family is none."""
    settings = ("--plan", "plan.toml", "--house-rules", "house.toml", "--typeface", "Bangers")
    events = [
        save('[page.1]\ntiers = "1 @2"\n', "plan.toml"),
        nothing,
        save("[balloon]\nwords_per_balloon = 0\n", "house.toml"),
    ]
    status, _, err = watch("preflight", "gate.txt", *settings, events=events)
    assert (status, len(checks(err))) == (UNUSABLE, 3)
    assert "letterfit: house.toml" in err
    assert "Watching gate.txt, plan.toml, house.toml: save" in err
    font = next((Path(cli.__file__).parents[1] / "fonts_open").rglob("*.ttf"))
    Path("nib.ttf").write_bytes(font.read_bytes())
    _, _, err = watch("preflight", "gate.txt", "--typeface", "nib.ttf")
    assert "Watching gate.txt, nib.ttf: save" in err


@pytest.mark.parametrize("command", ["cuts", "tiers", "plan"])
def test_other_commands_on_a_script_watch_as_well(watch: Watch, command: str) -> None:
    """The same option, the same lines."""
    status, _, err = watch(command, "gate.txt", events=[exchange(SCRIPT)])
    assert (status, len(checks(err))) == (FITS, 2)


def test_two_pages_are_compared_again_when_either_is_saved(watch: Watch) -> None:
    """Both are watched, and the verdict of a whole script is not told as that of the pages."""
    save(SCRIPT, "other.txt")()
    events = [save(WORDY, "other.txt"), nothing, save(WORDY)]
    status, out, err = watch("compare", "gate.txt", "other.txt", events=events)
    assert status == FITS
    assert [line.split()[:3] for line in out.splitlines() if " page 1: " in line] == [
        ["A", "✓", "gate.txt,"],
        ["B", "✓", "other.txt,"],
        ["A", "✓", "gate.txt,"],
        ["B", "!", "other.txt,"],
        ["A", "!", "gate.txt,"],
        ["B", "!", "other.txt,"],
    ]
    assert checks(err) == ["14:00:00  Done.", "14:00:01  Done.", "14:00:02  Done."]
    assert "Watching gate.txt, other.txt: save" in err


def test_a_drawn_page_is_watched_as_a_script_is(watch: Watch) -> None:
    """Each time a vector program saves it; one that is broken for a while is waited for."""
    drawn = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="150mm" '
        'viewBox="0 0 100 150"><rect class="panel" x="5" y="5" width="90" height="{}"/></svg>'
    )
    save(drawn.format(60), "page.svg")()
    events = [save(drawn[:90], "page.svg"), nothing, save(drawn.format(100), "page.svg")]
    status, out, err = watch("measure", "page.svg", events=events)
    assert (status, len(checks(err))) == (FITS, 3)
    assert "letterfit: page.svg:1: no well-formed XML" in err
    assert "60.0" in out
    assert "100.0" in out


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("preflight", "-"), "standard input is read only once"),
        (("preflight", "gate.txt", "--json", "-"), "--json writes a file again and again, not -"),
        (("preflight", "gate.txt", "--pdf", "-"), "--pdf writes a file again and again, not -"),
        (("parse", "gate.txt", "--json", "./gate.txt"), "--json must not write what is read"),
        (
            ("tiers", "gate.txt", "--plan", "plan.toml", "--write-plan", "plan.toml"),
            "--write-plan must not write what is read: plan.toml",
        ),
        (("preflight", "gate.txt", "--cuts"), "--cuts goes with"),
        (("preflight", "nowhere.txt"), "nowhere.txt: there is no such file"),
        (("preflight", "gate.txt", "--plan", "nowhere.toml"), "nowhere.toml"),
        (("preflight", "gate.txt", "--paper", "vellum"), "vellum"),
        (("preflight", "gate.txt", "--json", "no/such/folder.json"), "no/such"),
    ],
)
def test_what_no_save_can_mend_ends_it_at_once(
    watch: Watch, monkeypatch: pytest.MonkeyPatch, arguments: tuple[str, ...], said: str
) -> None:
    """One line on standard error, status 2, and nothing is waited for."""
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(SCRIPT.encode())))
    status, out, err = watch(*arguments)
    lines = err.splitlines()
    assert (status, out if "folder" not in err else "") == (UNUSABLE, "")
    assert len(lines) == 1
    assert said in lines[0]


def test_a_bad_script_at_first_is_waited_for(watch: Watch) -> None:
    """Its file is there, so that a save can mend it."""
    save("eels")()
    status, _, err = watch("parse", "gate.txt", events=[save(SCRIPT)])
    assert (status, len(checks(err))) == (FITS, 2)


def test_an_end_before_the_first_check_is_an_interruption(
    watch: Watch, monkeypatch: pytest.MonkeyPatch
) -> None:
    """There is no status to tell."""
    monkeypatch.setattr(cli_parse, "chosen_script", lambda _name: interrupt())
    assert watch("parse", "gate.txt")[0] == INTERRUPTED


def test_without_watch_nothing_is_waited_for(run: Run) -> None:
    """The command runs once and ends."""
    assert run("parse", "gate.txt")[2] == ""
