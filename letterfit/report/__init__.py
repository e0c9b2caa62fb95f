"""What was found: coverage, overflow, figure room, reading order, words and findings."""
