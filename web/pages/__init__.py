"""The pages, one module a noun; each exposes its blueprint as ``pages``."""
