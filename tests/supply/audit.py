"""What is known to be wrong with the packages that letterfit needs.

`python -m tests.supply.audit FOLDER` asks of what is installed in a folder. pip-audit asks PyPI,
which may not be within reach or may know nothing: then this says so, and is no failure. What is
found fails.
"""

import json
import subprocess
import sys
from typing import Any

SECONDS = 120
"""How long a service may take; a CI that waits for one helps nobody."""

NAMED = 3
"""Packages that are named of those of which nothing is known."""


def asked(folder: str) -> tuple[str, str]:
    """What pip-audit prints for a folder: its answer, and its complaints."""
    command = [sys.executable, "-m", "pip_audit", "--path", folder, "--timeout", "10"]
    options = ["--format", "json", "--progress-spinner", "off"]
    try:
        ended = subprocess.run(  # noqa: S603 - our own interpreter, and the folder that CI made
            [*command, *options], capture_output=True, text=True, timeout=SECONDS, check=False
        )
    except subprocess.TimeoutExpired:
        return "", f"no answer in {SECONDS} seconds"
    return ended.stdout, ended.stderr


def verdict(answer: str, complaints: str) -> tuple[str, bool]:
    """What to say of an answer, and whether it is a failure.

    Args:
        answer: pip-audit's JSON, or nothing.
        complaints: What it wrote besides.

    >>> verdict("", "ConnectionError: no such host")
    ('Not audited: ConnectionError: no such host', False)
    """
    try:
        told: list[dict[str, Any]] = json.loads(answer)["dependencies"]
    except ValueError:
        return (
            f"Not audited: {complaints.strip().splitlines()[-1] if complaints.strip() else '?'}",
            False,
        )
    known = [one for one in told if "vulns" in one]
    found = [
        f"{one['name']} {one['version']}: {flaw['id']}, "
        f"mended in {' or '.join(flaw['fix_versions']) or 'no version yet'}"
        for one in known
        for flaw in one["vulns"]
    ]
    if found:
        return "\n".join(found), True
    unknown = [one for one in told if "vulns" not in one and one["name"] != "letterfit"]
    if not known:
        why = unknown[0]["skip_reason"] if unknown else "there was nothing to ask about"
        return f"Not audited: {why}", False
    said = f"{len(known)} packages audited, nothing is known against them"
    if unknown:
        names = ", ".join(one["name"] for one in unknown[:NAMED])
        said += f"; {len(unknown)} not audited: {names}{', ...' if len(unknown) > NAMED else ''}"
    return said, False


def main() -> None:
    """Ask, tell, and fail where something was found."""
    said, failed = verdict(*asked(sys.argv[1]))
    sys.stdout.write(f"{said}\n")
    sys.exit(failed)


if __name__ == "__main__":
    main()
