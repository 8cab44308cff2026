"""What all tests share: property tests without a clock, and what was once engraved."""

import gc
import os
from collections.abc import Iterator
from importlib.util import find_spec

import pytest
from hypothesis import settings

settings.register_profile("bookgen", deadline=None, max_examples=40)
settings.register_profile("ci", settings.get_profile("bookgen"), derandomize=True)
"""In CI the same examples each time: what failed there fails here too; chance looks at home."""

settings.load_profile("ci" if "CI" in os.environ else "bookgen")  # noqa: TID251

collect_ignore = [] if find_spec("ortools") else ["benchmarks"]
"""The benchmarks need their own extra; they are run by hand, only their examples are tests."""

gc.set_threshold(100_000, 50, 100)
"""Walks over all that the reference libraries hold cost a tenth of the time."""


@pytest.fixture(scope="session", autouse=True)
def _cache_of_the_session(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """No test finds what the user has kept; what one test engraves the others need not."""
    folder = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:  # noqa: TID251  each has a folder beside the others
        folder = folder.parent
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(folder / "cache"))
        yield
