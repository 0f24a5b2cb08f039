"""The job as it was found on site: typed, frozen, with what is not known kept apart from what is nothing."""
