"""Vertical: text in columns, as Japanese is lettered."""
