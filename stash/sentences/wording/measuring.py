"""What is said of measuring by photograph, by weight and by the roll."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "no_tray_seen": (
        "No tray was found in this picture. Pour onto the printed tray, and photograph it from "
        "above with all four sides of its rim in view, sharp and evenly lit."
    ),
    "rim_hidden": (
        "Too little of the tray's rim can be seen: keep all four sides in view and sharp, with "
        "nothing lying on them."
    ),
    "strips_too_far": (
        "The photograph was taken from too far, or is too small, to tell a strip from a streak "
        "of the floor: come nearer, until sheet and strips fill the picture."
    ),
    "no_strip_seen": (
        "No strip stands out from the floor in this picture: lay it flat, on a floor of clearly "
        "another colour, a hand away from the calibration sheet."
    ),
    "paper_too_bright": (
        "The paper in this picture is so bright that its colour is lost: photograph it again, "
        "a little darker."
    ),
    "outside_picture": "That place lies outside the picture.",
    "not_grams": "“{typed}” is not a weight: write what the scale shows in grams, for example 412.",
    "not_a_swatch": "“{typed}” is not a weighed swatch: write it as “10cm x 10cm 2.1g”.",
    "not_a_known_weight": (
        "“{typed}” does not say what a known amount weighs: write “40 pieces 32g” or “3m 27g”."
    ),
    "known_weight_wanted": (
        "Say what a known amount of it weighs, for example “40 pieces 32g” or “3m 27g”, or the "
        "grams to a metre."
    ),
    "like_not_weighed": (
        "The cut {code} was never weighed, and what its cloth weighs is not on record: weigh it "
        "as one whose size is true."
    ),
    "mass_of_cloth_unknown": (
        "What “{name}” weighs is not on record: weigh a cut of it whose size is true, "
        "or say what a square metre or a swatch of it weighs."
    ),
    "not_a_place_in_picture": "“{typed}” is not a place: write it in pixels as 1200,800.",
    "photographs_not_joined": (
        "These photographs do not join: one calibration sheet must lie in two of them, unmoved."
    ),
    "remnant_runs_out": (
        "The cloth runs out of all the photographs: take one more of the part that is missing, "
        "with a sheet in it that lies in another one too."
    ),
    "colours_match": "They match, as far as a photograph tells.",
    "colours_close": "They are close, but not the same: hold them side by side in daylight.",
    "colours_near": "They go together, but do not match.",
    "colours_differ": "They do not match.",
    "light_daylight": "By daylight: nine in ten lie within {error_number} (CIEDE2000) of it.",
    "light_warm": (
        "The light is warm: it may be out by {error_number} (CIEDE2000), another shade. "
        "Photograph it by daylight."
    ),
    "light_unknown": (
        "No greys were seen: it may be out by {error_number} (CIEDE2000). Lay the calibration "
        "sheet or the tray beside it, and it is far surer."
    ),
    "colour_photographed": "Colour photographed: within {error_number} (CIEDE2000).",
    "colour_photographed_warm": (
        "Colour photographed under warm light: within {error_number} (CIEDE2000). Photograph it "
        "by daylight."
    ),
    "colour_too_unsure": (
        "No greys were seen in this picture, so its colour is not worth keeping: lay the "
        "calibration sheet or the tray beside it, and photograph it again."
    ),
    "better_on_record_colour": (
        "A surer colour of {code} is on record, within {recorded_number} (CIEDE2000); this one is "
        "within {new_number}. It stays."
    ),
    "known_measured": "Measured: it may be out by {error_mm}.",
    "known_measured_number": "Measured: it may be out by {error_number}.",
    "known_measured_exactly": "Measured.",
    "known_counted": "Counted: it may be out by {error_mm}.",
    "known_counted_number": "Counted: it may be out by {error_number}.",
    "known_counted_exactly": "Counted.",
    "width_measured": "Width measured: within {error_mm}.",
    "width_presumed": "Width presumed, a usual one or as sold: within {error_mm}.",
    "width_settles": "Measured across between its selvedges, it is settled.",
    "width_photographed": "Width photographed: within {error_mm}.",
    "mass_weighed": "Weight of the cloth weighed: within {error_gsm}.",
    "mass_presumed": "Weight of the cloth presumed from its label: within {error_gsm}.",
    "size_photographed": "Size photographed: within {error_small_mm}.",
    "size_as_written": "Size as it was sold or written down.",
    "known_photographed": "Photographed: it may be out by {error_mm}.",
    "known_photographed_number": "Photographed: it may be out by {error_number}.",
    "known_photographed_exactly": "Photographed.",
    "known_weighed": "Weighed: it may be out by {error_mm}.",
    "known_weighed_number": "Weighed: it may be out by {error_number}.",
    "known_weighed_exactly": "Weighed.",
    "known_rolled": "Reckoned from its turns: it may be out by {error_mm}.",
    "known_rolled_number": "Reckoned from its turns: it may be out by {error_number}.",
    "known_rolled_exactly": "Reckoned from its turns.",
    "known_presumed": "Presumed: it may be out by {error_mm}.",
    "known_presumed_number": "Presumed: it may be out by {error_number}.",
    "known_presumed_exactly": "Presumed.",
    "better_on_record": (
        "A better figure of {code} is on record: {recorded_mm}, give or take {recorded_error_mm}; "
        "this one is {new_mm}, give or take {new_error_mm}. It stays."
    ),
    "better_on_record_differs": (
        "What is on record of {code} is surer, but does not agree: {recorded_mm}, give or take "
        "{recorded_error_mm}; this one is {new_mm}, give or take {new_error_mm}. It stays. "
        "Lay the tape measure along it."
    ),
    "better_on_record_number": (
        "A better figure of {code} is on record: {recorded_number}, give or take "
        "{recorded_error_number}; this one is {new_number}, give or take {new_error_number}. It "
        "stays."
    ),
    "better_on_record_differs_number": (
        "What is on record of {code} is surer, but does not agree: {recorded_number}, give or "
        "take {recorded_error_number}; this one is {new_number}, give or take {new_error_number}. "
        "It stays. Count them."
    ),
    "replace_overrules": "Say --replace to put the new one in its place all the same.",
    "mass_presumed_settles": (
        "This hangs on the label's weight, which is presumed: weigh a cut of this cloth whose "
        "length you measured, and it is settled"
    ),
    "cut_too_light_for_scale": (
        "This cut is so light that the scale says its weight only within {error_pct}: weigh a "
        "larger cut of the cloth, or take a scale that shows 0.1 g."
    ),
    "nothing_to_settle": (
        "What is to be settled is the width, the weight, the shrinkage or the making."
    ),
    "choose_how_it_is_made": "Choose whether it is woven, knitted or bonded.",
    "swatch_too_short": "Measure a swatch of at least {least_mm} along and across.",
    "swatch_lost_too_much": (
        "A loss of {lost_pct} is not to be believed: look at the four figures again, along the "
        "grain and across it."
    ),
    "tape_settles": "Before cutting close, the tape measure settles it.",
    "count_settles": "Counting them settles it.",
    "nothing_was_counted": (
        "Nothing was counted in this picture: say how many lie at the places asked about, or "
        "take another photograph."
    ),
    "tap_the_thing_first": "Tap it in the photograph first, so that its colour is known.",
    "tap_two_places_first": "Tap the two places in the photograph first.",
    "tick_a_strip": "Tick at least one strip.",
    "not_a_weighing": "Give what the scale shows in grams, more than nothing.",
    "nothing_but_the_container": (
        "The scale shows no more than what the empty container weighs, so there is nothing in it."
    ),
    "not_a_roll": (
        "A roll has an outer diameter that is larger than its core's, and at least one turn."
    ),
    "roll_without_measures": (
        "Say how thick it lies: --outer and --core of a roll, or --girth and --board of a board."
    ),
    "not_a_board": (
        "Measure round the cloth on the board, and round the bare board; and count at least "
        "one turn."
    ),
    "length_by_weight": (
        "{mass_gsm} over {wide_width_mm}. It may be out by {error_pct}: scale "
        "{scale_pct}, mass of the cloth {mass_pct}, moisture {moisture_pct}, width {width_pct}"
    ),
    "length_by_turns": (
        "Turns: {turns}, of {mean_mm} on average; the length may be out by {error_pct}"
    ),
    "choose_a_way_to_weigh": "Choose what to reckon by: the weight or the turns.",
    "count_by_weight": "Each weighs {each_g} g; the number may be out by {error_pct}",
    "strip_by_weight": (
        "A metre weighs {per_metre_g} g; the length may be out by {error_pct}"
    ),
    "finer_scale_helps": "a scale that shows {step_g} g would help",
    "tape_helps": "the tape measure is surer",
    "weigh_measured_cut_helps": (
        "weigh a cut of this cloth whose size is on record: that is the best swatch"
    ),
    "larger_swatch_helps": "weigh a larger swatch, or a cut whose size is on record",
    "count_more_first": "count {count} of them, and weigh those first",
    "longer_sample_helps": "weigh a longer piece that you measured first",
}
