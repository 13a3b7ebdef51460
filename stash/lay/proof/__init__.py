"""What no lay can do: bounds that prove a cut too small."""
