"""The stash from a spreadsheet and into one: every row's fate told before anything is written."""
