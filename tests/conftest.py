"""What all tests share: property tests without a clock, for machines of any speed."""

import gc
import os
from importlib.util import find_spec

from hypothesis import settings

settings.register_profile("bookgen", deadline=None, max_examples=40)
settings.register_profile("ci", settings.get_profile("bookgen"), derandomize=True)
"""In CI the same examples each time: what failed there fails here too; chance looks at home."""

settings.load_profile("ci" if "CI" in os.environ else "bookgen")  # noqa: TID251

collect_ignore = [] if find_spec("ortools") else ["benchmarks"]
"""The benchmarks need their own extra; they are run by hand, only their examples are tests."""

gc.set_threshold(100_000, 50, 100)
"""Walks over all that the reference libraries hold cost a tenth of the time."""
