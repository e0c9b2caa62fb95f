"""Values of options that commands share; they wait with click's context until they are asked for.

So a command's own signature holds only what is its own. Shared options have names of their own in
every command, and all of their values stand together.
"""

from collections.abc import Mapping
from typing import Any

import click

_KEPT = "letterfit.kept"
"""Where the values stand among a context's notes."""


def keep(context: click.Context, option: click.Parameter, value: object) -> None:
    """Keep an option's value under its name: its callback, with `expose_value=False`."""
    context.meta.setdefault(_KEPT, {})[str(option.name)] = value


def kept() -> Mapping[str, Any]:
    """The values kept for the running command, by their options' names."""
    values: Mapping[str, Any] = click.get_current_context().meta.get(_KEPT, {})
    return values
