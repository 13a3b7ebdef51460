"""Pieced: a piece cut in parts where the trade hides a seam, so that it comes out after all."""
