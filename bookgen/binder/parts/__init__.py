"""What stands in books: drill blocks, charts, the plan of days, words at the front, answers."""
