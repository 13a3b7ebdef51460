"""Labels: printed for every cut and bin, and read back from a camera or a photograph."""
