"""The command `letterfit plan`: pages laid, nothing lettered; JSON plans wherever TOML ones go."""

import json
from pathlib import Path

import pytest

import letterfit as lf
from letterfit.cli_status import FITS, UNUSABLE
from tests.command import Run, runner
from tests.output import schemas

SCRIPT = (
    "PAGE 1\n\nPanel 1.\nWENNA: Hold on, then.\n\nPanel 2.\n\nPanel 3.\n\nPAGE 2-3\n\nPanel 1.\n"
)
TIERS = '{"pages": [{"page": 1, "tiers": [{"places": [{"width": 2}, {"stack": "1/1"}]}]}]}'


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """The command line in a folder with a script and a plan in JSON."""
    monkeypatch.chdir(tmp_path)
    Path("gate.txt").write_text(SCRIPT, encoding="utf-8")
    Path("plan.json").write_text(TIERS, encoding="utf-8")
    return runner(capsys)


def test_pages_are_told_in_80_columns(run: Run) -> None:
    """Each page with its paper, whose plan it is, and its tiers."""
    status, out, err = run("plan", "gate.txt", "--plan", "plan.json", "--paper", "a5")
    assert (status, err) == (FITS, "")
    assert "PAGE 1  a5, 148.0 x 210.0 mm · 3 panels by the plan's entry for this page" in out
    assert "TIERS: 2:(1 / 1)" in out
    assert max(map(len, out.splitlines())) <= 80


def test_files_are_written_for_a_layout_tool(run: Run) -> None:
    """JSON by the published schema, and an SVG for each page, with the same ids."""
    status, out, _ = run("plan", "gate.txt", "--plan", "plan.json", "--json", "-", "--svg", "pages")
    document = json.loads(out)
    assert status == FITS
    assert schemas.errors(document, json.loads(lf.page_plans_schema())) == []
    assert sorted(path.name for path in Path("pages").iterdir()) == [
        "page-1.svg",
        "page-2-3.svg",
    ]
    drawn = Path("pages/page-1.svg").read_text(encoding="utf-8")
    for panel in document["pages"][0]["panels"]:
        assert f'id="panel-{panel["id"]}"' in drawn


def test_a_plan_in_json_goes_wherever_one_in_toml_does(run: Run) -> None:
    """The report is the same to the byte; so is what a written plan gives when it is read."""
    reports = []
    for name in ("plan.json", "again.toml", "again.json"):
        assert run("plan", "gate.txt", "--plan", "plan.json", "--write-plan", name)[0] == FITS
        if name == "plan.json":
            assert lf.parse_plans(Path(name).read_text(encoding="utf-8")).paper is not None
        reports.append(run("preflight", "gate.txt", "--plan", name, "--json", "-")[1])
    assert reports[0] == reports[1] == reports[2]


def test_advised_tiers_are_written_as_json(run: Run) -> None:
    """By the ending of the file's name."""
    run("tiers", "gate.txt", "--write-plan", "advice.json")
    document = json.loads(Path("advice.json").read_text(encoding="utf-8"))
    assert schemas.errors(document, json.loads(lf.plans_schema())) == []


def test_a_script_on_standard_output_once(run: Run) -> None:
    """JSON and plan cannot both go there."""
    status, _, err = run("plan", "gate.txt", "--json", "-", "--write-plan", "-")
    assert (status, err.count("\n")) == (UNUSABLE, 1)
    out = run("plan", "gate.txt", "--write-plan", "-")[1]
    assert lf.parse_plans(out).pages[0][0] == 1


def test_a_slip_in_a_json_plan_is_one_line(run: Run) -> None:
    """Status 2: file, path, what and what to do, for every command that takes a plan."""
    Path("bad.json").write_text('{"pages": [{"page": 1, "teirs": "3"}]}', encoding="utf-8")
    for command in ("plan", "preflight", "cuts", "tiers"):
        status, out, err = run(command, "gate.txt", "--plan", "bad.json")
        assert (status, out, err.count("\n")) == (UNUSABLE, "", 1)
        assert "bad.json: $.pages[0].teirs: unknown key" in err


def test_two_pages_of_one_number_have_no_plan_for_both(run: Run) -> None:
    """What is written lays the pages as they were, or leaves them to the default."""
    Path("twice.txt").write_text(
        "PAGE 1\n\nPanel 1.\n\nPAGE 1\n\nPanel 1.\n\nPanel 2.\n", encoding="utf-8"
    )
    assert run("plan", "twice.txt", "--write-plan", "twice.toml")[0] == FITS
    assert run("plan", "twice.txt", "--plan", "twice.toml")[0] == FITS
