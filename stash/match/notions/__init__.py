"""The notions a garment wants, the ways the bins supply them, and which bin serves which need."""
