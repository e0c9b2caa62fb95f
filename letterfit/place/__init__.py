"""Placing balloons in panels: from menus of outlines to positions, tails and a verdict."""
