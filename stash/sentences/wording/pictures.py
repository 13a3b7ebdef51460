"""What is said of photographs that cannot be read or measured by."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "no_label_in_photographs": (
        "No label was found in these photographs. Move closer and try again."
    ),
    "no_such_photograph": "There is no such photograph.",
    "photograph_heic": (
        "This photograph is in HEIC format, which cannot be read here: set the phone's camera to "
        "JPEG (“most compatible”), or send a screenshot of it."
    ),
    "hardly_any_floor": "Hardly any floor can be seen around the calibration sheet; step back.",
    "piece_leaves_picture": (
        "A piece runs out of the picture: step back, or clear away what lies at its edge, so that"
        " floor shows all around each piece."
    ),
    "piece_leaves_photographs": (
        "A piece runs out of the photographs that were put together: take one more that shows the"
        " rest of it, with a calibration sheet in it that a neighbouring photograph shows too."
    ),
    "piece_leaves_its_photograph": (
        "A piece runs out of photograph {number}, which no other joins: photographs of one floor "
        "must each share a calibration sheet, left where it lies, with a neighbour."
    ),
    "sheet_moved": (
        "Calibration sheet {number} lies elsewhere in another photograph: leave the sheets where "
        "they lie until all the photographs are taken."
    ),
    "no_sheet_in_photograph": (
        "Photograph {number} shows no whole calibration sheet: take it again with one in view "
        "that a neighbouring photograph shows too."
    ),
    "too_many_photographs": (
        "At most {most} photographs are put together at a time: trace the pieces in two goes."
    ),
    "piece_touches_sheet": (
        "A piece touches the calibration sheet: move it two fingers' width away from it."
    ),
    "ruler_far_off": (
        "The printed ruler measures {true_ruler_mm} when printed at full size; {ruler_mm} is too "
        "far from that, please measure it again."
    ),
    "too_few_pixels": (
        "This picture of {across_px} × {down_px} pixels is too small to measure by; use the "
        "photograph as the camera took it."
    ),
    "two_sheets_alike": (
        "Two calibration sheets with the same number lie in the picture; use sheets with "
        "different numbers."
    ),
    "no_calibration_sheet": (
        "No calibration sheet was found in this picture. Lay the printed sheet flat beside the "
        "pieces, all of it in view, sharp and evenly lit, and take it from above."
    ),
    "too_little_of_sheet": (
        "Too little of the calibration sheet can be seen: keep all of it in view, flat and sharp,"
        " with nothing lying on it."
    ),
    "nothing_stands_out": (
        "Nothing stands out from the floor in this picture; lay the pieces on a floor or cloth of"
        " clearly another colour, with some of it showing all around."
    ),
    "no_code_on_tag": (
        "No bar code and no QR code is seen on it: hold the phone closer and straight "
        "above the tag."
    ),
    "no_label_in_photograph": (
        "No label was found in this photograph. Move closer, so that the label fills a third of "
        "the picture, hold still, and turn on a light."
    ),
    "label_unread": (
        "A label is there but cannot be read: move closer, hold still, turn on a light."
    ),
    "no_label_in_file": "No label was found in this photograph: come closer, or type the code.",
    "code_not_ours": "The code in this photograph is not one of our labels: it says “{says}”.",
    "not_a_film": "“{typed}” cannot be opened as a video: check its name.",
    "no_camera": (
        "Camera {number} is not there or another program is using it: plug it in, close the other"
        " program, or give photographs instead."
    ),
    "left_out_faint": "Something that hardly stands out was left out.",
    "left_out_sliver": "Something narrow at the edge of the picture was left out.",
    "left_out_unlike": (
        "Something that differs less from the floor than the pieces was left out."
    ),
    "left_out_blurred": (
        "Something with a blurred edge, such as a patch of light, was left out."
    ),
    "sheet_not_flat": (
        "The calibration sheet seems not to lie flat, so sizes are less certain."
    ),
    "no_such_seen_notch": (
        "No notch {typed} was seen on the paper; these were, by piece and number: {known}."
    ),
    "photographs_put_together": (
        "Photographs {numbers} were put together by the sheets they share."
    ),
}
