"""Everything a person does to the stash or asks of it: one function each, one file a noun.

The only room that composes: it reads the record, calls the pure rooms, and writes the
record. A page or a command parses what was typed, calls one function here, and shows
what comes back.
"""
