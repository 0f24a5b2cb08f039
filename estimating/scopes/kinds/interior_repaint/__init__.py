"""Rooms to repaint."""
