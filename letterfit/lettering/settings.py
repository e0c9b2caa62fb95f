"""Lettering: how words are set on a page."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Lettering:
    """Placeholder until the lettering stage lands (typeface, size, leading, case, air)."""

    size_pt: float = 7.5
    leading: float = 1.08
    air_mm: float = 1.2
