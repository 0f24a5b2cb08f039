"""The kinds of work, a folder each; the registry finds them here."""
