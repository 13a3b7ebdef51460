"""What is said of labels and the sheets they are printed on."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "address_only_here": (
        "Labels would carry {address}, which only this computer can open, no phone: set the "
        "address that the network knows first."
    ),
    "address_without_network": (
        "Labels would carry {address}, but this computer is on no network now: whether anything "
        "answers there cannot be told."
    ),
    "address_not_shared": (
        "Labels would carry {address}, where the app answers this computer alone: start it with "
        "“lengthwise serve --share”, and phones can open them."
    ),
    "address_of_another_port": (
        "Labels would carry {address}, where nothing answers: the app is at port {port}. Set the "
        "address, or start the app at the other port."
    ),
    "address_silent": (
        "Labels would carry {address}, where nothing answers now: start the app there with "
        "“lengthwise serve --share”, or set the address that is served."
    ),
    "address_too_long": "The address of this instance is too long for a label: shorten it.",
    "calibration_number": "Calibration sheets are numbered 1 to {most}.",
    "code_of_something_else": "That is a QR code of something else, not a label of a stash.",
    "grid_off_page": (
        "That grid is {right_paper_mm} × {foot_paper_mm} and runs off a page of "
        "{page_across_paper_mm} × {page_down_paper_mm}."
    ),
    "grid_out_of_range": (
        "A grid needs 1 to 50 columns, 1 to 100 rows, labels from 12 mm up and no negative "
        "measure."
    ),
    "label_of_another_stash": "This label belongs to another stash ({host}); it says nothing here.",
    "label_taken": "The label {code} is already on a {what}. Please take another label.",
    "label_too_small": (
        "On labels this small the symbol could not be read: take larger labels or the plain "
        "layout."
    ),
    "label_unknown": "Nothing on record has the label {code}: scan or type it once to record it.",
    "labels_at_once": "Between 1 and {most} labels can be made at once.",
    "no_label_changed": "Every printed label still says the truth: nothing to print.",
    "no_label_printed": "No label was printed.",
    "no_place_yet": "No place is on record yet: say where a cut or a bin lies first.",
    "no_such_sheet": (
        "No sheet is called “{typed}”. There are {known}; for any other, give its grid or the "
        "width of the roll."
    ),
    "no_such_start": "This sheet has places 1 to {most}; {typed} is not one of them.",
    "not_a_grid": (
        "“{typed}” is not a grid: write columns x rows, label width x height, left, top, gap "
        "across, gap down in mm, for example 3x7,60x38,12,15,3,0."
    ),
    "nothing_lies_in": "Nothing on record lies in “{place}”: check the place’s name.",
    "nothing_to_print": "There is nothing to print: choose at least one label.",
    "roll_label_length": "A label on a roll must be {least_paper_mm} to {most_paper_mm} long.",
    "roll_width": "A roll must be {least_paper_mm} to {most_paper_mm} wide: “{typed}” is not.",
    "sheets_to_print": "Print 1 to {most} different sheets.",
    "text_too_long": "The text is too long for a label: shorten it.",
    "tick_a_label": "Tick at least one cut or bin.",
    "too_many_labels": "Print at most {most} labels at a time.",
}
