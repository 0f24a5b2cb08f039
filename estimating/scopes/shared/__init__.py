"""The operations every kind of work uses, each once. Nothing here knows a kind of work."""
