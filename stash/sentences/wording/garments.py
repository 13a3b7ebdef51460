"""What a garment is called in a sentence; its title stands on its page."""

GARMENTS: dict[str, str] = {
    "a-line-skirt": "A-line skirt",
    "apron": "apron",
    "circle-skirt": "circle skirt",
    "curtain": "curtain",
    "dress": "dress",
    "cushion-cover": "cushion cover",
    "fitted-bodice": "bodice",
    "gathered-skirt": "gathered skirt",
    "knit-top": "knit top",
    "leggings": "leggings",
    "nightshirt": "nightshirt",
    "pillowcase": "pillowcase",
    "pleated-skirt": "pleated skirt",
    "robe": "robe",
    "shirt": "shirt",
    "shorts": "shorts",
    "straight-skirt": "straight skirt",
    "tote-bag": "tote bag",
    "trousers": "trousers",
    "tunic": "tunic",
    "wrap": "wrap",
    "yoke-shirt": "shirt with yoke",
}

FOR_PERSON = "{garment} for {person}"

SENTENCES: dict[str, str | tuple[str, str]] = {
    "garment_for_person": FOR_PERSON,
}
