"""The history as pure values: every remaining length and count is a fold over events."""
