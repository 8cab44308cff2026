"""Problems told once, with all their bars."""

import pytest

from bookgen.readers.score_findings import Told, bars_named


def test_one_line_for_each_problem_in_the_order_of_the_bars() -> None:
    told = Told("song.xml")
    for bar in ("1", "1", "2", "3"):
        told.add(bar, "too high", "play it lower")
    told.add("2", "too low", "play it higher")

    assert [str(finding) for finding in told.findings()] == [
        "song.xml, bars 1 to 3: too high; play it lower.",
        "song.xml, bar 2: too low; play it higher.",
    ]


@pytest.mark.parametrize(
    ("bars", "words"),
    [
        ("7", "bar 7"),
        ("7 8", "bars 7, 8"),
        ("7 8 9", "bars 7 to 9"),
        ("0 1 2 5 12a 13", "bars 0 to 2, 5, 12a, 13"),
        ("12 12a 13", "bars 12, 12a, 13"),
        (" ".join(str(bar) for bar in range(0, 60, 2)),
         "bars 0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22 and 18 more"),
    ],
)  # fmt: skip
def test_bars_in_words(bars: str, words: str) -> None:
    assert bars_named(bars.split()) == words
