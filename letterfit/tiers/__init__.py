"""Tier advice: the least change of a page's grid that gives every panel its figure."""
