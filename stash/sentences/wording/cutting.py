"""What is said at the cutting table: of lengths, corners and what is left."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "corner_too_large": "The missing corner must be smaller than the cut.",
    "no_plan_to_shop_for": "There is no plan to shop for: name a garment or a plan.",
    "plan_without_garments": "The plan “{plan}” has no garments yet.",
    "measurements_wanted": "Measure at least the hip and the waist, or the bust.",
    "body_from_list": "Choose a table from the list.",
    "nothing_with_label": "There is nothing with the label {code}.",
    "not_the_demo": (
        "The folder {folder} holds a stash that is not the demo, so nothing was changed. "
        "Choose another folder for the demo with --data."
    ),
    "no_such_lay": "There is no such lay in this answer.",
    "no_lay_held": "The plan “{plan}” holds no lay on {code}.",
    "same_piece_name": "Two pieces have the same name.",
    "too_many_names": "There are {pieces} pieces, but {names} names were given.",
    "no_lay_to_draw": "There is no lay to draw.",
    "outline_or_width": "Give either --outline, or --width with or without --length.",
    "cloth_wanted": "Give the cloth: --width 114cm, or --outline FILE.json.",
    "nothing_to_undo": "There is nothing to take back.",
    "no_such_place": "There is no place “{typed}”. Places on record: {known}.",
}
