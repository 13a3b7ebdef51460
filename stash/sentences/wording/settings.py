"""How settings are called, as on their page, and what is said of one that cannot be."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "setting_addresses": "Address on the labels",
    "setting_language": "Language",
    "setting_units": "Units",
    "setting_edge_mm": "Kept free along the edges of a cut",
    "setting_clearance_mm": "Kept free between pieces",
    "setting_off_grain_deg": "How far pieces may be tilted off the grain, in degrees",
    "setting_remnant_mm": "A leftover is kept where a circle so wide fits on it",
    "setting_machines": "Machines",
    "setting_widths_mm": "Widths the shop sells",
    "setting_increment_mm": "Steps by which the shop cuts",
    "setting_selvedge_mm": "Selvedge (selvage) on each side that cannot be used",
    "setting_printer_shift_mm": "The printer’s shift",
    "setting_workroom": "Name of the workroom",
    "setting_instance": "What tells this stash from every other",
    "setting_second_place": "Second place for the copies",
    "setting_other": "a setting of another version",
    "not_a_language": "There are no texts in “{typed}”; there are: {known}.",
    "no_such_setting": "There is no setting “{typed}”; there are: {known}.",
    "not_units": "Units are metric or inches, not “{typed}”.",
    "not_an_address": "“{typed}” is not an address: write it like http://stash.local:5000.",
    "margin_too_wide": "A margin of more than {most_mm} would leave nothing to cut.",
    "step_wanted": "Say by what step the shop cuts, for example 10 cm.",
    "widths_wanted": "Name 1 to {most} widths, for example 90cm,115cm,150cm.",
    "shift_wanted": (
        "Write the printer's shift as mm right, mm down, at most {most} each: 0.5,-1."
    ),
    "number_between": "“{typed}” is not a number between {least} and {most}.",
    "remnant_too_large": "What takes a circle of {most_mm} is no rag: say a smaller size.",
    "pair_wanted": "“{typed}” is not a setting: write it like edge_mm=5mm.",
}
