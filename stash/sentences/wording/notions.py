"""What is said of buttons, zips, elastic, thread and interfacing."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "no_size_of_that_kind": "Thread has no size: leave it out, and write its ticket in the notes.",
    "no_fusible_of_that_kind": "Only interfacing is ironed on: leave that out here.",
    "no_mass_of_that_kind": "A weight for its area is said of interfacing only: leave it out here.",
    "no_shortenable_of_that_kind": "Only a zip can be shortened: leave that out here.",
    "no_thickness_of_that_kind": "A thickness is said of buttons only: leave it out here.",
    "no_shank_of_that_kind": "Only a button is domed or on a shank: leave that out here.",
    "button_too_thick": "A button is not thicker than {most_small_mm}: say it with its unit, 4 mm.",
    "button_wants_overlap": (
        "A {button_small_mm} button needs {needed_small_mm} from centre line to edge; this front "
        "has {overlap_small_mm}."
    ),
    "gap_too_wide": (
        "With {number}, {gap_small_mm} stays unheld; a front stays closed up to {most_small_mm}."
    ),
    "buttons_overlap": "{number} would lie on top of each other: use fewer.",
    "front_stays_closed": "The widest gap is {gap_small_mm}, so the front stays closed.",
    "zip_length_unknown": "The length of this zip is not on record.",
    "zip_too_short": "It is {short_mm} too short.",
    "zip_right": "The length is right.",
    "zip_cannot_be_shortened": "It is {over_mm} too long and cannot be shortened there.",
    "zip_wastes": "It could be shortened, but {over_mm} would be wasted.",
    "zip_cut_at_bottom": (
        "Shorten it by {over_mm} at the bottom with a sewn stop, and leave {below_mm} of tape "
        "below that."
    ),
    "zip_cut_at_top": (
        "Cut {over_mm} off at the top: draw the slider down, set stops on both sides first, "
        "and let the waistband hold the ends."
    ),
    "thread_taken": (
        "{total_wound_mm} of thread for {seam_mm} of {name} ({stitch}): {ratio} times the seam, "
        "and {waste_pct} more for ends and test rows. A shop sells {sold}."
    ),
    "thread_taken_bobbin": (
        "{total_wound_mm} of thread ({needle_wound_mm} needle, {under_wound_mm} bobbin) for "
        "{seam_mm} of {name} ({stitch}): {ratio} times the seam, and {waste_pct} "
        "more for ends and test rows. A shop sells {sold}."
    ),
    "thread_taken_looper": (
        "{total_wound_mm} of thread ({needle_wound_mm} needle, {under_wound_mm} looper, "
        "{count} spools at once) for {seam_mm} of {name} ({stitch}): {ratio} times the seam, "
        "and {waste_pct} more for ends and test rows. A shop sells {sold}."
    ),
    "sold_on_spools": ("{count} spool of {each_thread_mm}", "{count} spools of {each_thread_mm}"),
    "sold_on_cones": ("{count} cone of {each_thread_mm}", "{count} cones of {each_thread_mm}"),
    "not_a_machine": "“{typed}” is not a machine known here; these are: {known}.",
    "not_on_the_list": "There is no such line on this shopping list. Ask for the list again.",
    "unknown_stitch": "“{typed}” is not a stitch class known here: use {known}.",
    "stitch_without_length": "The stitch length must be more than nothing.",
    "cannot_be_sewn": "A {what} of {set_mm} cannot be sewn.",
    "waist_too_small_for_elastic": "A waist of {waist_mm} is too small for elastic.",
    "casing_takes_no_elastic": "A casing {casing_mm} deep takes no elastic.",
    "wider_than_interfacing": "A piece {width_mm} wide is wider than the interfacing.",
    "bias_cloth_too_narrow": "The cloth is too narrow for a bias strip of this width.",
    "buttons_cannot_be_spaced": "{wanted} buttons cannot be spaced: say 1 to {most}.",
    "fewer_buttons_here": "There are fewer than {wanted} buttons here.",
    "front_too_short": (
        "A front of {front_measure_mm} is too short for a button {button_small_mm} wide."
    ),
    "not_a_button": (
        "A button is {least_small_mm} to {most_small_mm} wide, not {given_small_mm}: please "
        "measure it again."
    ),
}
