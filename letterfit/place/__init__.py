"""place."""
