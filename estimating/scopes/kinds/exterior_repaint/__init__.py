"""Exterior repaint: siding and trim from the tape, failing paint made ready by its share, coats by hand or sprayed."""
