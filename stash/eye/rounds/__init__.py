"""Round things seen from above on a map of what hides the ground: where, and how large."""
