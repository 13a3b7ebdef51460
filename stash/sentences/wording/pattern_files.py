"""What is said of pattern files and tables that cannot be used."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "several_sizes": (
        "The drawing holds several sizes ({known}): please say which, or for whom it is."
    ),
    "no_such_size": "The drawing has no size “{typed}”; it has: {known}.",
    "not_a_size_row": (
        "“{typed}” does not say whom a size is for: write it like “38: bust 88 cm, hip 94 cm”."
    ),
    "sizes_named_alike": (
        "Give each size a name of its own and the pattern it is: “38=tunic small”."
    ),
    "size_table_wanted": (
        "Nothing says whom the sizes {known} are for: please type a line for each, such as “38: "
        "bust 88 cm, hip 94 cm”, or say which size."
    ),
    "size_chosen": "Size {size} was taken for {person}, who measures beside it: {changes}.",
    "choose_more_sizes": "Choose at least one other pattern that is the same in another size.",
    "drag_a_point_first": "Drag a point of the outline first, or type where it is.",
    "point_at_what": "Please say what it is that you point at: a fold, the grain, a line, a notch.",
    "no_such_pattern_piece": "The pattern has no such piece any more; please open its page again.",
    "not_a_place": (
        "“{typed}” is no place on a piece: write it like “12cm down 3cm across”, from its top and "
        "its left side."
    ),
    "mark_off_piece": "That place does not lie on the piece “{piece}”.",
    "printed_for_width": "Estimate: printed for {listed_width_mm} cloth.",
    "printed_for_narrower": (
        "Estimate: printed for {listed_width_mm} cloth, which wider cloth always covers."
    ),
    "converted_from_width": (
        "Estimate: {length_mm} of {listed_width_mm} cloth, converted to this narrower width by "
        "the usual chart; wide pieces may still not fit."
    ),
    "no_such_paper": "Print on one of: {papers}; not on “{typed}”.",
    "dxf_damaged": "This DXF file is damaged and cannot be read; save it again.",
    "dxf_point_not_number": "This DXF file has a point that is not a number; save it again.",
    "dxf_too_large": "This DXF file is larger than 20 MB; save only the pattern pieces.",
    "dxf_too_many_points": "This DXF file holds more points than any pattern; save it plainer.",
    "dxf_units_wanted": (
        "This DXF file does not say in which units it is drawn; give them with --units mm, "
        "--units cm or --units in."
    ),
    "file_empty": "This file is empty.",
    "fold_not_on_edge": (
        "The fold line of “{piece}” does not lie on the edge of the piece, so it cannot be opened"
        " out."
    ),
    "grain_along_what": "The grain runs along the longest axis or the sheet, not “{typed}”.",
    "grain_upright_or_level": "The grain runs upright or level in the file, not “{typed}”.",
    "neither_svg_nor_dxf": (
        "This is neither an SVG nor a DXF file; save the pattern as one of these."
    ),
    "no_closed_shape": "There is no closed shape in it, so there is no piece to cut.",
    "no_pieces_to_print": "There are no pieces to print.",
    "not_a_file_unit": "“{typed}” is not a unit: use mm, cm or in.",
    "not_a_table_row": "“{typed}” is not a row of the table: write it like 114cm=2.5m.",
    "not_dxf": "This is not a DXF file.",
    "not_svg": "This is not an SVG file.",
    "shape_crosses_itself": "{shape} crosses itself, so its inside is not clear; mend its outline.",
    "shape_not_numbers": "{shape} has a point that is not a number; please save the file again.",
    "shape_of_two_points": "{shape} has fewer than three points, so it encloses nothing.",
    "shape_too_large": (
        "{shape} would be {across_length_mm} long: the units of the file are probably not these; "
        "give them with --units mm, cm or in."
    ),
    "shape_too_small": (
        "{shape} has an area of {area_mm2} mm², too small for a pattern piece; check the units of"
        " the file."
    ),
    "svg_damaged": "This SVG file is damaged and cannot be read; save it again.",
    "svg_empty": "This SVG file is empty.",
    "svg_garbled": "This is not a sound SVG file: it breaks off or is garbled at line {line}.",
    "svg_nested_too_deep": "The groups of this SVG file are nested too deep; ungroup them.",
    "svg_repeats_itself": "A shape of this SVG file repeats itself without end.",
    "svg_repeats_too_often": "This SVG file repeats its shapes too often; save it plainer.",
    "svg_size_unknown": (
        "This SVG file does not say how large it is on paper ({said}): pixels have no fixed size,"
        " programs count 72, 90 or 96 to an inch. Save it with its width and height in mm, or say"
        " what one unit is with --units mm, cm or in."
    ),
    "svg_too_large": "This SVG file is larger than 10 MB; save only the pattern pieces.",
    "svg_too_many_points": "This SVG file holds more points than any pattern has.",
    "svg_too_many_shapes": "This SVG file holds more shapes than any pattern; save it plainer.",
    "svg_with_entities": "This SVG file declares entities of its own; save it as plain SVG.",
    "table_needs_rows": "A width table needs rows of a cloth width and the length it takes.",
    "table_too_narrow": (
        "Cloth {width_mm} wide is too narrow to estimate from the table, whose narrowest width is"
        " {narrowest_width_mm}; add the pieces instead."
    ),
    "table_wider_needs_more": "A wider cloth cannot need more length; check the table's rows.",
    "table_width_twice": "A cloth width stands twice in the table.",
    "too_many_pages": (
        "These pieces would take {pages} pages; save the SVG and have it plotted on a roll "
        "instead."
    ),
    "too_many_shapes": "It holds {shapes} shapes; a pattern has at most {most}.",
    "no_closed_line_in_blocks": "Its blocks hold no closed line on layer 1.",
    "grain_taken_along_x": (
        "No grainline is drawn, so the x axis of the file was taken as the grain: where it is not, "
        "turn the piece; on its page, point at an edge along which the grain runs."
    ),
    "page_frame_left_out": "The frame around the page was left out.",
    "grain_taken_down_page": (
        "The grain was taken to run down the page: where it does not, turn the piece; on its page, "
        "point at an edge along which the grain runs."
    ),
    "half_opened_out": (
        "“{piece}” says that it is cut on the fold: it was opened out about its longest straight "
        "edge, so check that this is the fold."
    ),
    "fold_not_drawn": (
        "“{piece}” says that it is cut on the fold, but no fold line is drawn: it was taken as it "
        "is, so check whether it is only half the piece."
    ),
}
