"""Style: a text as typed to a text as set, by the trade's habits."""
