"""The way back: an estimate is kept as it was sent, what the work really took is laid beside it, and rates are learned.

Here the workbook meets its records. Nothing is shown here and nothing is decided: the desk does the one, the
contractor the other.
"""
