"""What is said of a cloth: whether it will do, and what to know before it is cut."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    # The presumed figure that an answer hangs on.
    "hangs_on_construction": (
        "This hangs on a guess: that it is {construction} goes by its name alone. Look at the "
        "cloth and record how it is made."
    ),
    "hangs_on_weight": (
        "This hangs on a guess: {mass_gsm} goes by its name alone. Put the cut on the "
        "scale: its size is on record, so that settles it."
    ),
    "hangs_on_width": (
        "This hangs on a guess: nobody measured its width of {width_mm}, and the lay takes "
        "{most_width_mm} of it. Measure across between its selvedges."
    ),
    "hangs_on_width_to_fit": (
        "This hangs on a guess: nobody measured its width of {width_mm}; if it is wider, it "
        "might fit. Measure across between its selvedges."
    ),
    "hangs_on_shrinkage": (
        "This hangs on a guess: {along_pct} along is presumed lost in the wash, and it fits up "
        "to {most_pct}. Wash a measured swatch and record what it lost."
    ),
    "hangs_on_shrinkage_to_fit": (
        "This hangs on a guess: {along_pct} along is presumed lost in the wash; if it lost less "
        "than {most_pct}, it might fit washed too. Wash a measured swatch and record what it lost."
    ),
    "either": "{first} or {last}",
    "draft_not_for_knit": (
        "This is a knit and the draft is for {asked} cloth: it would stretch out of shape on "
        "seams drafted for woven cloth."
    ),
    "draft_not_for_nonwoven": (
        "This is a nonwoven and the draft is for {asked} cloth: it has no grain and tears where "
        "a garment bends."
    ),
    "draft_not_for_woven": (
        "This is a woven and the draft is for {asked} cloth: the draft relies on a knit's stretch."
    ),
    "construction_unknown": (
        "Woven or knitted is not recorded, and the draft is for {asked} cloth: look, and record it."
    ),
    "too_heavy": "Too heavy at {mass_gsm}: at most {most_gsm} for {garments}.",
    "too_thin": "Too thin at {mass_gsm}: at least {least_gsm} for {garments}.",
    "rather_heavy": (
        "On the heavy side at {mass_gsm}: {least_gsm} to {most_gsm} is usual for {garments}."
    ),
    "tables_disagree_on_weight": (
        "Published tables disagree: two call 12 to 14 oz most jeans, one calls up to {worn_gsm} "
        "everyday, one calls that workwear."
    ),
    "rather_light": (
        "On the light side at {mass_gsm}: {least_gsm} to {most_gsm} is usual for {garments}."
    ),
    "mass_unknown": (
        "Its weight is not recorded: weigh a 10 x 10 cm swatch, and the grams times 100 are g/m²."
    ),
    "stretch_unknown": (
        "Its stretch is not known, and the draft relies on {wanted_across_pct} across: stretch "
        "10 cm of it, folded double, and record how much further it goes."
    ),
    "drawn_for_its_stretch": (
        "Drawn for this cloth as it was measured: it stretches {stretch_across_pct} across and "
        "{stretch_along_pct} along."
    ),
    "drawn_for_its_stretch_across": (
        "Drawn for this cloth as it was measured: it stretches {stretch_across_pct} across."
    ),
    "drawn_for_presumed_stretch": (
        "Drawn for {wanted_across_pct} of stretch across, which nobody measured on this cut: "
        "stretch 10 cm of it, folded double, and record how much further it goes."
    ),
    "drawn_for_presumed_stretch_along": (
        "The seat counts on {wanted_along_pct} of stretch along the cloth, which nobody measured "
        "on this cut: stretch 10 cm of it lengthwise as well, and record it."
    ),
    "stretches_as_measured": (
        "As it was measured, it stretches {stretch_across_pct} across; {wanted_across_pct} is "
        "relied on."
    ),
    "little_stretch_along": (
        "It gives {stretch_along_pct} along and the seat wants {wanted_along_pct}: it will pull "
        "down when she sits."
    ),
    "too_little_stretch": (
        "It gives {stretch_across_pct} across and the draft relies on {wanted_across_pct}: it "
        "could not be put on."
    ),
    "more_stretch_than_used": (
        "It gives {stretch_across_pct} across, which the draft does not use: it will come out "
        "roomy."
    ),
    "seen_through": (
        "It can be seen through: it would want a lining or something worn under it."
    ),
    "kept_for": "You are keeping it for {what}.",
    "one_way_cloth": "One-way: every piece points the same way.",
    "large_repeat": "Large repeat ({repeat_mm}): place the print before chalking.",
    "shrinkage_unknown": (
        "Not washed yet and its shrinkage is not recorded: it is laid as it lies now. Wash it "
        "and measure it before cutting."
    ),
    "wash_first": (
        "Not washed yet: laid as it will be after shrinking {along_pct} along and {across_pct} "
        "across, so wash it before cutting."
    ),
    "wash_first_as_sister": (
        "Not washed yet: laid as it will be if it shrinks as {sister}, of the same cloth, did: "
        "{along_pct} along and {across_pct} across. Wash it before cutting."
    ),
    "wash_first_presumed": (
        "Not washed yet and nobody has measured its shrinkage: {along_pct} along and "
        "{across_pct} across are presumed for cloth of its kind. Wash it, and measure it, "
        "before cutting."
    ),
    "nonwoven_wears_badly": "A nonwoven bags out and tears: not for a worn piece.",
    "interfacing_too_heavy": (
        "Too heavy for this cloth: {mass_gsm} behind {cloth_gsm} stands stiff as card."
    ),
    "interfacing_rather_stiff": (
        "Rather stiff: {mass_gsm} behind {cloth_gsm}; about half the cloth's weight sits better."
    ),
    "interfacing_mass_unknown": (
        "Its weight is not recorded: try it on a scrap before fusing or sewing it in."
    ),
    "fibre_shuns_iron": (
        "With {fibre} a hot iron does harm: use a cool press cloth, test a scrap, or sew the "
        "interfacing in."
    ),
    "lining_mass_unknown": "Its weight is not recorded: a lining is lighter than its cloth.",
    "lining_too_heavy": (
        "Heavier than the cloth it would line ({mass_gsm}): it would hang wrong."
    ),
    "lining_rather_heavy": "Heavy for a lining at {mass_gsm}: it adds bulk at every seam.",
    "knit_beside_woven": "A knit beside a woven pulls the seam between them.",
    "much_heavier_beside": (
        "Much heavier than the main cloth ({mass_gsm} beside {main_gsm}): keep it to small pieces."
    ),
    "much_lighter_beside": (
        "Much lighter than the main cloth ({mass_gsm} beside {main_gsm}): keep it to small pieces."
    ),
    "shrink_apart": (
        "The two shrink {apart_pct} apart: wash both before cutting, or the seam puckers."
    ),
    "dry_clean_only_beside": (
        "It is dry-clean only, and the garment could then not be washed."
    ),
    "nothing_to_look_for": "Say a colour, a word or a weight to look for.",
    "agrees": "Agrees with what you asked.",
    "same_colour": "The same colour to the eye.",
    "very_close_colour": "Very close: told apart only side by side.",
    "near_colour": "Near in colour.",
    "same_family_of_colour": "In the same family, plainly different.",
}
