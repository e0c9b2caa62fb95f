"""What the command line exits with."""

FITS, MISFIT, UNUSABLE = 0, 1, 2
INTERRUPTED = 130
"""128 + SIGINT, as shells report it (POSIX.1-2017, Shell and Utilities, 2.8.2)."""
