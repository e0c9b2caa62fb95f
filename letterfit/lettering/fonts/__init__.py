"""Fonts: files to faces and fallback chains, and what is told of them."""
