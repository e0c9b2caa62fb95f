"""Makes the fonts in `fonts/` out of published ones: python tests/data/make_fonts.py FOLDER.

FOLDER has the installed npm packages in `node_modules` and the unpacked wheel of `fontpkg-kalam`.
Each font is cut down with fontTools to the characters listed here and to those of the test texts
that its script needs, with all layout features but those that are off until someone asks for them
(vertical forms are kept), and with every glyph that they can lead to. Of scripts that stack letters
freely, the stacks kept are those of the test texts; others are then set from their parts.
Nothing is renamed: the licence (SIL OFL 1.1) reserves none of these names. The same originals and
the same fontTools give the same bytes.
"""

import hashlib
import io
import json
import shutil
import sys
from dataclasses import dataclass
from pathlib import Path
from unicodedata import normalize

import uharfbuzz as hb
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

DATA = Path(__file__).parent
NPM = "node_modules/@expo-google-fonts"

CAPITALS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
PLAIN = " !\"'()*,-./0123456789:;?"
MARKS = "\u00a0«»‘’“”–—…·¡¿"
KANA = "".join(map(chr, [*range(0x3001, 0x3020), *range(0x3041, 0x3097), *range(0x30A1, 0x30FF)]))
WIDE = "！？：；，．（）％０１２３４５６７８９ＡＢＣー゛゜〜"
JAPANESE = "潮門水番人船長今日明朝夜来行帰見聞言開閉待早遅止一二三四五六七八九十時分間上下"
VERTICAL = (DATA / "columns" / "shiodome_tategaki.txt").read_text(encoding="utf-8")
JOINERS = "\u200c\u200d"

ASKED_FOR = {"aalt", "case", "dlig", "dnom", "frac", "fwid", "hwid", "numr", "ordn", "salt"}
ASKED_FOR |= {"sinf", "ss01", "ss03", "ss19", "subs", "sups", "titl", "zero"}
"""Features that no shaper applies by itself (OpenType, registered features: off by default)."""

STACKING = ("Deva", "Beng", "Telu", "Mymr", "Khmr", "Taml", "Tibt")
"""Scripts with thousands of stacks."""


@dataclass(frozen=True, slots=True)
class Original:
    """A published font and what is kept of it.

    Args:
        folder: Its folder in `fonts/`.
        path: The file in the folder of packages.
        package: The package it comes from, with its version.
        scripts: Scripts or codes of the texts in `texts/udhr.json` whose characters are kept.
        kept: Other characters that are kept, those it has.
    """

    folder: str
    path: str
    package: str
    scripts: tuple[str, ...]
    kept: str = PLAIN + MARKS


def _npm(name: str, file: str, version: str) -> tuple[str, str]:
    weight = file.partition("_")[2]
    return f"{NPM}/{name}/{weight}/{file}.ttf", f"npm @expo-google-fonts/{name} {version}"


def _block(first: int, last: int, *, more: str = PLAIN + MARKS) -> str:
    return more + "".join(map(chr, range(first, last + 1)))


ARABIC = _block(0x0621, 0x0652) + "؟،؛ـ٠١٢٣٤٥٦٧٨٩۰۱۲۳۴۵۶۷۸۹" + JOINERS
ORIGINALS = (
    Original("Marhey", *_npm("marhey", "Marhey_400Regular", "0.4.2"), ("Arab",), ARABIC),
    Original("Marhey", *_npm("marhey", "Marhey_700Bold", "0.4.2"), ("Arab",), ARABIC),
    Original(
        "PlaypenSansHebrew",
        *_npm("playpen-sans-hebrew", "PlaypenSansHebrew_400Regular", "0.4.1"),
        ("Hebr",),
        _block(0x05D0, 0x05EA) + "\u05b7\u05b8\u05bc",
    ),
    Original(
        "PlaypenSans",
        *_npm("playpen-sans", "PlaypenSans_400Regular", "0.4.1"),
        (),
        CAPITALS + PLAIN + "’…—É",
    ),
    Original(
        "Mali", *_npm("mali", "Mali_400Regular", "0.4.1"), ("Thai", "yor"), _block(0x0E00, 0x0E7F)
    ),
    Original(
        "YuseiMagic",
        *_npm("yusei-magic", "YuseiMagic_400Regular", "0.4.2"),
        ("Jpan", "Hant"),
        PLAIN + MARKS + KANA + WIDE + JAPANESE,
    ),
    Original(
        "MPLUSRounded1c",
        *_npm("m-plus-rounded-1c", "MPLUSRounded1c_500Medium", "0.4.4"),
        (),
        CAPITALS + PLAIN + MARKS + KANA + WIDE + JAPANESE + "％‥―～" + VERTICAL.replace("\n", ""),
    ),
    Original(
        "ZCOOLKuaiLe",
        *_npm("zcool-kuaile", "ZCOOLKuaiLe_400Regular", "0.4.2"),
        ("Hans",),
        PLAIN + "，。！？、；：「」『』（）《》—…",
    ),
    Original("Jua", *_npm("jua", "Jua_400Regular", "0.4.1"), ("Hang",)),
    Original(
        "Kalam",
        "pip/fontpkg_kalam/files/Kalam-Regular.ttf",
        "PyPI fontpkg-kalam 2.1",
        ("Deva",),
        JOINERS + PLAIN + MARKS + "।॥",
    ),
    Original(
        "NotoSansBengali",
        *_npm("noto-sans-bengali", "NotoSansBengali_400Regular", "0.4.4"),
        ("Beng",),
        JOINERS + PLAIN + "।",
    ),
    Original(
        "NotoSansGurmukhi",
        *_npm("noto-sans-gurmukhi", "NotoSansGurmukhi_400Regular", "0.4.1"),
        ("Guru",),
    ),
    Original(
        "NotoSansTamil",
        *_npm("noto-sans-tamil", "NotoSansTamil_400Regular", "0.4.3"),
        ("Taml",),
        _block(0x0B80, 0x0BFF) + JOINERS,
    ),
    Original(
        "NotoSansTelugu", *_npm("noto-sans-telugu", "NotoSansTelugu_400Regular", "0.4.2"), ("Telu",)
    ),
    Original(
        "NotoSansLao",
        *_npm("noto-sans-lao", "NotoSansLao_400Regular", "0.4.2"),
        ("Laoo",),
        _block(0x0E80, 0x0EFF),
    ),
    Original(
        "NotoSansKhmer", *_npm("noto-sans-khmer", "NotoSansKhmer_400Regular", "0.4.3"), ("Khmr",)
    ),
    Original(
        "NotoSansMyanmar",
        *_npm("noto-sans-myanmar", "NotoSansMyanmar_400Regular", "0.4.2"),
        ("Mymr",),
    ),
    Original(
        "NotoSerifTibetan",
        *_npm("noto-serif-tibetan", "NotoSerifTibetan_400Regular", "0.4.2"),
        ("Tibt",),
        PLAIN,
    ),
    Original(
        "NotoSansGeorgian",
        *_npm("noto-sans-georgian", "NotoSansGeorgian_400Regular", "0.4.3"),
        ("Geor",),
    ),
    Original(
        "NotoSansArmenian",
        *_npm("noto-sans-armenian", "NotoSansArmenian_400Regular", "0.4.2"),
        ("Armn",),
        _block(0x0530, 0x058F),
    ),
    Original(
        "NotoSansEthiopic",
        *_npm("noto-sans-ethiopic", "NotoSansEthiopic_400Regular", "0.4.2"),
        ("Ethi",),
        PLAIN + "፠፡።፣፤፥፦፧",
    ),
    Original(
        "NotoSansCherokee",
        *_npm("noto-sans-cherokee", "NotoSansCherokee_400Regular", "0.4.2"),
        ("Cher",),
    ),
)


def main(folder: Path) -> None:
    """Write all fonts and their sources anew."""
    document = json.loads((DATA / "texts" / "udhr.json").read_text(encoding="utf-8"))
    texts: dict[str, str] = {}
    for text in document["texts"]:
        for name in (text["script"], text["code"]):
            texts[name] = texts.get(name, "") + text["text"]
    sources = []
    for original in ORIGINALS:
        content = (folder / original.path).read_bytes()
        text = "".join(texts[script] for script in original.scripts)
        text += "".join(normalize(form, text) for form in ("NFC", "NFD"))
        wanted = original.kept + text
        stacks = text if set(original.scripts) & set(STACKING) else None
        small = subset(content, wanted + text.upper() + text.lower(), stacks=stacks)
        file = DATA / "fonts" / original.folder / Path(original.path).name.replace("_", "-")
        file.parent.mkdir(exist_ok=True, parents=True)
        file.write_bytes(small)
        shutil.copyfile(_licence(folder / original.path), file.parent / "OFL.txt")
        sources.append(
            {
                "file": f"{original.folder}/{file.name}",
                "package": original.package,
                "original": Path(original.path).name,
                "original_sha256": hashlib.sha256(content).hexdigest(),
                "sha256": hashlib.sha256(small).hexdigest(),
            }
        )
    text = json.dumps(sources, indent=1) + "\n"
    (DATA / "fonts" / "SOURCES.json").write_text(text, encoding="utf-8")


def subset(content: bytes, characters: str, *, stacks: str | None = None) -> bytes:
    """The font with these characters alone, and what its layout features make of them.

    Args:
        content: The font.
        characters: The characters kept.
        stacks: A text whose glyphs are kept, None keeps all.
    """
    options = Options()
    options.layout_features = ["*"]
    options.layout_closure = stacks is None
    options.hinting = False
    options.glyph_names = False
    options.notdef_outline = True
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14, 16, 17]
    font = TTFont(io.BytesIO(content), recalcTimestamp=False)
    _drop_asked_for(font)
    subsetter = Subsetter(options)
    glyphs = [] if stacks is None else glyphs_of(content, [stacks, *_parts(stacks)])
    subsetter.populate(unicodes=sorted({ord(char) for char in characters}), gids=glyphs)
    subsetter.subset(font)
    out = io.BytesIO()
    font.save(out, reorderTables=True)
    return out.getvalue()


def glyphs_of(content: bytes, texts: list[str]) -> list[int]:
    """The glyphs that these texts are set with."""
    font = hb.Font(hb.Face(content))
    found: set[int] = set()
    for text in texts:
        buffer = hb.Buffer()
        buffer.add_str(text)
        buffer.guess_segment_properties()
        hb.shape(font, buffer)
        found |= {info.codepoint for info in buffer.glyph_infos}
    return sorted(found)


def _parts(text: str) -> list[str]:
    """All short stretches of a text, alone and as if a letter that joins followed.

    The joiner brings out the half forms that a stack is made from on the way.
    """
    found = {text[k : k + size] for size in range(1, 7) for k in range(len(text))}
    return sorted(found | {part + "\u200d" for part in found})


def _drop_asked_for(font: TTFont) -> None:
    """Take away the features that are off until someone asks for them."""
    records = font["GSUB"].table.FeatureList.FeatureRecord if "GSUB" in font else []
    for record in records:
        if record.FeatureTag in ASKED_FOR:
            record.Feature.LookupListIndex = []
            record.Feature.LookupCount = 0


def _licence(font: Path) -> Path:
    """The licence that came with the font."""
    names = ("LICENSE_FONT", "LICENSE", "OFL.txt")
    folders = (font.parent, font.parent.parent)
    return next(p for place in folders for name in names if (p := place / name).exists())


if __name__ == "__main__":
    main(Path(sys.argv[1]))
