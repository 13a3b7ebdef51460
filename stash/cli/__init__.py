"""The command line of the stash: one module a command, each exposing ``command``."""
