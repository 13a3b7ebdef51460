"""What stands on the card to take to the shop."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "band_drawn_true": "{size} wide, drawn true",
    "bolt_too_narrow": "too narrow",
    "bolt_width": "bolt width",
    "button_across": "{diameter_mm} across, buttonhole {buttonhole_mm}",
    "card_notions": "Notions",
    "cloth_for": "Cloth for {what}",
    "lay_a_bank_card": (
        "Lay a bank card along the bar and move the slider until the bar is as long as the card "
        "({long}). On paper the bar must measure {long}."
    ),
    "length_to_buy": "buy",
    "make_drawings_true": "Make the drawings true",
    "nothing_to_buy": "There is nothing to buy.",
    "round_drawn_true": "{diameter_mm}, drawn true",
    "size_of_drawings": "Size of the drawings",
    "snap_across": "{diameter_mm} across",
    "card_to_match": "to match",
    "swatch_of": "{name}: {colour}",
    "what_it_costs": "costs",
}
