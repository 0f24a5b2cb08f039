"""New drywall: board that was never painted, from its finish level to primer and finish coats."""
