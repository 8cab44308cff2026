"""The block of a drill: number, boxes, words, chart and music."""
