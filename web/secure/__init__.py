"""A secure connection without a shop: the workroom's own certificate, and a server for it."""
