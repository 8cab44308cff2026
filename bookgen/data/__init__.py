"""Data of the package: instruments, wording, engraving style. Not code."""
