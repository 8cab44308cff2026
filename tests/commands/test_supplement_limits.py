"""What a spec limits or chooses for its books: difficulty, size, number; read in plan and page."""

import json
from pathlib import Path

import pytest
from kit.book_text import pages
from kit.shell import bookgen, refused

from bookgen.model.drill import Drill
from bookgen.planner.difficulty import difficulty
from bookgen.readers.instrument import read_instrument
from bookgen.readers.weights import read_weights

SPEC = """
title = "Limits"
size = "3/4"
isbn.violin-en-student = "9780306406157"
[[chapter]]
title = "One"
hands = ["12", "34"]
positions = ["1st", "5th"]
stages = [1, 3, 5]
returns = ["mirror"]
"""


def made(spec: str) -> tuple[dict[str, object], list[str]]:
    """The plan of a book and its pages."""
    Path("book.toml").write_text(spec, encoding="utf-8")
    outcome = bookgen("supplement", "book.toml", "--plans", ".", "--quiet")
    assert (outcome.code, outcome.err) == (0, "")
    plan = json.loads(Path("book-violin-en-student.json").read_text(encoding="utf-8"))
    return plan, pages(Path("output/book-violin-en-student.pdf").absolute())


def keys(plan: dict[str, object]) -> set[str]:
    return {entry["key"] for entry in plan["drills"]}  # type: ignore[attr-defined]


def test_a_chapter_has_every_drill_within_its_limits_and_no_other() -> None:
    every, _ = made(SPEC)
    some, read = made(SPEC + "difficulty = [2, 5.5]\n")
    violin, effort = read_instrument("violin"), read_weights().effort

    hard = {key: difficulty(Drill.parse_key(key), violin, effort) for key in keys(every)}
    assert keys(some) == {key for key, one in hard.items() if 2 <= one <= 5.5}
    assert 0 < len(keys(some)) < len(hard)
    assert every["size"] == "3/4"
    assert any("Violin 3/4" in page and "307 mm" in page for page in read), "the fingerboard"
    pages.cache_clear()


def test_the_number_of_an_edition_stands_behind_its_title() -> None:
    _, read = made(SPEC)
    (at,) = (at for at, page in enumerate(read) if "ISBN 978-0-306-40615-7" in page)
    assert "Violin" in read[at - 1]
    assert at % 2 == 1, "a left-hand page"
    pages.cache_clear()


@pytest.mark.parametrize("limit", ["0.5", "[90, 95]"])
def test_a_limit_that_leaves_nothing_names_what_there_is(limit: str) -> None:
    Path("book.toml").write_text(SPEC + f"difficulty = {limit}\n", encoding="utf-8")
    said = refused("supplement", "book.toml", "--quiet")
    assert "book.toml, line 11, chapter 1, difficulty: none of the drills for violin is" in said
    assert "give a limit between 1.0 and " in said
