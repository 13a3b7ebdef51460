"""What is said of the answers: whether it fits, what would change that, what to buy."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    # Verdicts on a cut.
    "fits": "Fits with {spare_mm} to spare.",
    "fits_exactly": "Fits with nothing to spare.",
    "fits_only_unwashed": (
        "Fits only unwashed, with {spare_mm} to spare: once washed it would be too small. Take "
        "it so only for what is never washed."
    ),
    "too_small": "Too small: no arrangement of the pieces can fit.",
    "no_lay_short": "No lay was found: the shortest one known is {short_mm} longer than the cut.",
    "no_lay_on_this_shape": "No lay was found on a cut of this shape.",
    "not_laid_yet": "Not laid yet.",
    # Double or single.
    "spread_takes_more": (
        "Cut {way}, it takes {more_measure_mm} more length and {count} cut of the scissors "
        "instead of {own_cuts}.",
        "Cut {way}, it takes {more_measure_mm} more length and {count} cuts of the scissors "
        "instead of {own_cuts}.",
    ),
    "spread_takes_less": (
        "Cut {way}, it takes {less_measure_mm} less length and {count} cut of the scissors "
        "instead of {own_cuts}.",
        "Cut {way}, it takes {less_measure_mm} less length and {count} cuts of the scissors "
        "instead of {own_cuts}.",
    ),
    "spread_takes_as_much": (
        "Cut {way}, it takes as much length and {count} cut of the scissors "
        "instead of {own_cuts}.",
        "Cut {way}, it takes as much length and {count} cuts of the scissors "
        "instead of {own_cuts}.",
    ),
    "spread_no_better": "No other way to spread the cloth saves length or cuts of the scissors.",
    "spread_no_other_way": "Spread any other way, this cut does not hold all the pieces.",
    # Other cloth beside the main one.
    "goes_with_it": "{cloth} goes with it.",
    "no_cut_serves_as": "No cut in the stash serves as its {role}.",
    # Changes.
    "lay_open": "Lay the cloth open in a single layer instead of folded.",
    "panels_in_quarters": "Cut the skirt in four panels instead of two.",
    "seams_between_panels": "Two seams more, from waist to hem.",
    "cannot_be_pieced_there": "The {piece} cannot be joined there: a part would be too narrow.",
    "pieced_band": "Cut the {piece} in {parts} parts and join them.",
    "pieced_facing": "Join the {piece} below the last buttonhole.",
    "pieced_back_fork": "Cut the {piece} with the tip of its fork apart, and join it on.",
    "pieced_front_fork": "Cut the {piece} with the tip of its fork apart, and join it on.",
    "pieced_under_sleeve": "Cut the {piece} with its underarm corner apart, and join it on.",
    "pieced_collar": "Cut the {piece} in two with a seam at centre back.",
    "pieced_centre_back": "Give the {piece} a seam at its centre instead of a fold.",
    "pieced_centre_of_a_panel": "Join the {piece} at its middle.",
    "pieced_gore_corner": (
        "Cut the {piece} with its outer lower corner apart, and join it on."
    ),
    "pieced_yoke": "Cut the {piece} with a seam above the hip.",
    "extra_seam": (
        "One seam of {seam_mm} more, with {allowance_mm} allowed on both sides.",
        "{count} seams of {seam_mm} together more, with {allowance_mm} allowed on both sides.",
    ),
    "extra_seam_on_a_check": (
        "One seam of {seam_mm} more, with {allowance_mm} allowed on both sides; the check "
        "cannot be promised to match across it.",
        "{count} seams of {seam_mm} together more, with {allowance_mm} allowed on both sides; "
        "the check cannot be promised to match across them.",
    ),
    "narrow_seam": "Cut seam allowances of {to_mm} instead of {from_mm}.",
    "narrow_hem": "Cut hems of {to_mm} instead of {from_mm}.",
    "piece_waistband": "Cut the waistband in parts, joined at the side seams.",
    "band_elsewhere": "Cut the casing as a band of its own, from another cut.",
    "band_crosswise": "Cut the waistband on the crosswise grain.",
    "pieces_elsewhere": "Cut the {pieces} from another cut.",
    "bind_instead": "Finish the edge with bias binding instead of a facing.",
    "make_shorter": "Make it {less_mm} shorter.",
    "fold_shorter": "Fold the pattern {less_mm} shorter at its line.",
    "point_both_ways": "Let pieces point both ways, if the print bears it upside down.",
    "short_sleeves": "Give it short sleeves.",
    "shorts_for_trousers": "Make shorts instead of trousers.",
    "leave_one": "Leave the {garment} for another cut.",
    "leave_one_of": "Leave the {garment} of {person} for another cut.",
    # What changes cost.
    "cut_singly": "Each half of a pair is chalked and cut by itself.",
    "less_to_let_out": "There is less to let out later.",
    "hem_lighter": "The hem hangs lighter and cannot be let down.",
    "two_seams_more": "Two seams more, where they hide.",
    "seam_at_waist": "One seam more at the waist, and a second cloth there.",
    "gives_in_wear": "It gives a little more in wear: interface it.",
    "second_cloth": "A second cloth shows, or is felt, inside.",
    "binding_needed": "Binding is needed, or strips of another cloth.",
    "worn_shorter": "It is worn that much shorter.",
    "shorter_edges_trued": (
        "It is worn that much shorter; draw its side edges straight again across the fold."
    ),
    "upside_down": "Look at the print first: some pieces will hang upside down.",
    "upside_down_or_shading": (
        "Look at the cloth first: some pieces will hang upside down, and a pile would shade."
    ),
    "other_in_winter": "It is another garment in winter.",
    "shorts_not_trousers": "Shorts, not trousers.",
    "one_fewer": "One garment fewer from this cut.",
    "saves": "It saves {saves_mm}.",
    "saves_still_short": "It saves {saves_mm}. Still {short_mm} short.",
    # Garments over cuts.
    "nearest_cut": "{cut}: {because}",
    # Questions that cannot be put.
    "name_a_garment": "Say at least one garment, for example trousers.",
    "no_draft_or_pattern": "There is no draft or pattern “{name}”; there are: {known}.",
    "nobody_on_record": (
        "Nobody is on record yet: add a person with measurements first, for example lengthwise "
        "person add NAME --measure hip=100cm --measure waist=80cm."
    ),
    "say_for_whom": "Say for whom it is; on record are: {people}.",
    "no_such_option": "None of these garments has an option “{option}”; they take: {known}.",
    # Plans.
    "name_the_plan": "Please give the plan a name.",
    "plan_has_no_garments": "The plan “{plan}” has no garments yet.",
    "plan_holds_no_lay": "The plan “{plan}” holds no lay there that could be cut.",
    "wash_before_cutting": (
        "The lay on {cut} is for the cloth once washed. Please wash it and record that first."
    ),
    "lay_is_stale": (
        "The lay that “{plan}” holds on {cut} no longer lies on the cloth. Hold the plan on it "
        "again, then cut."
    ),
    "lay_strayed": (
        "The lay that “{plan}” holds on {cut} no longer lies on the cloth: {count} piece reaches "
        "beyond it. Hold the plan again before you cut.",
        "The lay that “{plan}” holds on {cut} no longer lies on the cloth: {count} pieces reach "
        "beyond it. Hold the plan again before you cut.",
    ),
    "cut_gone_since": (
        "Since this was asked {cut} has left the stash ({how}): ask again."
    ),
    "lay_strayed_since": (
        "Since this was asked {cut} has changed: {count} piece of this lay reaches beyond the "
        "cloth. Ask again before you cut.",
        "Since this was asked {cut} has changed: {count} pieces of this lay reach beyond the "
        "cloth. Ask again before you cut.",
    ),
    "cut_held_since": (
        "Since this was asked cloth of this lay is held for “{plan}”. Ask again before you cut."
    ),
    "hold_is_short": (
        "Only {there} left of the {held} that “{plan}” holds: get the rest, or hold the plan again."
    ),
    "hold_is_empty": (
        "Nothing is left of the {held} that “{plan}” holds: get more, or hold the plan again."
    ),
    "measured_since_held": (
        "{person} was measured again after “{plan}” was laid: {changes}. Hold the plan again "
        "before you cut."
    ),
    "pattern_since_held": (
        "The pattern “{pattern}” was changed after “{plan}” was laid. Hold the plan again before "
        "you cut."
    ),
    "fitted_since_held": (
        "The fit of {person} was changed after “{plan}” was laid. Hold the plan again before you "
        "cut."
    ),
    "plan_not_from_cut": "The plan “{plan}” does not come out of {cut}: {because}",
    "plan_from_no_cut": "There is no free cloth that suits the plan “{plan}”.",
    # Shopping.
    "cloth_of": "Look for {asked} cloth, {least_gsm} to {most_gsm}.",
    "wash_is_added": "{along_pct} along and {across_pct} across are added for the first wash.",
    "one_repeat_is_added": (
        "One whole repeat is added, since the bolt may begin anywhere in it."
    ),
    "nearest_in_stash": "Nearest in the stash for the {garment}: {cut}. {because}",
    "for_the_garments": "{garments}",
    "for_the_garments_of": "{garments} for {people}",
    "its_role": "{what}, its {role}",
}
