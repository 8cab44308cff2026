"""A chapter that leads to bars of a piece: read back from page and plan."""

import json
import re
from pathlib import Path

import pytest
from kit.book_text import labels, pages, spread
from kit.shell import bookgen, refused

AIR = """
title: Harbour air
composer: T. Harbour
key: G major
meter: 3/4
bar: 12

{D4:8 E4 F#4} G4:8. A4:16 B4:8 |
G4+B4:4 D5+B5 G5:8 F#5 |
C#5:8 E5 A5 G5 Bb4 D5 |
E5+C6:2 D5:4 |
"""
SPEC = """
title = "Towards an air"
instruments = ["violin", "viola"]
{top}

[[chapter]]
title = "Pairs"
hands = ["12"]
positions = ["1st"]
stages = [1, 3]
returns = ["mirror"]

[[chapter]]
title = "The air"
text = "By the water."
take = "passage"
file = "air.passage"
instruments = ["violin"]
"""


def write(top: str = "", more: str = "", air: str = AIR) -> None:
    Path("air.passage").write_text(air, encoding="utf-8")
    Path("book.toml").write_text(SPEC.format(top=top) + more, encoding="utf-8")


def made() -> tuple[list[str], list[str], dict[str, object]]:
    """Pages of the violin's book, their labels, and its plan."""
    outcome = bookgen("supplement", "book.toml", "--plans", ".", "--quiet")
    assert (outcome.code, outcome.err) == (0, "")
    file = Path("output/book-violin-en-student.pdf").absolute()
    pages.cache_clear()
    plan = json.loads(Path("book-violin-en-student.json").read_text(encoding="utf-8"))
    return pages(file), labels(file), plan


def test_a_chapter_shows_its_bars_and_leads_to_their_hard_spots() -> None:
    write()
    read, called, plan = made()
    chapter = plan["binding"]["supplement"]["chapters"][1]  # type: ignore[index]
    numbers = set(chapter["numbers"])
    begin = next(at for at, page in enumerate(read) if "Chapter 2" in page)
    opening = read[begin]

    assert called[begin] == str(int(called[begin])), "an Arabic number"
    assert begin % 2 == 0, "a right-hand page"
    assert "By the water." in opening
    assert "Harbour air" in opening
    assert "bars 12–15" in opening  # noqa: RUF001
    spots = re.findall(r"first ([\d, ]+)(?:\n|, not all met)", opening)
    assert len(spots) == int(re.findall(r"(\d) hard spots", opening)[0])
    named = {number for spot in spots for number in spread(spot)}
    assert numbers <= named
    assert named <= {entry["number"] for entry in plan["drills"]}  # type: ignore[attr-defined]
    over = r"^(\d+)\s(?:\d and \d|\d(?: \d)+), "
    printed = {int(one) for page in read for one in re.findall(over, page, re.MULTILINE)}
    assert numbers <= printed

    assert bookgen("bind", "book-violin-en-student.json", "--out", "again.pdf", "--quiet").code == 0
    assert Path("again.pdf").read_bytes() == Path("output/book-violin-en-student.pdf").read_bytes()
    other = json.loads(Path("book-viola-en-student.json").read_text(encoding="utf-8"))
    assert len(other["binding"]["supplement"]["chapters"]) == 1, "not written for the viola"


def test_the_drills_have_the_names_of_the_piece() -> None:
    write(air=AIR.replace("G major", "Db major").replace("F#", "Gb").replace("C#", "Db"))
    _, _, plan = made()
    chapter = plan["binding"]["supplement"]["chapters"][1]  # type: ignore[index]
    names = {
        stop["pitch"]
        for entry in plan["drills"]  # type: ignore[attr-defined]
        if entry["number"] in chapter["numbers"]
        for event in entry["events"]
        for stop in event["stops"]
    }
    assert "Db5" in names
    assert "C#5" not in names


@pytest.mark.parametrize(
    ("top", "more", "said"),
    [
        ("", 'bars = "90-91"', "book.toml, line 17, chapter 2, file: air.passage"),
        ("", 'prefer = "loud"', "line 19, chapter 2, prefer: 'loud' is no preference"),
        ("", "spots = 0", "line 19, chapter 2, spots: 0 is no number of hard spots"),
        ("", 'hands = ["12"]', "line 19, chapter 2, hands: the drills of this chapter are not"),
        ("", "difficulty = 3", "line 19, chapter 2, difficulty: the drills of this chapter are"),
        ("", 'drills = ["x"]', "chapter 2, drills: "),
        ("", '[[chapter]]\ntitle = "x"\nbars = "1-2"', "chapter 3, bars: the chapter leads to no"),
        ("", '[[chapter]]\ntitle = "x"\ntake = "passage"', "chapter 3, file: the chapter has no"),
    ],
)
def test_what_is_wrong_names_file_chapter_and_line(top: str, more: str, said: str) -> None:
    write(top, more)
    outcome = bookgen("supplement", "book.toml", "--quiet")
    assert outcome.code == 2
    assert said in outcome.err
    assert not Path("output").exists()


def test_a_file_that_is_not_there_is_told_and_one_that_is_is_never_written_over() -> None:
    write()
    Path("air.passage").unlink()
    said = refused("supplement", "book.toml", "--quiet")
    assert "book.toml, line 17, chapter 2, file: air.passage" in said
    write()
    before = Path("air.passage").read_bytes()
    assert bookgen("supplement", "book.toml", "--plans", "air.passage", "--quiet").code != 0
    assert Path("air.passage").read_bytes() == before


def test_the_commented_chapter_of_the_spec_to_begin_with_is_sound() -> None:
    assert bookgen("new-supplement", "here").code == 0
    text = Path("here/supplement.toml").read_text(encoding="utf-8")
    rest = text[text.index("# [[chapter]]") :]
    keys = re.sub(r"^# (\[\[chapter\]\]|[a-z.]+ = )", r"\1", rest, flags=re.MULTILINE)
    keys = keys.replace("minuet.musicxml", "air.passage").replace("5-8", "12-15")
    keys = keys.replace('part = "Violin I"', "")
    spec = text[: text.index("# [[chapter]]")] + keys
    Path("here/supplement.toml").write_text(spec, encoding="utf-8")
    Path("here/air.passage").write_text(AIR, encoding="utf-8")

    outcome = bookgen(
        "supplement", "here/supplement.toml", "--only", "violin-de-student", "--quiet"
    )
    assert (outcome.code, outcome.err) == (0, "")
    (file,) = Path("here/output").iterdir()
    pages.cache_clear()
    assert any("Ein Menuett" in page and "Harbour air" in page for page in pages(file.absolute()))
