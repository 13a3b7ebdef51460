"""The stash in a spreadsheet: read from CSV, XLSX and ODS, its columns guessed, and written out.

Files come in through ``stash.foreign``; what comes out of here is text, cell by cell, and the
facts that a row tells. What a row does to the record is ``stash.workroom.spreadsheets``.
"""
