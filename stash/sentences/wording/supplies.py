"""What is said of notions: what is wanted, what the bins give for it, what must be bought."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    # Amounts, within a sentence.
    "so_many": "{number}",
    "so_much": "{length_mm}",
    "so_much_thread": "{thread_mm}",
    # What the bins give.
    "buttons": "{number} from {name}, {diameter_mm}.",
    "buttons_in_longer_holes": (
        "{number} from {name}, {diameter_mm}; thick or domed, so their buttonholes are "
        "{buttonhole_mm}."
    ),
    "buttons_near": (
        "{number} from {name}, {diameter_mm} instead of {asked_diameter_mm}, in buttonholes of "
        "{buttonhole_mm}."
    ),
    "buttons_respaced": (
        "{number} from {name} instead of {wanted_number}, respaced to {positions_mm} below the "
        "neck; buttonholes {buttonhole_mm}."
    ),
    "buttons_respaced_at_bust": (
        "{number} from {name} instead of {wanted_number}, respaced to {positions_mm} below the "
        "neck, one at the bust; buttonholes {buttonhole_mm}."
    ),
    "buttons_mixed": "{number} from {name} and {other_number} from {other}.",
    "buttons_mixed_down_the_front": (
        "{number} from {name} and {other_number} from {other}, mixed evenly down the front."
    ),
    "take_of": "{much} from {name}.",
    "take_of_size": "{much} from {name}, {size_mm}.",
    "take_of_size_instead": "{much} from {name}, {size_mm} instead of {asked_mm}.",
    "take_and_deepen_casing": (
        "{much} from {name}, {size_mm}: cut the casing edge {edge_mm} longer, so that the casing "
        "is {casing_mm} deep."
    ),
    "take_and_narrow_casing": (
        "{much} from {name}, {size_mm}: cut the casing edge {edge_mm} shorter, so that the casing "
        "is {casing_mm} deep."
    ),
    "zip_of": "{name}, {size_mm}.",
    "thread_of": "{thread_mm} of {name}; {left_thread_mm} of it are there.",
    "thread_of_two": (
        "All {thread_mm} of {name} where it shows, and {rest_thread_mm} of {other} inside."
    ),
    "length_of": "{length_mm} of {name}.",
    "sewn_in_not_fused": "It is sewn in, not fused.",
    "fused_not_sewn_in": "It is fused, not sewn in: test a scrap with the iron first.",
    "binding_from_cloth": (
        "Cut it from the cloth: {count} bias strip {strip_mm} wide; that takes {cloth_mm} of "
        "cloth beyond the lay.",
        "Cut it from the cloth: {count} bias strips {strip_mm} wide, {joins} joins; that takes "
        "{cloth_mm} of cloth beyond the lay.",
    ),
    "of_near_colour": "A near colour.",
    "of_another_colour": "Another colour than the cloth.",
    # What comes nearest when nothing serves.
    "no_buttons": "There are no buttons in the stash.",
    "no_bin_holds": "No bin holds {number}.",
    "nearest_buttons_too_wide": (
        "Nearest: {number} of {diameter_mm}, but they need {needed_small_mm} from centre line to "
        "edge and the front has {overlap_small_mm}."
    ),
    "nearest_buttons": "Nearest: {number} of {diameter_mm}; wanted: {wanted_number}.",
    "none_of_this_kind": "There is no {thing} in the stash.",
    "nearest_is": "Nearest: {name}.",
    "nearest_is_wide": "Nearest: {name}, {size_mm} wide, {left} left.",
    "nearest_is_left": "Nearest: {name}, {left} left.",
    "machines_unknown": (
        "It is presumed that you overlock raw edges: name your machines in the settings, and "
        "it is reckoned for them."
    ),
    # What to buy.
    "to_buy": "{things}{sized}{matched}, for {why} of the {garment}",
    "count_of_button": ("{count} button", "{count} buttons"),
    "count_of_snap": ("{count} press stud", "{count} press studs"),
    "count_of_hook": ("{count} hook", "{count} hooks"),
    "count_of_zip": ("{count} zip", "{count} zips"),
    "spools_of_thread": (
        "{count} spool of {each_thread_mm} of {use} thread ({thread_mm} are needed)",
        "{count} spools of {each_thread_mm} of {use} thread ({thread_mm} are needed)",
    ),
    "cones_of_thread": (
        "{count} cone of {each_thread_mm} of {use} thread ({thread_mm} are needed in all)",
        "{count} cones of {each_thread_mm} of {use} thread, one for each thread that runs at "
        "once ({thread_mm} are needed in all)",
    ),
    "thread_on_spools": (
        "{thread_mm} of {use} thread from {name}, one for each thread that runs at once."
    ),
    "thread_wound_off": (
        "{thread_mm} of {use} thread: wind {name} off onto {count} spools, one for each thread "
        "that runs at once."
    ),
    "much_of": "{much} of {thing}",
    "of_diameter": ", {diameter_mm}",
    "of_size": ", {size_mm}",
    "so_long": ", {size_mm} long",
    "so_wide": ", {size_mm} wide",
    "to_match": ", to match {cloth}",
}
