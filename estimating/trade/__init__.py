"""Rules of the trade: pure functions of plain numbers, one topic a module. Nothing here reads a file."""
