"""Methods compared, scenarios, break-evens and what a test is worth."""
