"""What a person does and asks: the one room that pages and commands call."""
