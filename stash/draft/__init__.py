"""Garment drafts: from body measurements to a pattern, one file a garment.

A garment's file tells its steps as they are followed with a pencil, and ends in a
``GARMENT``: what it asks for, its options, its ``draft``. ``catalogue`` finds it by name.

    body, body_table        measured and estimated measurements
    geometry                points, lines, curves
    leg, bodice, sleeve, revere, skirt_block, straight_block      construction shared by garments
    fitted_block, bust_dart, waist_darts, set_in_sleeve           the fitted bodice and its sleeve
    edge_facing, waist_facing, lining    a facing drawn from an edge, and the garment again
    yoke, stand_collar, cuffed_sleeve    a shirt's parts
    dress_skirt, full_skirt, pleats      skirts drawn to a waist, gathered and pleated
    knit_ease               what a cloth's stretch takes off
    panel, cutting_line     named edges, allowances, notches: the piece that is cut
    darts, pockets, sewing, cloth_wants, cautions                 what goes with it
    soundness               the last look before a pattern is handed on

To add a garment: write its file, name it in ``catalogue.MODULES``, and the tests for
every garment (real bodies, any option) find it by themselves.
"""
