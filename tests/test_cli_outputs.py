"""What is to be written is looked at before the work."""

from pathlib import Path

import pytest

import letterfit as lf
from letterfit.cli_status import FITS, UNUSABLE
from tests.command import Run, runner

SCRIPT = "PAGE 1\n\nPanel 1. The gate.\nWENNA: The tide turned.\n"


@pytest.fixture(name="run")
def _run(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Run:
    """Run the command line in a folder with one script: status, output, errors."""
    monkeypatch.chdir(tmp_path)
    Path("gate.txt").write_text(SCRIPT, encoding="utf-8")
    return runner(capsys)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--json", "no/out.json"), "no/out.json: no such file or directory"),
        (("--json", "plain/out.json"), "plain/out.json: not a directory"),
        (("--json", "folder"), "folder: is a directory"),
        (("--pdf", "ring"), "ring: too many levels"),
        (("--svg", "plain"), "--svg names a folder, and plain is none"),
        (("--json", "out", "--html", "./out"), "--json and --html would write the same file"),
        (("--csv", "link", "--html", "out"), "--html and --csv would write the same file"),
        (("--svg", "out", "--html", "out"), "--html and --svg would write the same file"),
        (("--html", "nowhere.txt"), "--html must not write what is read: nowhere.txt"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else None,
)
def test_what_cannot_be_written_is_told_before_the_work(
    run: Run, arguments: tuple[str, ...], said: str
) -> None:
    """In one line with status 2, though the script, which is not there, would be told too."""
    Path("plain").touch()
    Path("folder").mkdir()
    Path("ring").symlink_to("ring")
    Path("link").symlink_to("out")
    status, out, err = run("preflight", "nowhere.txt", *arguments)
    assert (status, out, err.count("\n")) == (UNUSABLE, "", 1)
    assert said in err
    assert not Path("out").exists()


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("fit", "Hold.", "--json", "no/out.json"), "no/out.json: no such file or directory"),
        (("fit", "Hold.", "--svg", "folder"), "folder: is a directory; name a file"),
        (
            ("fit", "Hold.", "--svg", "out", "--json", "out"),
            "--json and --svg would write",
        ),
        (("fit", "--table", "no.csv", "--csv", "no/out.csv"), "no/out.csv: no such file"),
        (("fit", "--table", "no.csv", "--csv", "no.csv"), "--csv must not write what is read"),
        (
            ("compare", "no.txt", "no.svg", "--json", "folder"),
            "folder: is a directory; name a file",
        ),
        (("compare", "no.txt", "no.svg", "--json", "no.svg"), "--json must not write what is read"),
        (("fonts", "no.ttf", "--json", "no.ttf"), "--json must not write what is read: no.ttf"),
        (("demo", "plain"), "plain: file exists"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else None,
)
def test_every_command_tells_it_before_the_work(
    run: Run, monkeypatch: pytest.MonkeyPatch, arguments: tuple[str, ...], said: str
) -> None:
    """Nothing is read or fitted by then."""
    Path("plain").touch()
    Path("folder").mkdir()
    for work in ("fit_balloon", "fit_table", "preflight", "font_facts"):
        monkeypatch.setattr(lf, work, None, raising=False)
    status, out, err = run(*arguments)
    assert (status, out, err.count("\n")) == (UNUSABLE, "", 1)
    assert said in err


def test_what_was_written_is_named_on_standard_error(run: Run) -> None:
    """In one line; what went to standard output, or nowhere, is not among it."""
    files = ("--json", "out.json", "--html", "-", "--csv", "/dev/null", "--svg", "pages")
    assert run("preflight", "gate.txt", *files)[2] == "Wrote out.json, and pages to pages\n"
    assert run("fit", "Hold.", "--svg", "hold.svg")[2] == "Wrote hold.svg\n"
    assert run("parse", "gate.txt", "--json", "-")[2] == ""
    assert run("parse", "nowhere.txt", "--json", "out.json")[2].startswith("letterfit: nowhere.txt")


def test_a_script_is_never_written_over(run: Run) -> None:
    """By whatever name it is called."""
    Path("link.txt").symlink_to("gate.txt")
    for name in ("gate.txt", "./gate.txt", "link.txt"):
        status, _, err = run("parse", "gate.txt", "--json", name)
        assert (status, err.count("\n")) == (UNUSABLE, 1)
    assert Path("gate.txt").read_text(encoding="utf-8") == SCRIPT


def test_a_catalogue_is_not_written_over_its_scripts(run: Run) -> None:
    """Lines are written as they come, so the script would be gone before it is read."""
    status, _, err = run("catalogue", "other.txt", "gate.txt", "--jsonl", "gate.txt")
    assert (status, err.count("\n")) == (UNUSABLE, 1)
    assert "--jsonl must not write what is read" in err
    assert Path("gate.txt").read_text(encoding="utf-8") == SCRIPT


def test_a_device_takes_any_number_of_outputs(run: Run) -> None:
    """Where nothing is kept, nothing is lost."""
    files = ("--json", "/dev/null", "--csv", "/dev/null")
    assert run("preflight", "gate.txt", *files)[0] == FITS


def test_a_plan_may_be_written_over(run: Run) -> None:
    """To write every page's plan out and change it is a way to work."""
    Path("plan.toml").write_text('[all]\ntiers = "1"\n', encoding="utf-8")
    assert run("plan", "gate.txt", "--plan", "plan.toml", "--write-plan", "plan.toml")[0] == FITS
    assert "[page.1]" in Path("plan.toml").read_text(encoding="utf-8")
