"""What is said of files that cannot be read as they are."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "file_cannot_be_opened": "This file cannot be opened ({because}).",
    "file_fails": "“{file}” cannot be read: {because}.",
    "file_not_json": "“{file}” is not JSON; please check the file.",
    "file_too_large": "“{file}” is larger than {most_mb} MB.",
    "file_unreadable": "“{file}” cannot be read; please check the name.",
    "json_beyond": "{whose} has a value beyond a kilometre: {typed}.",
    "json_holes": "“holes_mm” must be a list of outlines.",
    "json_not_number": "{whose} has a value that is not a plain number: {typed}.",
    "json_outline": "{whose} needs an outline of at least three [x, y] points.",
    "json_piece_form": "Piece {number} is not written as an object with a name and outline.",
    "json_piece_name": "The name of piece {number} must be text.",
    "json_point": "{whose} has a point that is not a pair [x, y].",
    "json_quantity": "The quantity of “{piece}” must be a whole number, not {typed}.",
    "json_turns": "The turns of “{piece}” must be a list of 1 to 16 angles in degrees.",
    "json_without_outline": "The outline file needs a list “outline_mm” of points [x, y].",
    "json_without_pieces": "The file has no pieces: it needs a list “pieces” with at least one.",
    "pieces_file_too_large": "“{file}” is too large to be a list of pieces.",
}
