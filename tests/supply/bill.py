"""The bill of materials of the wheel: what is in it, under which licence, and what it asks for.

`python -m tests.supply.bill` writes `letterfit.cdx.json` anew, which the wheel carries in its
`.dist-info/sboms` (PEP 770); `python -m tests.supply.bill WHEEL` holds it against a built wheel and
CycloneDX's own schema. The format is CycloneDX 1.7 (ECMA-424), in which a component that is asked
for and not brought along is external and has a range of versions.
"""

import hashlib
import json
import sys
import tomllib
import zipfile
from collections.abc import Iterator
from email.parser import Parser
from pathlib import Path
from typing import Any
from urllib.parse import quote

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from letterfit.version import VERSION

TOP = Path(__file__).parents[2]
BILL = TOP / "tests" / "supply" / "letterfit.cdx.json"
FONTS = TOP / "fonts_open"
ALPHABETS = "letterfit/lettering/fonts/alphabets.json"
FOR_WORK = frozenset({"bench", "dev", "docs", "mutation", "test"})
"""Extras that only those who work on letterfit ask for."""

TABLES = (
    ("Unicode CLDR, main exemplar characters", "48.2", ALPHABETS),
    ("Unicode CLDR, quotation marks", "48", "letterfit/lettering/style/quotes.py"),
    ("Unicode Character Database, Bidi_Class", "17.0.0", "letterfit/lettering/bidi/classes.py"),
    (
        "Unicode Character Database, Vertical_Orientation",
        "15.0.0",
        "letterfit/lettering/vertical/orientation.py",
    ),
)
"""Published data that the package brings along: what, of which version, in which file."""

Entry = dict[str, Any]


def bill() -> str:
    """The bill of materials, as JSON: the same for the same tree, so no clock and no serial."""
    project = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    own = f"pkg:pypi/letterfit@{VERSION}"
    root: Entry = {
        "type": "library",
        "bom-ref": own,
        "name": "letterfit",
        "version": VERSION,
        "description": project["description"],
        "licenses": [{"expression": project["license"]}],
        "purl": own,
    }
    parts = [*_fonts(), *_tables(), *_asked(project)]
    asked = [part["bom-ref"] for part in parts if part.get("isExternal")]
    whole = {
        "$schema": "http://cyclonedx.org/schema/bom-1.7.schema.json",
        "bomFormat": "CycloneDX",
        "specVersion": "1.7",
        "version": 1,
        "metadata": {"component": root},
        "components": parts,
        "dependencies": [{"ref": own, "dependsOn": asked}],
    }
    return json.dumps(whole, ensure_ascii=False, indent=1) + "\n"


def _fonts() -> Iterator[Entry]:
    """Every bundled font file, with the package it was taken from."""
    for source in json.loads((FONTS / "SOURCES.json").read_text(encoding="utf-8")):
        file = FONTS / source["file"]
        notice = (file.parent / "OFL.txt").read_text(encoding="utf-8")
        scope, name = source["package"].rsplit("@", 1)[0].split("/")
        version = source["package"].rsplit("@", 1)[1]
        inside = quote(source["path_in_package"])
        entry: Entry = {
            "type": "file",
            "bom-ref": f"letterfit/fonts_open/{source['file']}",
            "name": f"letterfit/fonts_open/{source['file']}",
            "hashes": [_hash(file)],
            "licenses": [{"license": {"id": source["licence"]}}],
            "copyright": notice.splitlines()[0],
        }
        taken = f"pkg:npm/{quote(scope, safe='')}/{name}@{version}#{inside}"
        if source["modified"]:
            entry["description"] = source["modified"]
            entry["pedigree"] = {"ancestors": [{"type": "file", "name": inside, "purl": taken}]}
        else:
            entry["purl"] = taken
        yield entry


def _tables() -> Iterator[Entry]:
    """Every published table, with the file that it stands in."""
    notice = (TOP / ALPHABETS).with_name("alphabets-LICENSE.txt").read_text(encoding="utf-8")
    copyright_line = next(line for line in notice.splitlines() if line.startswith("Copyright"))
    for name, version, place in TABLES:
        yield {
            "type": "data",
            "bom-ref": place,
            "name": name,
            "version": version,
            "licenses": [{"license": {"id": "Unicode-3.0"}}],
            "copyright": copyright_line,
            "evidence": {"occurrences": [{"location": place}]},
        }


def _asked(project: Entry) -> Iterator[Entry]:
    """Every package that letterfit asks for: always, or for something that not all need."""
    asked = [(text, "required") for text in project["dependencies"]]
    for extra, texts in project["optional-dependencies"].items():
        asked += [(text, "optional") for text in texts if extra not in FOR_WORK]
    for text, scope in asked:
        requirement = Requirement(text)
        purl = f"pkg:pypi/{canonicalize_name(requirement.name)}"
        yield {
            "type": "library",
            "bom-ref": purl,
            "name": requirement.name,
            "versionRange": f"vers:pypi/{'|'.join(sorted(map(str, requirement.specifier)))}",
            "isExternal": True,
            "scope": scope,
            "purl": purl,
        }


def _hash(file: Path) -> Entry:
    return {"alg": "SHA-256", "content": hashlib.sha256(file.read_bytes()).hexdigest()}


def faults(text: str, wheel: zipfile.ZipFile) -> Iterator[str]:
    """What a bill says that is not so of a wheel, and what it leaves out.

    Args:
        text: The bill.
        wheel: The wheel, open.
    """
    parts: list[Entry] = json.loads(text)["components"]
    files = {part["name"]: part for part in parts if part["type"] == "file"}
    names = wheel.namelist()
    for name in {*files, *(name for name in names if name.endswith((".ttf", ".otf", ".woff2")))}:
        if name not in files or name not in names:
            yield f"{name} is not in {'the bill' if name in names else 'the wheel'}"
        elif files[name]["hashes"][0]["content"] != hashlib.sha256(wheel.read(name)).hexdigest():
            yield f"{name} is another file than the bill says"
    yield from (
        f"{place['location']} is not in the wheel"
        for part in parts
        for place in part.get("evidence", {}).get("occurrences", ())
        if place["location"] not in names
    )
    metadata = next(name for name in names if name.endswith(".dist-info/METADATA"))
    told = Parser().parsestr(wheel.read(metadata).decode())
    wanted = {
        canonicalize_name(one.name)
        for one in map(Requirement, told.get_all("Requires-Dist", []))
        if one.marker is None or not any(f'"{extra}"' in str(one.marker) for extra in FOR_WORK)
    }
    said = {canonicalize_name(part["name"]) for part in parts if part.get("isExternal")}
    yield from (f"{name} is asked for by one of bill and wheel alone" for name in wanted ^ said)


def against_schema(text: str) -> Iterator[str]:
    """What CycloneDX's schema, as its Python library brings it, has against a bill."""
    from cyclonedx.schema import SchemaVersion  # noqa: PLC0415 - only those who build wheels have it
    from cyclonedx.validation.json import JsonStrictValidator  # noqa: PLC0415

    error = JsonStrictValidator(SchemaVersion.V1_7).validate_str(text)
    if error:
        yield str(error)


def main() -> None:
    """Write the bill, or hold that of a wheel against it."""
    if len(sys.argv) == 1:
        BILL.write_text(bill(), encoding="utf-8")
        return
    with zipfile.ZipFile(sys.argv[1]) as wheel:
        (name,) = (name for name in wheel.namelist() if "/sboms/" in name)
        text = wheel.read(name).decode()
        wrong = [*faults(text, wheel), *against_schema(text)]
    if wrong:
        sys.exit("\n".join(wrong))
    sys.stdout.write(f"{name}: {len(json.loads(text)['components'])} components, all as told\n")


if __name__ == "__main__":
    main()
