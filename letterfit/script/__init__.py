"""script."""
