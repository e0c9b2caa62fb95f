"""Reading the plans of a script, in TOML as people type them or in JSON as programs write them."""

from letterfit.paper.json_plans import parse_json_plans
from letterfit.paper.model import Plans
from letterfit.paper.toml_plans import parse_toml_plans


def parse_plans(text: str, *, source: str = "") -> Plans:
    r"""The plans that a text states: JSON where it begins with a brace, as no TOML does, else TOML.

    Args:
        text: The file's text.
        source: Its name, for messages.

    Returns:
        The plans; empty text states none.

    Raises:
        PageError: When it cannot be read, holds a key that means nothing, or a number out of its
            range. The message names the key, and the line or the path.

    >>> parse_plans('[all]\ntiers = "2/2"').every_page.panel_count
    4
    >>> parse_plans('{"every_page": {"tiers": "2/2"}}').every_page.panel_count
    4
    """
    is_json = text.removeprefix("\ufeff").lstrip(" \t\r\n").startswith("{")
    return (parse_json_plans if is_json else parse_toml_plans)(text, source=source)
