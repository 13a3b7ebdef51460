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
    "too_many_names": "Give each piece one name: names {names}, pieces {pieces}.",
    "no_lay_to_draw": "There is no lay to draw.",
    "outline_or_width": "Give either --outline, or --width with or without --length.",
    "cloth_wanted": "Give the cloth: --width 114cm, or --outline FILE.json.",
    "not_on_the_cloth": "It is {there_length_mm} long: say where between its two ends it was cut.",
    "turn_out_of_range": "Turn the arrow by no more than half a turn: from -180° to 180°.",
    "held_with_its_grain": (
        "“{plan}” holds some of it, laid by the grain on record: release it first, then turn it."
    ),
    "bite_takes_nothing": (
        "There is no cloth in that place; choose the other end or the other edge."
    ),
    "bite_takes_all": "That would leave nothing of the cloth.",
    "bite_has_no_size": "Say how large the missing part is, for example 40cm x 30cm.",
    "not_pieces": "“{typed}” does not say how many of which size: write 2 x 40cm x 40cm.",
    "not_a_bite": (
        "“{typed}” does not say what is missing: write for example "
        "end far, edge left, 40cm x 30cm."
    ),
    "which_end": "Its ends are not alike: say from which end it was cut, near or far.",
    "pieces_do_not_fit": (
        "There is not so much whole cloth at that end and edge: choose the other edge, or cut "
        "them one by one."
    ),
    "join_two_cuts": "Name two different cuts to join.",
    "joined_is_more": "Two cuts joined cannot be more cloth than both of them.",
    "only_one_of_these": "Say only one of these: {options}.",
    "length_to_cut_wanted": "Say how much: a length, --strip WIDTH, or --pieces.",
    "no_such_piece": "No piece “{typed}” was laid; there are: {known}.",
    "nothing_of_that_was_laid": "None of these pieces of “{plan}” lies on that cut.",
    "no_room_to_cut_again": (
        "There is no room left on {cut} to cut {pieces} again: take it from other cloth."
    ),
    "pieces_come_apart": (
        "What is still to be cut lies on parts that have come apart: cut one part whole first."
    ),
    "nothing_to_undo": "There is nothing to take back.",
    "no_such_place": "There is no place “{typed}”. Places on record: {known}.",
}
