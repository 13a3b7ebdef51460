"""What is said of a body, a draft and its options."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "measurement_wanted": "{garment}: the {measure} is needed; please measure it.",
    "either_measurement_wanted": (
        "{garment}: the {measure} or {other} is needed; please measure it."
    ),
    "measurement_impossible": (
        "The {measure} of {given_measure_mm} cannot be right: it can be from {least_measure_mm} "
        "to {most_measure_mm}. Please measure it again."
    ),
    "measurement_no_number": (
        "The {measure} is no number: it can be from {least_measure_mm} to {most_measure_mm}. "
        "Please measure it again."
    ),
    "measurements_apart": (
        "The {measure} of {given_measure_mm} does not belong to a {other} of {other_measure_mm}: "
        "between {least_measure_mm} and {most_measure_mm} can be drafted. Please measure both "
        "again."
    ),
    "measurement_misspelt": "“{typed}” is not a measurement that a draft uses; is {meant} meant?",
    "measurement_unknown": "“{typed}” is not a measurement that a draft uses; use one of {known}.",
    "body_unknown": "A body is one of {either_body}, not “{typed}”.",
    "body_too_little_known": (
        "Too little is known of this body: measure at least the hip, or the bust or chest."
    ),
    "crotch_length_of_another_body": (
        "The crotch length of {crotch_measure_mm} does not belong to a hip of {hip_measure_mm} "
        "and a body rise of {rise_measure_mm}. Please measure them again."
    ),
    "arm_finds_no_room": (
        "The upper arm girth of {arm_measure_mm} finds no room in a sleeve for a bust of "
        "{bust_measure_mm}. Please measure both again."
    ),
    "scye_leaves_no_room": (
        "An armhole that lies {scye_measure_mm} below the nape leaves no room for a sleeve round "
        "an upper arm of {arm_measure_mm}. Please measure the scye depth again."
    ),
    "arm_too_big_for_armhole": (
        "A sleeve {arm_measure_mm} round finds no room in this armhole. Please measure the upper "
        "arm and the bust again."
    ),
    "bust_dart_too_wide": (
        "A bust dart of {dart_measure_mm} and a front waist of {waist_measure_mm} do not go into "
        "one front: choose a narrower bust_dart, or measure bust and waist again."
    ),
    "head_finds_no_way": (
        "A head of {head_measure_mm} finds no way through a neck for a bust of {bust_measure_mm}. "
        "Please measure both again, or choose cloth that stretches further."
    ),
    "neck_stretches_over_head": (
        "The neck stretches to {around_measure_mm} and passes a head of {head_measure_mm}."
    ),
    "neck_opens_for_head": (
        "With the left shoulder open the neck stretches to {around_measure_mm} and passes a head "
        "of {head_measure_mm}; pulled on, it would slip off the shoulders."
    ),
    "stretch_presumed": (
        "Drawn for cloth that stretches {stretch_pct} across: presumed, since nobody said. Stretch "
        "10 cm of it, folded double: each 1 cm further is 10 %. Then choose the stretch."
    ),
    "stretch_along_presumed": (
        "The seat counts on {stretch_pct} of stretch along the cloth, which nobody measured: "
        "stretch 10 cm of it lengthwise as well, then choose how far it goes."
    ),
    "cut_for_stretch_along": (
        "The seat is drawn for cloth that stretches {stretch_pct} along its length, or further."
    ),
    "cut_for_stretch": "Drawn for cloth that stretches {stretch_pct} across, or further.",
    "pleats_overlap": (
        "Pleats {depth_measure_mm} deep would overlap behind: {number} of them on this waist can "
        "be {most_measure_mm} deep."
    ),
    "pleats_too_shallow": (
        "Pleats that take in {taken_measure_mm} in all do not open over these hips: the option "
        "depth can be {least_measure_mm} or more, or choose more pleats."
    ),
    "no_such_draft": "There is no draft of “{name}”; there are: {known}.",
    "garment_has_no_such_option": "{garment} has no option “{option}”; it takes: {known}.",
    "option_out_of_range": (
        "The option {option} can be from {least_measure_mm} to {most_measure_mm}."
    ),
    "option_not_a_word": "The option {option} can be {either}, not “{typed}”.",
    "option_of_no_garment_here": (
        "The option “{option}” is of a garment that is not asked for; asked for are: {either}."
    ),
    "option_of_which_garment": "Say of which garment the {option} is: write {either}.",
    "hem_misses_heel": (
        "A hem of {girth_measure_mm} does not pass the heel: the option leg_width can be "
        "{least_measure_mm} or more."
    ),
    "shorts_too_short": (
        "Shorts {asked_measure_mm} long end above the crotch line: the option length can be "
        "{least_measure_mm} or more."
    ),
    "leg_too_tight": (
        "A leg {girth_measure_mm} round is too tight for the thigh: the option leg_width can be "
        "{least_measure_mm} or more."
    ),
    "skirt_too_short": (
        "A skirt {asked_measure_mm} long ends above the hips: the option length can be "
        "{least_measure_mm} or more."
    ),
    "shirt_too_short": (
        "A shirt {asked_measure_mm} long ends at the armhole: the option length can be "
        "{least_measure_mm} or more."
    ),
    "tunic_too_short": (
        "A tunic {asked_measure_mm} long ends at the armhole: the option length can be "
        "{least_measure_mm} or more."
    ),
    "gown_too_short": (
        "A length of {asked_measure_mm} ends too near the underarm: at least {least_measure_mm} "
        "can be drafted."
    ),
    "sleeve_too_short": (
        "A sleeve {sleeve_measure_mm} long ends above the armpit: the option sleeve_length can be"
        " {least_measure_mm} or more."
    ),
    "border_too_deep": "The border can be at most half the length, {most_measure_mm}.",
    "cloth_too_narrow_for_curtain": "The cloth is too narrow for a curtain.",
    "piece_cannot_be_drawn": (
        "{garment}: the piece “{piece}” cannot be drawn from {because}. Please check these "
        "measurements and the options."
    ),
    "sheet_too_large": (
        "These pieces would take a sheet {long_mm} long; at most {most_mm} can be printed. Save "
        "the SVG and have it plotted instead."
    ),
    "body_table_said": "What was not measured comes from the {body} table, as was said.",
    "body_table_small": (
        "What was not measured comes from the {body} table, because the girths are a child's."
    ),
    "body_table_height": (
        "What was not measured comes from the {body} table, because of the height."
    ),
    "body_table_chest": (
        "What was not measured comes from the {body} table, because a chest was measured."
    ),
    "body_table_waist": (
        "What was not measured comes from the {body} table, because the waist is {share_pct} of "
        "the hip."
    ),
    "body_table_usual": (
        "What was not measured comes from the {body} table: nothing says whose body it is."
    ),
    "body_table_asked": (
        "Is it a woman's, a man's or a child's body? Nobody said, so please say which."
    ),
    "estimates_beyond_table": (
        "This body lies outside the table, so these follow its trend: {measures}."
    ),
    "cap_too_low": (
        "The cap cannot be lowered so far: the sleeve can be fuller by {most_measure_mm} at most."
    ),
    "not_a_day": "“{typed}” is not a day: write it like 2026-11-30.",
    "measured_that_day": (
        "{person} was measured on {day} already: correct those on {person}'s own page, or give "
        "another day."
    ),
    "no_such_adjustment": "{garment}: “{typed}” is no adjustment of it; there are: {known}.",
    "not_measured_then": "{person} was not measured on {day}; there are sets of: {known}.",
    "too_much_shorter": "“{piece}” can be at most {most_measure_mm} shorter below its line.",
    "grain_across_fold": "“{piece}” lies on a fold, so its grain runs along it.",
    "no_edge_to_fold": "“{piece}” has no straight edge along its grain to lie on a fold.",
    "pair_on_fold": "“{piece}” lies on the fold, so it is no mirrored pair.",
    "odd_pair": "“{piece}” is cut in mirrored pairs, so its quantity must be even.",
    "allowance_out_of_range": "An allowance can be up to {most_measure_mm}.",
    "allowance_fills_piece": "“{piece}” is too narrow to hold that allowance.",
    "line_off_piece": (
        "The line must cross “{piece}”: it lies from 1 cm to {most_measure_mm} below its top."
    ),
    "alters_no_further": (
        "The pattern may be lengthened or shortened by at most {most_measure_mm}."
    ),
    "no_line_to_alter": (
        "Say first where “{piece}” may be lengthened or shortened: how far below its top."
    ),
    "no_notch_there": "“{piece}” has no notch where you pointed: point at the notch itself.",
    "choose_a_notion": "Choose what kind of notion that is.",
    "say_which_allowance": (
        "Say whether the seam allowance is in the outline already or is to be added."
    ),
    "not_a_correction": (
        "“{typed}” is not a correction: write for example “back: fold, cut 1, grain 90”."
    ),
    "not_a_correction_word": (
        "“{typed}” corrects nothing: write fold, flat, pair, cut 2, grain 90, allowance 15mm, "
        "allowance in 15mm, allowance none, lengthen at 40cm by 6cm, lengthen nowhere, one way, "
        "name NEW, or what the piece is."
    ),
    "not_a_number": "“{typed}” is not a number that can be used.",
    "not_a_turn": "“{typed}” is not a turn in degrees.",
    "not_a_need": "“{typed}” is no notion: write for example “5 buttons 15 mm”.",
    "no_piece_called": "The pattern has no piece “{typed}”; its pieces are: {known}.",
    "nothing_to_set": "Say what is to be different about the pattern.",
    "fit_changed": "Fit: {change} ({by_measure_mm}).",
    "measured_on": "Drawn from the measurements of {day}.",
    "measured_since": "Since {day}: {changes}.",
    "measure_changed": "{measure} {change_signed_mm}",
    "option_chosen_mm": "{option} {chosen_measure_mm}",
    "option_chosen": "{option} {chosen}",
    "measurement_given": "{measure} {given_measure_mm}",
}
