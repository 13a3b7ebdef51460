"""What is said of a file from elsewhere that cannot be read, or costs too much to read."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "reading_busy": "Several files are being read at this moment. Please try again in a minute.",
    "reading_stopped": "Reading the file was stopped; nothing was taken from it.",
    "file_takes_too_long": (
        "This file was not read within a second, so it was given up; save it plainer.",
        "This file was not read within {count} seconds, so it was given up; save it plainer.",
    ),
    "file_takes_too_much": (
        "This file takes far more memory than one of its kind should, so it was given up; save it "
        "plainer."
    ),
    "foreign_file_damaged": "This file is damaged and cannot be read; save it again.",
    "picture_empty": "This photograph is empty: take or send it again.",
    "picture_too_many_bytes": (
        "This file has {size_mb} MB; photographs up to {most_mb} MB can be read. Send a smaller "
        "one."
    ),
    "picture_too_many_pixels": (
        "This picture has {megapixels} million pixels; up to {most_megapixels} million can be "
        "read. Send a smaller one."
    ),
    "not_a_picture": (
        "This file is not a photograph that can be read. Please send a JPEG, PNG or WebP."
    ),
    "picture_damaged": "This photograph is damaged or was cut short: take or send it again.",
}
