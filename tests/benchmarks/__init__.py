"""Speed, by hand: `python -m tests.benchmarks.speed`. Never part of the test run."""
