"""Kinds of work: each turns site notes into plans of work, in the engine's words."""
