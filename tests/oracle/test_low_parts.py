"""Whole cello parts and bass lines: solved whole, within the hand, written as music21 reads them.

The whole table: `tests/benchmarks/low_parts.py`.
"""

from pathlib import Path

import pytest
from kit.low_parts import whole

from bookgen.readers.instrument import read_instrument

SAMPLE = [
    ("haydn/opus1no1/movement1.mxl", "cello"),
    ("haydn/opus74no1/movement3.mxl", "cello"),
    ("mozart/k156/movement2.mxl", "cello"),
    ("mozart/k155/movement1.mxl", "double_bass_low_c"),
    ("mozart/k156/movement3.mxl", "double_bass"),
    ("mozart/k156/movement3.mxl", "double_bass_134"),
]


@pytest.mark.published("music21 10.5, its corpus of quartets; hands after teachers and methods")
@pytest.mark.parametrize(("name", "key"), SAMPLE)
def test_a_whole_part_is_solved_and_written(name: str, key: str, tmp_path: Path) -> None:
    found = whole(name, read_instrument(key), tmp_path)
    assert found.passage.best.unplayable == ()
    assert found.outside == []
    assert found.false == []
    assert found.differing == []
