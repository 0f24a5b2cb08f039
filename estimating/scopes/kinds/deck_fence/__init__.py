"""Decks and fences: wood outdoors with gaps in it, washed, stripped or sanded, dried, and stained clear to solid."""
