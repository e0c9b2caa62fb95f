"""What an audit says is told as it is: findings fail, and no answer is no all-clear."""

import json

from tests.supply.audit import verdict

FLAW = {"id": "PYSEC-0-0", "fix_versions": ["2.0"], "aliases": [], "description": ""}
SKIPPED = {"name": "rich", "skip_reason": "rich (13) was not found"}


def answer(*dependencies: object) -> str:
    """As pip-audit writes it."""
    return json.dumps({"dependencies": dependencies, "fixes": []})


def test_a_finding_fails_and_is_named() -> None:
    """With its number and what mends it."""
    bad = {"name": "tides", "version": "1.0", "vulns": [FLAW]}
    said, failed = verdict(answer(bad, SKIPPED), "")
    assert failed
    assert said == "tides 1.0: PYSEC-0-0, mended in 2.0"
    said, _ = verdict(answer(bad | {"vulns": [FLAW | {"fix_versions": []}]}), "")
    assert said.endswith("mended in no version yet")


def test_packages_of_which_nothing_is_known_are_told() -> None:
    """What was audited is counted, what was not is named; letterfit itself is no package yet."""
    good = {"name": "click", "version": "8.1", "vulns": []}
    own = {"name": "letterfit", "skip_reason": "not found"}
    assert verdict(answer(good, own), "") == (
        "1 packages audited, nothing is known against them",
        False,
    )
    said, failed = verdict(answer(good, own, SKIPPED), "")
    assert not failed
    assert said.endswith("; 1 not audited: rich")


def test_a_service_that_knows_nothing_is_no_all_clear() -> None:
    """pip-audit ends well where all was left out; here it says what was not done."""
    assert verdict(answer(SKIPPED), "") == ("Not audited: rich (13) was not found", False)
    assert verdict("", "Traceback\nConnectionError: no such host\n")[0] == (
        "Not audited: ConnectionError: no such host"
    )
    assert verdict("", "")[0].startswith("Not audited: ")
