"""The command line that opens the pages: one module a command, each exposing ``command``."""
