"""Buttons poured on the printed tray: how many, of which sizes, and what is to be asked."""
