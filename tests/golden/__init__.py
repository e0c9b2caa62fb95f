"""The report of the demo script as it was looked at: `python -m tests.golden` writes it anew."""
