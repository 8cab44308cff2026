"""The page as such: type, canvas, head and foot, one flow, boxes and marks, the fold."""
