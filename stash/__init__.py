"""The stash: what is owned, what it can become, and the record of how it changed."""
