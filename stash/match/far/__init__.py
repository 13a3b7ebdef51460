"""As far as it goes: how long, how wide, how full, how many a cut of cloth allows."""
