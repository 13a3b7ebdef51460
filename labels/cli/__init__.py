"""The command line of the labels: one module a command, each exposing ``command``."""
