"""lettering."""
