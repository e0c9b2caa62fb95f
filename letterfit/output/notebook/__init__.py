"""What a notebook shows of the values; importing this is what makes them show it.

Each file registers with `letterfit.shown` what it draws of its own kind of value. Other outputs
draw and tell; here it is only put together.
"""

from letterfit.output.notebook import (
    advice,
    balloons,
    cuts,
    frame,
    layouts,
    pace,
    pages,
    plans,
    told,
)

__all__ = ["advice", "balloons", "cuts", "frame", "layouts", "pace", "pages", "plans", "told"]
