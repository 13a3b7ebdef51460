"""What is said of alterations: darts moved, panels cut, flare, gathers, facings."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "not_an_alteration": (
        "“{typed}” is no alteration that can be made: write it like one of {examples}."
    ),
    "piece_has_no_edge": "The piece “{piece}” has no edge “{typed}”; it has: {known}.",
    "spot_off_edge": (
        "On the edge {edge} of “{piece}” a line can begin or end from {least_measure_mm} to "
        "{most_measure_mm}."
    ),
    "no_dart_there": "The piece “{piece}” has no dart at its edge {edge}.",
    "which_dart": (
        "The edge {edge} of “{piece}” has {darts} darts: say which by its number, counted from the "
        "centre or the top."
    ),
    "dart_legs_differ": (
        "The legs of the dart at the edge {edge} of “{piece}” differ by {apart_mm}: make them "
        "equal first."
    ),
    "dart_to_fold": (
        "A dart cannot open in the fold of “{piece}”: cut the panel along the fold first."
    ),
    "line_leaves_piece": (
        "That line would leave the piece “{piece}”: choose another place, or a point on the way."
    ),
    "not_on_fold": "The piece “{piece}” is not cut on the fold.",
    "spread_two_edges": "“{piece}” is slashed from one edge to another edge, not to the fold.",
    "cuts_out_of_range": "From one to {most} cuts can be made at once.",
    "spread_too_wide": (
        "“{piece}” cannot be spread so far: more than nothing and at most {most_measure_mm} a cut."
    ),
    "edge_turned_already": (
        "The edge {edge} of “{piece}” is turned in as it is, so it takes no facing."
    ),
    "facing_past_dart": (
        "A facing as wide as that passes the tip of a dart in “{piece}”: at most "
        "{most_measure_mm}."
    ),
    "facing_too_wide": (
        "A facing as wide as that runs off the piece “{piece}”: at most {most_measure_mm}."
    ),
    "altered_piece_crosses": (
        "The piece “{piece}” could not be cut after that: its line would cross itself or it "
        "would be too narrow."
    ),
    "alteration_disagrees": (
        "That cannot be made exactly, so it is left as it was ({what} They are {apart} apart.)"
    ),
    "name_for_altered": "Please give the altered pattern a name.",
    "name_is_a_draft": "“{name}” is the name of a draft; please choose another.",
    "alterations_wanted": "Please say at least one alteration, for example {example}.",
    "dart_moved": (
        "The dart of “{piece}” at the {edge} is closed; it opens at the {to} and takes in "
        "{intake_measure_mm} there."
    ),
    "dart_to_flare": (
        "The dart of “{piece}” at the {edge} is closed; the {to} is wider by {by_measure_mm}."
    ),
    "dart_to_flare_each_half": (
        "The dart of “{piece}” at the {edge} is closed; the {to} is wider by {by_measure_mm} on "
        "each half."
    ),
    "piece_spread_each_half": (
        "Each half of “{piece}” is slashed and spread (slashes: {cuts}): its {edge} is longer by "
        "{by_measure_mm}."
    ),
    "dart_gathered": (
        "The dart of “{piece}” at the {edge} is gathered between the notches, by {by_measure_mm}."
    ),
    "panel_cut": "“{piece}” is cut into {parts}; the seam is {seam_measure_mm} long on both.",
    "fold_cut": "“{piece}” is cut apart at its fold; the seam is {seam_measure_mm} long.",
    "piece_spread": (
        "“{piece}” is slashed and spread (slashes: {cuts}): its {edge} is longer by "
        "{by_measure_mm}."
    ),
    "facing_added": "The {edge} of “{piece}” has a facing {width_measure_mm} wide.",
    "edge_kept": "{piece}, {edge}: {sewn_measure_mm} when sewn, as before.",
    "edge_grew": "{piece}, {edge}: {sewn_measure_mm} when sewn, longer by {by_measure_mm}.",
    "area_accounted": "{piece}: what lies outside the darts is accounted for.",
    "legs_agree": "{piece}: both legs of the dart at the {edge} are {leg_measure_mm} long.",
    "seam_agrees": "{piece} and {other}: the seam is {seam_measure_mm} long on both.",
    "facing_width": "{piece}: {width_measure_mm} wide everywhere.",
    "edges_of_two_pieces": (
        "One edge is of “{piece}”, the other of “{other}”: please choose two of one piece."
    ),
    "not_drawn_again": (
        "“{name}” did not begin as a draft, so it cannot be drawn for another body."
    ),
}
