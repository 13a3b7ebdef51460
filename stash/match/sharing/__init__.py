"""Several garments over several cuts: which are made from which."""
