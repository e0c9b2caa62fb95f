"""The public names: made when they are asked for, and alike for people and for type checkers."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

import letterfit
from letterfit.cli import MODULES

STUB = Path(letterfit.__file__).with_suffix(".pyi")


def homes(stub: str) -> dict[str, str]:
    """The names that a stub hands on, and the module it takes each from."""
    imports = [node for node in ast.parse(stub).body if isinstance(node, ast.ImportFrom)]
    return {a.asname: str(node.module) for node in imports for a in node.names if a.asname}


def loaded(code: str) -> set[str]:
    """The modules that there are in a process of its own when it has run some code."""
    code += "\nimport sys; print(*sys.modules)"
    done = subprocess.run(  # noqa: S603 - code written below
        [sys.executable, "-c", code], capture_output=True, check=True, text=True
    )
    return set(done.stdout.split("\n")[-2].split())


def test_type_checkers_read_of_the_same_names_in_the_same_places() -> None:
    """The stub and the library list one and the same."""
    made = {name: module for module, names in letterfit.HOMES.items() for name in names}
    assert homes(STUB.read_text(encoding="utf-8")) == made


def test_a_name_that_only_one_of_them_has_would_be_seen() -> None:
    """The check above can fail: a name handed on under itself is listed, a plain import is not."""
    assert homes("from a.b import Gate as Gate\nfrom a import lock\n") == {"Gate": "a.b"}


def test_a_public_name_is_the_thing_itself() -> None:
    """However it is asked for, and again: from its module, as an attribute, by a star."""
    taken: dict[str, object] = {}
    exec("from letterfit import *", taken)  # noqa: S102 - no function may hold a star
    assert set(letterfit.__all__) <= set(taken)
    for module, names in letterfit.HOMES.items():
        for name in names:
            assert getattr(letterfit, name) is getattr(sys.modules[module], name) is taken[name]


def test_what_there_is_not_is_refused_as_ever() -> None:
    """By the module's and the name's name; and `dir` tells of names that nobody asked for yet."""
    with pytest.raises(AttributeError, match="module 'letterfit' has no attribute 'gate'"):
        getattr(letterfit, "gate")  # noqa: B009 - type checkers know that there is none
    assert set(letterfit.__all__) <= set(dir(letterfit))


def test_importing_the_library_imports_no_stage_of_it() -> None:
    """Nor numpy, nor the shaper: those come with the first name that needs them."""
    modules = loaded("import letterfit")
    assert {m for m in modules if m.startswith("letterfit.")} == {"letterfit.version"}
    assert not {"numpy", "uharfbuzz", "click", "rich"} & modules


def test_a_report_draws_nothing_that_nobody_asked_for() -> None:
    """Neither pages nor notebooks, PDF, cuts or a checker are imported for a report as JSON."""
    modules = loaded("import letterfit as lf; lf.to_json(lf.preflight(lf.parse_script('PAGE 1')))")
    drawn = {f"letterfit.output.{name}" for name in ("svg", "html", "pdf", "notebook", "terminal")}
    assert not (drawn | {"letterfit.existing", "letterfit.tiers", "letterfit.cli"}) & modules


def test_each_command_is_where_the_command_line_looks_for_it() -> None:
    """Under its own name; and one command's work does not import the others."""
    modules = loaded(
        "from letterfit.cli import main\ntry: main(['--version'])\nexcept SystemExit: 0"
    )
    assert not set(MODULES.values()) & modules
