"""Textured ceilings of doubtful history."""
