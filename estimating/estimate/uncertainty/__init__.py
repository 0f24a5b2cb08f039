"""Ranges of every figure, what drives them, and the risk of a price."""
