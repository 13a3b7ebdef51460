"""What is said of the record: what cannot be done to it, and why."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "undo_blocked": "This cannot be undone any more, because of what was recorded later. {because}",
    "undo_depends": (
        "This cannot be undone any more, because of what was recorded later: entry {event} "
        "({what}, {on}) depends on it. {because} Take that back first."
    ),
    "already_lent": "This cut is lent to {to} already: record first that it is back.",
    "not_lent": "This cut is not lent to anyone.",
    "borrower_wanted": "Say who has it, in at most 100 letters.",
    "undone_before": "This was already undone.",
    "undo_replaced": (
        "Undoing this would change nothing: a later count, measure or cut has replaced it."
    ),
    "computation_failed": (
        "Something went wrong in this computation; your record is untouched. "
        "Please ask again, and keep the log if it happens twice."
    ),
    "address_begins_with_http": "An address begins with http:// or https://.",
    "already_washed": "This cut is already recorded as washed.",
    "amount_wanted": "Please give an amount above nothing.",
    "amount_wanted_to_hold": "Please hold an amount above nothing.",
    "bin_gone": "The bin {code} is no longer here: it was {how}.",
    "bin_name_wanted": "Please give the bin a name of at most {most} letters.",
    "cloth_name_wanted": "Please give the cloth a name of at most {most} letters.",
    "code_misread": (
        "“{typed}” has a wrong character in it: the check character does not agree. Please read "
        "the label again."
    ),
    "counted_in_whole_numbers": "What is counted here ({what}) is counted in whole numbers.",
    "counted_stays_counted": (
        "A bin of things that are counted cannot turn into one that is measured."
    ),
    "cut_gone": "The cut {code} is no longer here: it was {how}.",
    "fibres_add_up_wrong": "The fibres add up to {total_pct}.",
    "label_in_use": "The label {code} is already in use; please take another.",
    "label_on_two_remnants": "The label {code} cannot be on two remnants.",
    "length_cannot_be_held": "{wanted_length_mm} cannot be held: there is {there_length_mm}.",
    "length_out_of_range": "Please give a length above nothing and below a kilometre.",
    "more_left_than_there_was": (
        "More cloth is said to be left than there was. Measure the cut again instead."
    ),
    "no_such_bin": "There is no bin {code} on record.",
    "no_such_cloth": "There is no such cloth on record.",
    "no_such_cut": "There is no cut {code} on record.",
    "no_such_pattern": "There is no pattern “{typed}”. Patterns on record: {known}.",
    "no_such_version": (
        "There is no pattern “{typed}” in version {version}. Patterns on record: {known}."
    ),
    "no_place_with_code": "There is no place {code} on record.",
    "no_such_plan": "There is no plan “{typed}”. Plans on record: {known}.",
    "not_a_code": (
        "“{typed}” is not a label code: a code has {letters} letters and figures, without 0, 1, "
        "I, L or O. Please read the label again."
    ),
    "not_a_notion_size": "That is not a size a notion can have.",
    "not_for_bins": "That cannot happen to a bin of notions: {what}.",
    "not_for_cuts": "That cannot happen to a cut of cloth: {what}.",
    "not_to_be_set_so": "Only when it was acquired and what it is kept for can be set so.",
    "nothing_at_that_moment": "Nothing is recorded under {subject} at that moment.",
    "nothing_to_hold": "Nothing was named that the plan should hold.",
    "outline_corner_twice": "This outline has the same corner twice in a row.",
    "outline_crosses": "This outline crosses itself or has no area. Please trace it again.",
    "outline_not_closed": "This outline is not a closed shape in millimetres.",
    "pattern_name_wanted": "Please give the pattern a name of at most {most} letters.",
    "pattern_needs_piece": "A pattern needs at least one piece.",
    "person_name_wanted": "Please give the person a name of at most {most} letters.",
    "piece_falls_apart": (
        "Cut there, this piece falls apart. Please record its new outline instead, and the other "
        "parts as remnants."
    ),
    "place_has_label": "There is already a label for the place “{place}”.",
    "place_name_wanted": "Please give the place a name of at most {most} letters.",
    "plan_holds_none_of_bin": "The plan “{plan}” holds nothing of this bin.",
    "plan_holds_none_of_cut": "The plan “{plan}” holds none of this cloth.",
    "plan_holds_nothing": "The plan “{plan}” holds nothing that could be given up.",
    "made_plan_holds_nothing": (
        "The plan “{plan}” was already made on {day}: give what you make next another name."
    ),
    "plan_made": "The plan “{plan}” was already made on {day}.",
    "plan_name_wanted": "Please give the plan a name of at most {most} letters.",
    "plan_still_holds_cloth": (
        "The plan “{plan}” still holds cloth of {cuts}: record that it was cut out, or give it "
        "up."
    ),
    "recorded_since": "Something that was recorded since belongs to this {what}.",
    "setting_too_long": "That is too long for a setting.",
    "shrinkage_between": "Shrinkage lies between {least_pct} and {most_pct}.",
    "sides_are_nothing": "Length and width must both be more than nothing.",
    "stretch_between": "Stretch lies between {least_pct} and {most_pct}.",
    "nothing": "nothing",
    "not_so_much_in_bin": (
        "{wanted} cannot be taken: the record says {there} in this bin. If there is more, count "
        "the bin again."
    ),
    "bin_held": (
        "The plan “{plans}” holds {held} of this bin, so {free} can be taken. Release it first, "
        "or say that it may be used all the same."
    ),
    "bin_cannot_hold": "{wanted} cannot be held: {free} is free in this bin.",
    "bin_held_in_part": "The plan “{plans}” holds part of this bin. Release it first.",
    "cannot_be_left": (
        "{wanted_length_mm} cannot be left: the record says {there_length_mm}. If there is more, "
        "measure the cut again and record its true size."
    ),
    "cannot_be_cut_off": (
        "{wanted_length_mm} cannot be cut off: the record says {there_length_mm}. If there is "
        "more, measure the cut again and record its true size."
    ),
    "cut_held_in_part": (
        "The plan “{plans}” holds this cloth, so only {free_length_mm} is free. Release it first,"
        " or say that it may be used all the same."
    ),
    "cut_held": (
        "The plan “{plans}” holds this cloth, so none of it is free. Release it first, or say "
        "that it may be used all the same."
    ),
    "already_held": "The plan “{plans}” already holds this cloth.",
    "nobody_yet": "Nobody called “{typed}” is on record; add a person with her measurements first.",
    "nobody_called": "Nobody called “{typed}” is on record; there is {known}.",
}
