"""SVG: one page, or one balloon, at print size with its lettering as outlines."""
