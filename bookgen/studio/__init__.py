"""What a studio keeps: which drills were printed for whom, and what became of them."""
