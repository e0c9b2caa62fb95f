"""JSON as letterfit writes it: indented, real characters, no NaN, a line feed at the end."""

import json

JsonObject = dict[str, object]


def dump(value: JsonObject) -> str:
    r"""JSON text of a value whose numbers are finite (RFC 8259, section 6: no NaN, no infinity).

    >>> dump({"text": "HÉ !"})
    '{\n  "text": "HÉ !"\n}\n'
    """
    return json.dumps(value, ensure_ascii=False, allow_nan=False, indent=2) + "\n"
