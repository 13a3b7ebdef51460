"""Which cuts make some garments: sifted, screened, laid, searched and put in order."""
