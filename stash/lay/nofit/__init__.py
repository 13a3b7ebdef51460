"""Where two pieces touch: no-fit regions and how deep a place lies in them."""
