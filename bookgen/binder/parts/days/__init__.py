"""The plan of days, which is also the log."""
