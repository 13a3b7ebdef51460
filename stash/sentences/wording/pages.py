"""What is said where a page has nothing to show."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "card_forms": "The card comes as HTML or PDF.",
    "list_not_ready": "The list is not ready yet.",
    "no_certificate_yet": "There is no certificate yet: start with --share --https once.",
    "no_lay_yet": "There is no lay yet: the search has only begun.",
    "pattern_forms": "A pattern can be saved as SVG, DXF or PDF.",
    "say_what_label_is_on": "Say what the label is on: a cut, a bin or a place.",
    "say_whom_drafted": "Say first for whom it is drafted.",
    "search_not_ended": "The search has not ended yet; hold the lay when it has.",
}
