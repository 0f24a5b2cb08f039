"""From plans to lines, order, days and price."""
