"""Benchmarks, by hand: `python -m tests.benchmarks.speed`. Never part of the test run."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))  # the tests' helpers, as pytest finds them
