"""What is said of spreadsheets: why one cannot be read, and what becomes of each row."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "spreadsheet_empty": "There is nothing in this file: please check that it is the right one.",
    "spreadsheet_too_long": "This table has more than {most} rows: split it into several files.",
    "spreadsheet_too_large": "This file is larger than {most_mb} MB: split it into several.",
    "spreadsheet_cell_too_long": (
        "A cell of this table is longer than {letters} letters: shorten it first."
    ),
    "spreadsheet_damaged": "This spreadsheet is damaged: open it and save it again.",
    "spreadsheet_of_old": (
        "This is a spreadsheet of an old kind (.xls): open it and save it as .xlsx, .ods or .csv."
    ),
    "spreadsheet_letters": (
        "The letters in this file cannot be told: save it as CSV in UTF-8, or as .xlsx or .ods."
    ),
    "spreadsheet_kinds": "A table can be written as {either_known}, not as “{typed}”.",
    "not_a_spreadsheet": "This is no table: send a file that ends in .csv, .xlsx or .ods.",
    "no_such_column": "A column cannot say “{typed}”; it can say {known}.",
    "no_unit_of_column": "The column “{column}” cannot be in “{typed}”; it can be in {known}.",
    "column_twice": (
        "The columns “{other}” and “{column}” are to say the same: leave one of them out."
    ),
    "no_such_heading": "No column is headed “{typed}”; there are {known}.",
    "no_column_named": (
        "No column says what things are called: say which one is the name, or use the template."
    ),
    "column_and_meaning": "“{typed}” is not HEADING=MEANING, as in “Shelf=place”.",
    "unit_of_column_wanted": (
        "“{typed}” has no unit: say the unit of the column “{column}”, or write {example}."
    ),
    "column_not_of_this": "“{column}” is filled in, but this thing has none: leave it empty.",
    "what_is_in_row": "“{typed}” is nothing that is kept here; there are {known}.",
    "construction_in_row": "“{typed}”: write woven, knitted or nonwoven.",
    "count_in_row": "“{typed}” is no number of things: write a whole number.",
    "yes_or_no": "“{column}” is yes or no, not “{typed}”.",
    "number_in_row": "“{column}” is a number from 0 to {most}, not “{typed}”.",
    "day_in_row": "“{typed}” may mean two days or none: write it as 2024-03-09, 2024-03 or 2024.",
    "row_without_name": "The name is missing.",
    "row_without_length": "The length is missing.",
    "row_without_width": "The width is missing.",
    "row_without_amount": "How many or how much there is, is missing.",
    "code_in_two_rows": "The code {code} stands in row {row} already.",
    "code_of_another_kind": "The code {code} is on something of another kind.",
    "rows_disagree_on_cloth": (
        "Row {row} says otherwise of the same cloth, {name}: let both say the same."
    ),
    "washed_stays": "{code} was washed; that cannot be taken back by a table.",
    "kind_stays": "What is in {code} cannot become of another kind.",
    "row_new_cut": "Comes in: {name}, {length_mm} × {width_mm}.",
    "row_new_bin": "Comes in: {name}.",
    "row_same": "Is on record as {code}, just so.",
    "row_changed": "{code}: {steps}.",
    "row_length_becomes": "{column} {before_mm} becomes {after_mm}",
    "row_text_becomes": "{column} “{before}” becomes “{after}”",
    "row_column_changes": "{column} is put right",
    "row_moves": "moves to {place}",
    "event_things_came": ("{count} thing came from a table", "{count} things came from a table"),
    "event_things_moved": ("{count} thing moved", "{count} things moved"),
}
