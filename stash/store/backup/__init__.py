"""Backups, daily copies, and the way back from them: whole or not at all."""
