"""Paper sizes, and from a page's tiers to the rectangles of its panels."""
