"""Wallcovering to take down and to hang."""
