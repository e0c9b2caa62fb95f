"""A script as neutral JSON: what `letterfit parse --json` writes."""

import json

from letterfit.script.model import Dialogue, Script, ScriptPage, ScriptPanel


def script_to_json(script: Script) -> str:
    """The script as JSON text: pages, panels and elements, without lines and findings.

    Args:
        script: The script.

    Returns:
        UTF-8 text that ends in a line feed. "title" stands only where there is one, "index"
        only where a balloon was numbered.

    >>> from letterfit import parse_script
    >>> print(script_to_json(parse_script("PAGE 1 (splash)")).splitlines()[1])
     "language": "en",
    """
    tree: dict[str, object] = {"language": script.language}
    if script.title is not None:
        tree["title"] = script.title
    tree["pages"] = [_page(page) for page in script.pages]
    return json.dumps(tree, ensure_ascii=False, indent=1) + "\n"


def _page(page: ScriptPage) -> dict[str, object]:
    return {
        "numbers": list(page.numbers),
        "spread": page.spread,
        "stated_panel_count": page.stated_panel_count,
        "panels": [_panel(panel) for panel in page.panels],
        "note": page.note,
    }


def _panel(panel: ScriptPanel) -> dict[str, object]:
    return {
        "number": panel.number,
        "description": panel.description,
        "elements": [_element(element) for element in panel.elements],
    }


def _element(element: Dialogue) -> dict[str, object]:
    tree: dict[str, object] = {
        "kind": element.kind,
        "speaker": element.speaker,
        "modifiers": list(element.modifiers),
        "text": element.text,
    }
    if element.index is not None:
        tree["index"] = element.index
    return tree
