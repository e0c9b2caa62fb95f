"""PDF: the proof of a whole script at print size, its letters as text in embedded fonts."""
