"""The record kept on disk: SQLite through sqlite-utils."""
