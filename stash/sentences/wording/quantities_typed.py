"""What is said of a quantity that was typed and cannot be used."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "not_a_length": "“{typed}” is not a length that can be used: write for example {example}.",
    "unit_wanted": "“{typed}” needs its unit, for example {example}.",
    "centimetres_or_metres": "Is that {typed} cm or {typed} m? Write the unit behind the number.",
    "not_a_size": "“{typed}” is not a size: write length x width.",
    "not_a_mass": "“{typed}” is not a weight of cloth: write 180 g/m2 or 5 oz/yd2.",
    "no_cloth_weighs": "{mass_gsm} is not a weight cloth can have.",
    "not_a_count": "“{typed}” is not a number of {of}: write a whole number.",
    "divides_by_nothing": "“{typed}” divides by nothing.",
    "not_a_colour": "“{typed}” is not a colour: write # and six figures, for example #7a1f2b.",
    "not_a_percentage": "“{typed}” is not a percentage: write for example 5.",
    "not_a_price": "“{typed}” is not a price: write it like 18.50.",
}
