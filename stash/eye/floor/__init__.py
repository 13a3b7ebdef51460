"""The floor as a photograph shows it: the picture, the sheets in it, and the plan from above."""
