"""A complete book from its spec: what its pages say is read back from the finished file."""

import json
import re
from pathlib import Path

import pytest
from kit.book_text import DASH, drills_on, labels, pages, spread, unbroken
from kit.shell import bookgen, refused
from kit.supplements import books_in

from bookgen.model.drill import Drill

SPEC = """
title = "Close Fingers"
author = "Harbour Lane Strings"
imprint = "All rights reserved."
instruments = ["violin", "cello"]
editions = ["student", "teacher", "from-memory"]
preface = "Play **slowly**, and *listen*."

[[chapter]]
title = "Half steps"
text = "The arm travels."
for_teacher = "Ask for the interval."
hands = ["12", "34"]
spacings = ["half"]
positions = ["1st"]
stages = [1, 3, 5]
returns = ["mirror"]

[[chapter]]
title = "Onwards"
take = "way"
hands = ["12", "23"]
positions = ["1st"]
stages = [1, 3]
leads = ["low"]
returns = ["mirror"]
limit = 4
"""
KINDS = ("student", "teacher", "from-memory")
BOOKS = [f"{instrument}-en-{kind}" for instrument in ("violin", "cello") for kind in KINDS]


@pytest.fixture(scope="module")
def books(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder with all editions and their plans."""
    return books_in(tmp_path_factory.mktemp("books"), SPEC)


def book(books: Path, name: str) -> Path:
    return books / "output" / f"book-{name}.pdf"


def plan(books: Path, name: str) -> dict[str, list[dict[str, object]]]:
    found: dict[str, list[dict[str, object]]] = json.loads(
        (books / f"book-{name}.json").read_text(encoding="utf-8")
    )
    return found


@pytest.mark.parametrize("name", BOOKS)
def test_the_contents_lead_to_the_pages(books: Path, name: str) -> None:
    read, called = pages(book(books, name)), labels(book(books, name))
    (contents,) = (page for page in read if "Contents" in page.splitlines()[:3])
    found = dict(re.findall(r"^(.*\w) (\d+|[ivx]+)$", contents, re.MULTILINE))

    wanted = ["Preface", "How to use this book", "1 · Half steps", "2 · Onwards", "Practice log"]
    assert [title for title in wanted if title not in found] == []
    for title in wanted:
        at = called.index(found[title])
        assert title.split(" · ")[-1] in read[at], title
        if title != "Practice log":
            assert at % 2 == 0, "a part begins on a right-hand page"


@pytest.mark.parametrize("name", BOOKS)
def test_every_link_line_names_the_drill_of_the_plan(books: Path, name: str) -> None:
    text = "\n".join(pages(book(books, name)))
    entries = plan(books, name)["drills"]
    linked = [entry["link"] for entry in entries]
    printed = sorted(map(int, re.findall(r"Like (\d+),", text)))
    wanted = sorted(one["to"] for one in linked if one["to"] is not None)  # type: ignore[index]

    example = [11]  # how to use the book quotes one
    assert printed == sorted(wanted + example)
    drills = {entry["number"]: Drill.parse_key(str(entry["key"])) for entry in entries}
    for entry, link in zip(entries, linked, strict=True):
        if link["to"] is not None:  # type: ignore[index]
            before = drills[link["to"]]  # type: ignore[index]
            assert len(before.changes_to(drills[entry["number"]])) == 1


@pytest.mark.parametrize("name", BOOKS)
def test_the_index_of_hands_names_the_pages_of_the_drills(books: Path, name: str) -> None:
    read, called = pages(book(books, name)), labels(book(books, name))
    (index,) = (page for page in read if "Each hand with its fingers" in page)
    found = re.findall(
        rf"^1st pos\.\s([\d{DASH}, ]+), pages? ([\d{DASH}, ]+)$", unbroken(index), re.MULTILINE
    )
    assert found
    for numbers, on in found:
        there = {
            number for page in spread(on) for number in drills_on(read[called.index(str(page))])
        }
        assert set(spread(numbers)) <= there
    printed = sorted(number for page in read for number in drills_on(page))
    assert printed == sorted(number for numbers, _ in found for number in spread(numbers))


@pytest.mark.parametrize("name", BOOKS)
def test_the_index_of_intervals_names_the_pages_of_the_drills(books: Path, name: str) -> None:
    read, called = pages(book(books, name)), labels(book(books, name))
    (index,) = (page for page in read if "Which drills have an interval" in page)
    found = re.findall(rf"1st pos\.\s([\d{DASH}, ]+), pages? ([\d{DASH}, ]+)", unbroken(index))
    assert found
    for numbers, on in found:
        there = [drills_on(read[called.index(str(page))]) for page in spread(on)]
        wanted = spread(numbers)
        assert {*wanted} <= {number for page in there for number in page}
        assert all({*page} & {*wanted} for page in there), "no page is named for nothing"


def test_editions_share_their_numbers(books: Path) -> None:
    own = {name: {e["number"]: e["key"] for e in plan(books, name)["drills"]} for name in BOOKS}

    assert own["violin-en-student"] == own["violin-en-teacher"] == own["violin-en-from-memory"]
    violin = {str(k).split("-", 1)[1]: n for n, k in own["violin-en-student"].items()}
    cello = {str(k).split("-", 1)[1]: n for n, k in own["cello-en-student"].items()}
    shared = violin.keys() & cello.keys()
    assert shared
    assert {violin[one] for one in shared} == {cello[one] for one in shared}
    assert all(violin[one] == cello[one] for one in shared)


def test_each_edition_has_what_it_is_for(books: Path) -> None:
    student, teacher, memory = ("\n".join(pages(book(books, f"violin-en-{k}"))) for k in KINDS)

    assert "Ask for the interval." in teacher
    assert "Ask for the interval." not in student + memory
    assert "Teacher's edition" in teacher
    assert "Answers" in teacher
    assert "Answers" in memory
    assert "Answers" not in student
    assert "All rights reserved." in student
    assert "slowly, and listen." in student.replace("\n", " ")
    assert "**" not in student


@pytest.mark.parametrize("name", BOOKS)
def test_the_plan_binds_to_the_same_bytes(books: Path, name: str) -> None:
    words = ("bind", str(books / f"book-{name}.json"), "--out", "again.pdf", "--quiet")
    assert bookgen(*words).code == 0
    assert Path("again.pdf").read_bytes() == book(books, name).read_bytes()


def test_a_document_whose_chapters_lack_a_drill_is_refused(books: Path) -> None:
    document = json.loads((books / "book-violin-en-student.json").read_text(encoding="utf-8"))
    document["binding"]["supplement"]["chapters"][0]["numbers"].pop()
    Path("broken.json").write_text(json.dumps(document), encoding="utf-8")

    assert "binding.supplement.chapters: the chapters do not have" in refused("bind", "broken.json")


def test_the_spec_to_begin_with_builds_as_it_stands() -> None:
    assert bookgen("new-supplement", "here").out.strip() == "here/supplement.toml"
    outcome = bookgen("supplement", "here/supplement.toml", "--only", "cello-de-student", "--quiet")

    assert outcome.code == 0, outcome.err
    (made,) = Path("here/output").iterdir()
    assert made.name == "supplement-cello-de-student.pdf"
    read = "\n".join(pages(made.absolute()))
    assert "Erste Saitenwechsel" in read
    assert "Inhalt" in read


def test_a_spec_is_not_written_over() -> None:
    Path("own.toml").write_text("title = 'x'", encoding="utf-8")
    assert "there is one already" in refused("new-supplement", "own.toml")
    assert Path("own.toml").read_text(encoding="utf-8") == "title = 'x'"


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (("The arm travels.", "# The arm"), "book.toml, line 11, chapter 1, text: "),
        (('"34"', '"44"'), "chapter 1, hands: '44' is no hand"),
        (('"12", "34"', '"13"'), "chapter 1, title: there is no such drill for violin"),
        (('title = "Close', 'paper = "a0"\ntitle = "Close'), "line 2, paper: no paper 'a0'"),
        (('title = "Close', 'layout = "/"\ntitle = "Close'), "line 2, layout: no layout '/'"),
    ],
)
def test_what_is_wrong_is_one_line_and_nothing_is_written(
    change: tuple[str, str], said: str
) -> None:
    Path("book.toml").write_text(SPEC.replace(*change), encoding="utf-8")

    findings = bookgen("supplement", "book.toml", "--quiet")
    assert findings.code == 2
    assert said in findings.err
    assert [path.name for path in Path().iterdir()] == ["book.toml"]


def test_an_edition_that_there_is_not_is_refused() -> None:
    Path("book.toml").write_text(SPEC, encoding="utf-8")
    assert "--only: the spec has no edition 'cell'" in refused(
        "supplement", "book.toml", "--only", "cell"
    )


def test_a_spec_that_is_no_text_is_refused() -> None:
    Path("book.toml").write_bytes(b"title = '\xff'")
    assert "UTF-8" in refused("supplement", "book.toml")
    assert "cannot be read" in refused("supplement", "nothing.toml")


ONE = """
title = "{title}"
paper = "a5"
preface = '''{preface}'''
[[chapter]]
title = "One"
text = '''{text}'''
hands = ["12"]
positions = ["1st"]
stages = [1]
limit = 2
"""


def test_a_long_text_goes_on_over_the_page_and_drills_follow_it() -> None:
    text = "\n\n".join(" ".join(f"{place}x{word}" for word in range(90)) for place in range(6))
    Path("book.toml").write_text(
        ONE.format(title="Long", preface=text, text=text), encoding="utf-8"
    )
    assert bookgen("supplement", "book.toml", "--quiet").code == 0
    (file,) = Path("output").iterdir()
    read, called = pages(file.absolute()), labels(file)

    for part in (read[: called.index("1")], read[called.index("1") :]):
        words = re.findall(r"\b\dx\d+\b", "\n".join(part))
        assert words == [f"{place}x{word}" for place in range(6) for word in range(90)]
    begins = next(at for at, page in enumerate(read) if drills_on(page))
    assert begins > called.index("1")


def test_a_title_without_room_is_told() -> None:
    title = "Donaudampfschifffahrtsgesellschaft" * 3
    Path("book.toml").write_text(ONE.format(title=title, preface="", text=""), encoding="utf-8")

    assert "the title page needs" in refused("supplement", "book.toml", "--quiet")
