"""Tables: many texts, each in its own given outline, fitted in one go; if asked, at one size."""
