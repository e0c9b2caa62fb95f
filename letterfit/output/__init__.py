"""What comes out: a report, a balloon or a script as JSON, SVG, PDF and terminal text."""
