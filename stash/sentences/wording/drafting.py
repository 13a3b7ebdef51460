"""What is said of bodies and options from which nothing can be drafted."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "not_a_body": "A body is one of {bodies}, not “{typed}”.",
    "not_a_body_measure": "{given_measure_mm} cannot be the {measure} of a person.",
    "arm_finds_no_room": (
        "The upper arm girth of {upper_arm_measure_mm} finds no room in a sleeve for a bust of "
        "{bust_measure_mm}. Please measure both again."
    ),
    "body_unknown": (
        "Too little is known of this body: measure at least the hip, or the bust or chest."
    ),
    "border_too_long": "The border can be at most half the length, {most_measure_mm}.",
    "crotch_length_disagrees": (
        "The crotch length of {crotch_measure_mm} does not belong to a hip of {hip_measure_mm} "
        "and a body rise of {rise_measure_mm}. Please measure them again."
    ),
    "curtain_cloth_too_narrow": "The cloth is too narrow for a curtain.",
    "hem_too_tight": (
        "A hem of {asked_measure_mm} does not pass the heel: the option leg_width can be "
        "{least_measure_mm} or more."
    ),
    "leg_too_tight": (
        "A leg {asked_measure_mm} round is too tight for the thigh: the option leg_width can be "
        "{least_measure_mm} or more."
    ),
    "measure_cannot_be": (
        "The {measure} of {given} cannot be right: it can be from {least_measure_mm} to "
        "{most_measure_mm}. Please measure it again."
    ),
    "measures_disagree": (
        "The {measure} of {measure_mm} does not belong to a {other} of {other_measure_mm}: "
        "between {low_measure_mm} and {high_measure_mm} can be drafted. Please measure both "
        "again."
    ),
    "no_such_draft": "There is no draft of “{typed}”; there are: {known}.",
    "garment_lacks_option": "{garment} has no option “{typed}”; it takes: {known}.",
    "option_between": "The option {option} can be from {least_measure_mm} to {most_measure_mm}.",
    "option_one_of": "The option {option} can be one of: {words}; not “{typed}”.",
    "shirt_too_short": (
        "A shirt {asked_measure_mm} long ends at the armhole: the option length can be "
        "{least_measure_mm} or more."
    ),
    "shorts_too_short": (
        "Shorts {asked_measure_mm} long end above the crotch line: the option length can be "
        "{least_measure_mm} or more."
    ),
    "skirt_too_short": (
        "A skirt {asked_measure_mm} long ends above the hips: the option length can be "
        "{least_measure_mm} or more."
    ),
    "sleeve_too_short": (
        "A sleeve {asked_measure_mm} long ends above the armpit: the option sleeve_length can be "
        "{least_measure_mm} or more."
    ),
    "too_short_at_underarm": (
        "A length of {asked_measure_mm} ends too near the underarm: at least {least_measure_mm} "
        "can be drafted."
    ),
    "tunic_too_short": (
        "A tunic {asked_measure_mm} long ends at the armhole: the option length can be "
        "{least_measure_mm} or more."
    ),
    "measure_meant": "“{typed}” is not a measurement that a draft uses; is {near} meant?",
    "no_such_measure": "“{typed}” is not a measurement that a draft uses; use one of {known}.",
    "measure": "{measure_mm}",
    "no_number": "no number",
    "measured": "{measure} {measure_mm}",
    "measure_needed": "{garment}: the {measure} is needed; please measure it.",
    "piece_cannot_be_drawn": (
        "{garment}: the piece “{piece}” cannot be drawn from {measures}. Please check these "
        "measurements and the options."
    ),
    "piece_cannot_be_drawn_so": (
        "{garment}: the piece “{piece}” cannot be drawn with these options. Please check them."
    ),
}
