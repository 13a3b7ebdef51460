"""What must be bought: lengths at each width sold, and the card to take along."""
