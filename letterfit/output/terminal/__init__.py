"""The terminal: a report, a balloon, typefaces, a script, a table, measures as plain text."""
