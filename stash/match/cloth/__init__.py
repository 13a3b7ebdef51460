"""Whether a cloth will do, beside what, in which colour, and what it loses in the wash."""
