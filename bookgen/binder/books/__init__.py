"""Sheet, booklet and passage pages: each a list of parts."""
