"""Problems told once, with all their bars."""

import pytest

from bookgen.errors import told
from bookgen.readers.score.findings import Remarks, place_of


def test_one_line_for_each_problem_in_the_order_of_the_bars() -> None:
    remarks = Remarks("song.xml")
    for bar in ("1", "1", "2", "3"):
        remarks.add(bar, told("too high"), told("play it lower"))
    remarks.add("2", told("too low"), told("play it higher"))

    assert [str(finding) for finding in remarks.findings()] == [
        "song.xml, bars 1\u20133: too high; play it lower.",
        "song.xml, bar 2: too low; play it higher.",
    ]


@pytest.mark.parametrize(
    ("bars", "words"),
    [
        ("7", "bar 7"),
        ("7 8", "bars 7, 8"),
        ("7 8 9", "bars 7\u20139"),
        ("0 1 2 5 12a 13", "bars 0\u20132, 5, 12a, 13"),
        ("12 12a 13", "bars 12, 12a, 13"),
        (" ".join(str(bar) for bar in range(0, 60, 2)),
         "bars 0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22 and 18 more"),
    ],
)  # fmt: skip
def test_bars_in_words(bars: str, words: str) -> None:
    assert str(place_of("song.xml", bars.split())) == f"song.xml, {words}"
