"""Rolls, layout, cutting, removal and hanging of wallcovering."""
