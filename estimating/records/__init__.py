"""The records: one file of jobs, estimates as sent, prices with dates and what the work really took.

Plain data goes in and comes out; nothing here prices, learns or decides.
"""
