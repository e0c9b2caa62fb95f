"""Contrast of two colours: WCAG 2.2, definitions of relative luminance and contrast ratio.

https://www.w3.org/TR/WCAG22/#dfn-relative-luminance, #dfn-contrast-ratio; 4.5:1 is asked for text
(success criterion 1.4.3), 3:1 for what shows focus (1.4.11).
"""

TEXT, GRAPHICS = 4.5, 3.0


def luminance(colour: str) -> float:
    """Relative luminance of a #rrggbb colour, 0 to 1."""
    values = [int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    red, green, blue = (v / 12.92 if v <= 0.04045 else ((v + 0.055) / 1.055) ** 2.4 for v in values)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """The contrast ratio, 1 to 21."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)
