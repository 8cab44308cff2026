"""From hard bars to the hands they need and the drills that lead there; pure."""
