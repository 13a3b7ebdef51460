"""Questions put to the whole stash: the record is read, garments are drafted, the match answers."""
