"""What stands on printed labels, and on the sheets by which photographs are measured."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "arrow_card": "Arrow card",
    "calibration_sheet": "Calibration sheet {number}",
    "calibration_sheets": "Calibration sheet",
    "cut_out_arrow_card": "Print at 100 % and cut the card out along its line.",
    "lay_arrow_along_grain": (
        "Lay it on the cloth, the arrow along the selvedge or a drawn thread, well inside the edge."
    ),
    "lay_sheet_beside": (
        "Lay the sheet flat beside the pieces, two fingers apart, on a floor of another colour."
    ),
    "photograph_arrow_card": (
        "Photograph the cloth with a calibration sheet beside it: the grain goes on record with it."
    ),
    "photograph_sheet_from_above": (
        "Photograph from above with floor showing all around; for large pieces lay several sheets."
    ),
    "photograph_tray_from_above": (
        "Photograph straight from above, all of the rim in view. Take no notice of which way they "
        "lie."
    ),
    "pour_on_tray": (
        "Print at 100 % and lay it flat. Pour one kind of button, snap, ring or bead on the check, "
        "in one layer."
    ),
    "print_true_and_measure": (
        "Print at 100 %, never “fit to page”. Lay a true ruler against the one above."
    ),
    "ruler_on_sheet": (
        "{ruler_length} on a true ruler, or the printer scaled: print at 100 %"
    ),
    "label_so_long": "{size} long",
    "label_so_wide": "{size} wide",
    "tray": "Tray",
    "true_size": "true size",
    "wash_at": "wash at {care}",
}
