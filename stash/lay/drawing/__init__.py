"""A lay to look at, and to chalk from."""
