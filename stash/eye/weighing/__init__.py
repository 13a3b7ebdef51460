"""By the scale and by the roll: lengths and counts with errors, or what would have to be known."""
