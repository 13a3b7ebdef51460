"""What makes a garment come out of a cut that is too small after all."""
