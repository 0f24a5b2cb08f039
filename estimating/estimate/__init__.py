"""From take-off to price: figures joined by rules, whatever the kind of job."""
