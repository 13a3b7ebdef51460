"""What is said of what was typed on the command line."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "demo_folder_in_use": (
        "The folder {folder} holds other files. Choose an empty one for the demo with --data."
    ),
    "no_pictures_in_folder": "There are no pictures in that folder.",
    "one_way_of_sheets": "Give one of --sheet, --grid and --roll.",
    "photographs_or_camera": "Give photographs to read, or --camera to watch one.",
    "port_in_use": (
        "The port {port} is already in use, perhaps by Lengthwise itself: look at "
        "http://127.0.0.1:{port}/, or choose another with --port."
    ),
    "say_which_labels": (
        "Say which labels: --for CODE..., --blank N, --place P, --places or --changed."
    ),
    "card_form_wanted": "The card is saved as FILE.html or FILE.pdf.",
    "not_a_measurement": "“{typed}” is not a measurement: write it like hip=100cm.",
    "not_an_option": "“{typed}” is not an option: write it like length=45cm.",
    "not_shrinkage": "Shrinkage is written ALONGxACROSS in percent, for example 5x3.",
    "not_turns": "“{typed}” is not a list of turns: write 0,180.",
    "widths_to_name": "Name 1 to 12 widths, for example 90cm,115cm,150cm.",
}
