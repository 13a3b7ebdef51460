"""In what order a garment is sewn, and how two edges meet: each step common practice, no source."""

SENTENCES: dict[str, str | tuple[str, str]] = {
    "sew_prepare": (
        "Cut out with the notches snipped no deeper than half the allowance, and carry every mark "
        "over before the paper comes off."
    ),
    "sew_prepare_plain": (
        "Cut out along the line, and carry every mark over before the paper comes off."
    ),
    "sew_knit": (
        "Use a ball-point needle and a stitch that stretches; carry every mark over before the "
        "paper comes off."
    ),
    "sew_fuse": (
        "Fuse each piece of interfacing to the wrong side of the piece it is named after."
    ),
    "sew_panel_seams": "Sew the panel seams first, notch to notch, and press them open.",
    "sew_darts": (
        "Sew the darts from the edge to the tip and knot the threads; press waist darts to the "
        "centre and bust darts down."
    ),
    "sew_patch_pocket": (
        "Hem the top of each pocket, turn in its other edges, and stitch it where it is marked."
    ),
    "sew_side_pockets": (
        "Sew a pocket bag to front and back at each side, between the notches, and turn it in."
    ),
    "sew_sides": "Sew the side seams, a back’s double notches to a front’s single ones.",
    "sew_inside_legs": "Sew each inside leg from the crotch to the hem, notch to notch.",
    "sew_crotch": (
        "Put one leg into the other, right sides together, and sew the crotch seam in one, twice "
        "along the curve."
    ),
    "sew_crotch_to_fly": (
        "Put one leg into the other, right sides together, and sew the crotch seam from the back "
        "waist to the notch of the fly, twice along the curve."
    ),
    "sew_fly": (
        "Face the lapping front edge, set the zip to both fronts above the notch, stitch the lap "
        "through, and sew the shield behind."
    ),
    "sew_lining": (
        "Sew the lining as the garment; put it in, wrong sides together, and join it along the "
        "top edge. It is cut to the finished length: turn a narrow hem up, so that it hangs a "
        "little shorter than the garment."
    ),
    "sew_casing": (
        "Fold the casing down along its line and stitch it, a gap left open; draw the elastic in, "
        "join it flat, and close the gap."
    ),
    "sew_casing_band": (
        "Sew the band to the waist, side seams and centres meeting, fold it over and stitch it "
        "down, a gap left open; draw the elastic in and close the gap."
    ),
    "sew_waistband": (
        "Sew the band to the waist, notches to side seams and centres; close its ends, fold it "
        "over, stitch it down, and sew on the hook."
    ),
    "sew_waist_facing": (
        "Join the facings at the sides and finish their lower edge; sew them to the waist right "
        "sides together, stitch the allowances to the facing, turn it in, and catch it at the "
        "seams."
    ),
    "sew_hem_flat": "Turn the hem up by its allowance and stitch it.",
    "sew_hems": "Try it on; turn the hems up by their allowance and stitch them.",
    "sew_back_zip": "Sew the centre back below the notch and set the zip in above it.",
    "sew_vent": (
        "Sew the centre back as far as the corner of the vent and across its slanted top; fold "
        "the vent along the marked centre to one side, and turn its edges in."
    ),
    "sew_seams_and_zip": (
        "Sew the panels together, one seam only below its notch, and set the zip in above it."
    ),
    "sew_seams": "Sew the panels together.",
    "sew_pleats": (
        "Fold each pleat along its line to the line it leads to, press, and hold the pleats with "
        "a row of stitches along the top."
    ),
    "sew_gathers": (
        "Run two rows of long stitches along the edge that is marked to be gathered and draw them"
        " up to the length in the list."
    ),
    "sew_hang": "Let it hang for a day before the hem is measured.",
    "sew_shoulders": "Sew the shoulders.",
    "sew_eased_shoulders": "Sew the shoulders, easing the back onto the front.",
    "sew_taped_shoulders": "Sew the shoulders over a narrow tape, so that they do not stretch.",
    "sew_revere_collar": (
        "Finish the inner edge of the facings. Sew upper to under collar round the outer edge, "
        "turn and press it; sew it to the neck from centre to centre, then the facings over it, "
        "and turn them in."
    ),
    "sew_yoke": (
        "Sew the back between both yokes, then the fronts, and press the yokes up; stitch them "
        "along the seams."
    ),
    "sew_back_pleat": "Fold the pleat at the centre back and hold it along the top.",
    "sew_front_bands": "Sew a band to each front edge, fold it along its line and stitch it down.",
    "sew_stand_collar": (
        "Sew the two falls round their outer edge and turn them; sew the fall between the stands,"
        " the stand to the neck, and its inner side down."
    ),
    "sew_plackets": (
        "Slit each sleeve where it is marked, bind the edge to the back with the under lap and "
        "the front with the over lap."
    ),
    "sew_sleeves_flat": (
        "Sew each sleeve into its open armhole: the single notch in front, the double one behind,"
        " the top notch to the shoulder."
    ),
    "sew_sleeves_by_middle": (
        "Sew each sleeve to its armhole, the middle of the sleeve to the shoulder seam."
    ),
    "sew_sides_and_sleeves": (
        "Sew each side and sleeve in one seam, from the hem to the end of the sleeve."
    ),
    "sew_cuffs": (
        "Fold the pleats, sew the cuffs to the sleeves, close their ends, fold them over and "
        "stitch them down."
    ),
    "sew_buttons": "Work the buttonholes where they are marked and sew the buttons on opposite.",
    "sew_neck_facing": (
        "Join the facings at the shoulders and finish their outer edge; sew them to the neck right "
        "sides together, snip the curve, turn, and stitch the allowances to the facing."
    ),
    "sew_bound_neck": "Bind the neck with the bias strip.",
    "sew_armhole_facing": (
        "Join each armhole facing into a ring, sew it on right sides together, snip, turn, and "
        "stitch the allowances to it."
    ),
    "sew_set_in_sleeves": (
        "Close each sleeve, run an ease thread round its cap between the notches, draw it up to "
        "the armhole and set the sleeve in, top notch to the shoulder."
    ),
    "sew_open_zip": "Set an open-ended zip into the centre back and the hook above it.",
    "sew_skirt_sides": "Sew the skirt’s darts and its side seams.",
    "sew_waist_seam": (
        "Sew bodice to skirt at the waist, side seam to side seam, dart to dart where both have "
        "them."
    ),
    "sew_open_shoulder": (
        "Sew the right shoulder. Face the left front edge with one band; fold the other and sew "
        "it to the left back, to lap under."
    ),
    "sew_open_neckband": (
        "Fold the neckband, close its ends, and stretch it onto the neck from the front’s edge to"
        " the end of the lap; sew on the snaps."
    ),
    "sew_neckband": (
        "Close the neckband to a ring, fold it, mark quarters of band and neck, and stretch it "
        "evenly onto the neck."
    ),
    "sew_armhole_bands": "Stretch a folded band onto each armhole, quarter to quarter.",
    "sew_stretch_hems": "Turn the hems up and stitch them with a stitch that stretches.",
    "sew_neck_band": (
        "Join the band at the centre back, sew it to front edges and neck, fold it over and "
        "stitch it down."
    ),
    "sew_bound_front": "Bind the front edges and the neck.",
    "sew_belt_loops": "Fold and stitch the loops and pin one to each side where it is marked.",
    "sew_belt": "Join the belt, fold it lengthwise, sew and turn it.",
    "sew_slit_placket": (
        "Slit the front where it is marked and sew a placket strip to each edge, one to lap over "
        "the other."
    ),
    "sew_facing_ends": (
        "Cut the front facing through at its centre where it is marked, and turn its ends under "
        "beside the placket."
    ),
    "sew_faced_slit": (
        "Sew the facing round the slit that is marked, cut between the stitches, and turn it in."
    ),
    "sew_elastic_cuffs": "Turn a casing up at each sleeve, draw the elastic in, and close the gap.",
    "sew_apron_hemmed": "Hem the armholes narrowly, then the sides, the top and the foot.",
    "sew_apron_bound": "Bind the armholes, then hem the sides, the top and the foot.",
    "sew_apron_parts": "Hem the sides and the foot of the skirt, and the sides and top of the bib.",
    "sew_ties": (
        "Fold, sew and turn the ties and the neck loop, and sew them on where they are marked."
    ),
    "sew_tapes": (
        "Cut the tape into two ties and a neck loop, and sew them on where they are marked."
    ),
    "sew_apron_band": (
        "Sew the band to the gathered top, the ties into its ends, fold it over and stitch it "
        "down."
    ),
    "sew_bag_sides": (
        "Sew the two sides together along their sides and foot, and finish the raw edges."
    ),
    "sew_bag_top": "Turn the top down by its allowance and stitch it.",
    "sew_cord": "Leave a gap in the casing and draw the cord through.",
    "sew_handles": "Fold and stitch the handles and sew them inside the top with a crossed square.",
    "sew_handle_tapes": "Sew each handle of tape inside the top with a crossed square.",
    "sew_boxed_base": (
        "Lay each side seam on the foot seam and sew across the corner, as long as the base is "
        "deep."
    ),
    "sew_envelope": (
        "Hem the inner edge of both backs and lay them over each other on the front, right sides "
        "together."
    ),
    "sew_cushion_closure": (
        "Finish the opening first and leave it half open; lay front and back right sides "
        "together."
    ),
    "sew_cording": "Baste the covered cord round the front.",
    "sew_all_round": "Sew all round, clip the corners, and turn.",
    "sew_pillow_ends": "Hem both short ends.",
    "sew_pillow_folds": (
        "Fold along the marked lines, right sides together, sew both long sides and turn."
    ),
    "sew_curtain_widths": (
        "Join the drops of each curtain {seam_small_mm} from their edges, half drops outside, the "
        "print meeting."
    ),
    "sew_curtain_sides": "Turn the sides in twice, {turn_small_mm} each time, and stitch them.",
    "sew_curtain_hem": (
        "Turn the hem up by {hem_small_mm}, its raw edge turned in, and stitch it."
    ),
    "sew_curtain_casing": (
        "Turn the top edge in by {turn_small_mm}, fold it down by {down_small_mm}, and stitch a "
        "casing {casing_small_mm} deep, {header_small_mm} below the fold, open at both ends for "
        "the rod."
    ),
    "sew_curtain_tape": (
        "Turn the top down by {down_small_mm}, stitch the heading tape over its edge, and draw "
        "the cords to the width."
    ),
    "sew_curtain_tabs": (
        "Fold and sew the tabs, space them evenly along the top, and sew the facing over "
        "them {seam_small_mm} from the edge."
    ),
    "sew_wrap_uncut": "Cut the ends along a thread; the edges stay as they are.",
    "sew_wrap_ends": "Turn both ends in twice and stitch them.",
    "sew_wrap_all_round": "Turn all four edges in twice, the corners mitred, and stitch them.",
    "sew_finish_press": (
        "Finish the raw edges of every seam, and press it before another crosses it. An iron burns "
        "and steam scalds: keep children away from both."
    ),
    "sew_press": (
        "Press every seam before another crosses it. An iron burns and steam scalds: keep "
        "children away from both."
    ),
    "drawn_for": "Drawn for: {measures}.",
    "drawn_by_table": "Read from a table of bodies, so measure before you cut: {measures}.",
    "takes_woven": "Woven cloth, best of {least_gsm} to {most_gsm}.",
    "takes_any_knit": "Knitted cloth, best of {least_gsm} to {most_gsm}.",
    "takes_knit": (
        "Knitted cloth that stretches {stretch_pct} across or further, best of {least_gsm} to "
        "{most_gsm}."
    ),
    "takes_notion": "{thing}: {amount} ({place})",
    "takes_notion_sized": "{thing}: {amount}, {sized} ({place})",
    "seam_eased": "ease in {ease_small_mm}",
    "seam_stretched": "stretch the {part}",
    "seam_drawn_up": "gather or pleat the {part}",
    "notches_single": "notch to notch",
    "notches_double": "double notch to double notch",
    "notches_double_to_single": "double notch to single notch",
}
