"""Typefaces as JSON: what `letterfit fonts --json` writes."""

from collections.abc import Sequence

from letterfit.findings import Finding
from letterfit.lettering.fonts.contents import FileFace
from letterfit.lettering.fonts.facts import FontFacts
from letterfit.output.json_text import JsonObject, dump

SCHEMA = 1
"""Goes up when a key changes its meaning or goes away; new keys may come."""

DIGITS = 4
"""Of a share of an em: the finest fonts have 4096 units."""


def fonts_to_json(facts: Sequence[FontFacts]) -> str:
    """Typefaces as JSON text.

    Args:
        facts: What is known of each.

    Returns:
        UTF-8 text that ends in a line feed; heights and widths are shares of an em.

    >>> import json
    >>> import letterfit as lf
    >>> facts = lf.font_facts(lf.open_typeface("bangers"))
    >>> json.loads(fonts_to_json([facts]))["typefaces"][0]["family"]
    'Bangers'
    """
    return dump({"schema": SCHEMA, "typefaces": [_typeface(one) for one in facts]})


def _typeface(facts: FontFacts) -> JsonObject:
    return {
        "family": facts.family,
        "styles": list(facts.styles),
        "contents": [_face(face) for face in facts.contents],
        "cap_height_em": round(facts.cap_height_em, DIGITS),
        "x_height_em": round(facts.x_height_em, DIGITS),
        "capital_width_em": round(facts.capital_width_em, DIGITS),
        "characters": facts.characters,
        "languages": list(facts.languages),
        "nearly": {near.tag: near.missing for near in facts.nearly},
        "missing_punctuation": facts.missing_punctuation,
        "fallback": list(facts.fallback),
        "licence": {
            "text": facts.licence.text,
            "url": facts.licence.url,
            "copyright": facts.licence.copyright,
        },
        "embedding": {
            "permission": facts.embedding.permission,
            "subsetting": facts.embedding.subsetting,
            "outlines": facts.embedding.outlines,
            "contradictory": facts.embedding.contradictory,
            "words": facts.embedding.words,
        },
        "findings": [_finding(finding) for finding in facts.findings],
    }


def _face(face: FileFace) -> JsonObject:
    return {
        "index": face.index,
        "family": face.family,
        "style_name": face.style_name,
        "style": face.style,
        "axes": [
            {
                "tag": axis.tag,
                "name": axis.name,
                "low": axis.low,
                "default": axis.default,
                "high": axis.high,
            }
            for axis in face.axes
        ],
        "instances": [
            {"name": instance.name, "axes": dict(instance.axes)} for instance in face.instances
        ],
    }


def _finding(finding: Finding) -> JsonObject:
    return {
        "code": finding.code,
        "severity": finding.severity,
        "message": finding.message,
        "advice": finding.advice,
    }
