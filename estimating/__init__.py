"""Estimating for repaint and wallcovering work: measurements in, a price with its range and reasons out."""
