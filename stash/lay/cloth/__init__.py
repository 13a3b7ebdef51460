"""What can be laid where: the cloth as it is spread, and the ways each piece may lie on it."""
