"""The least change of a page's grid by scipy's optimisers, written apart from `letterfit/tiers`.

Only whether a figure stands in a place of some size is asked of letterfit, since that is what both
optimise over. Differential evolution goes over all that the limits allow, the page's own grid
among its first ones; then over what is near the best; Nelder and Mead's simplex ends it. What is
kept is the least change of all grids ever tried that hold. A second run has every size of a table
tried besides, and an integer program pick the best of them.
"""
