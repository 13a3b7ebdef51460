"""What is said of bodies and options from which nothing can be drafted."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "not_a_body": "A body is one of {bodies}, not “{typed}”.",
    "not_a_body_measure": "{given_measure_mm} cannot be the {measure} of a person.",
    "measure": "{measure_mm}",
    "measured": "{measure} {measure_mm}",
}
