"""Measuring by eye and by scale: photographs and weights in, values with their errors out.

Pure: pictures come as bytes or arrays, nothing is read or written, and nothing is presumed
of the stash.
"""
