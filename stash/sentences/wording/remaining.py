"""Why there is so much of a cut, line by line."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "left_came_in": "{length_mm} put on record {on}",
    "left_cut_off": "{length_mm} cut off {on}",
    "left_cut_out": "{length_mm} cut out {on}",
    "left_cut_out_for": "{length_mm} cut {on} for “{plan}”",
    "left_wash_lost": "{length_mm} lost in the wash {on}",
    "left_measured": "{length_mm} less when it was measured {on}",
    "left_measured_more": "{length_mm} more when it was measured {on}",
    "left_bitten": "a part of its width cut away {on}",
    "left_given": "{length_mm} given away {on}",
    "left_sold": "{length_mm} sold {on}",
    "left_thrown": "{length_mm} thrown away {on}",
    "left_joined": "{length_mm} joined to another cut {on}",
    "left_changed": "{length_mm} changed {on}",
    "bin_came_in": "{much} came in {on}",
    "bin_taken": "{much} taken {on}",
    "bin_taken_for": "{much} taken {on} for “{plan}”",
    "bin_put_in": "{much} put in {on}",
    "bin_counted_more": "{much} more when it was counted {on}",
    "bin_counted_less": "{much} less when it was counted {on}",
    "bin_given": "{much} given away {on}",
    "bin_thrown": "{much} thrown away {on}",
    "bin_changed": "{much} changed {on}",
    "enough_yes": "Yes: {needed_length_mm} of it is enough, {spare_length_mm} to spare.",
    "enough_no": "No: {needed_length_mm} of it is needed, {short_length_mm} more than that.",
    "enough_not_known": (
        "No lay is known on cloth so narrow; the narrowest known takes {least_width_mm}."
    ),
    "rag_area": "Too small to keep: {area_mm2} of rag.",
    "rag_weighs": "Too small to keep: {area_mm2} of rag, about {mass_g} g.",
    "whole_of": "{whole_length_mm} x {whole_width_mm} in one piece, of {length_mm} x {width_mm}",
}
