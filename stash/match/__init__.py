"""What the stash can become: suitability, fits, rescues, plans, shopping."""
