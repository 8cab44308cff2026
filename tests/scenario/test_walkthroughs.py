"""The walk-throughs of the docs do what they say, and a walk notices where one does not."""

from pathlib import Path

import pytest
from kit.fences import DOCS, blocks
from kit.shell import Outcome
from kit.walkthrough import walk

FOLDER = DOCS / "walk-throughs"
PAGES = sorted(FOLDER.glob("*.md"))

GOOD = """\
# A walk

```toml studio.toml
name = "Harbour Lane Strings"
```

```sh
# a comment
bookgen make a.pdf \\
    b.pdf             # creates: a.pdf b.pdf
mkdir sub
cd sub
bookgen make c.pdf
# creates: c.pdf
cmp c.pdf ../a.pdf
```

```text
made a.pdf
…
made … in … seconds
```

```console
sudo anything
```
"""


def make(*words: str) -> Outcome:
    """Stands in for bookgen: makes the files it is told to."""
    assert words[0] == "make"
    for name in words[1:]:
        if name == "fail":
            return Outcome(2, "", "it fails")
        Path(name).write_text("")
    said = [f"made {name}" for name in words[1:]]
    return Outcome(0, "\n".join([*said, f"made {len(said)} in 0.3 seconds"]) + "\n", "")


def a_page(tmp_path: Path, text: str) -> Path:
    page = tmp_path / "walk.md"
    page.write_text(text, encoding="utf-8")
    return page


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_the_page_can_be_walked_through(page: Path) -> None:
    walk(page)


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_a_page_shows_what_is_made_and_what_is_printed(page: Path) -> None:
    found = list(blocks(page))

    assert any("# creates:" in line for block in found for line in block.lines)
    assert any(block.language == "text" for block in found)


def test_every_reader_has_a_walk() -> None:
    assert [page.stem for page in PAGES] == [
        "a-players-week",
        "a-publishers-book",
        "a-publishers-chapter",
        "a-teachers-month",
    ]


def test_a_good_page_is_walked_to_its_end(here: Path, tmp_path: Path) -> None:
    walk(a_page(tmp_path, GOOD), make)

    assert Path.cwd() == here
    assert (here / "studio.toml").read_text() == 'name = "Harbour Lane Strings"\n'
    assert (here / "sub" / "c.pdf").exists()


@pytest.mark.parametrize(
    ("right", "wrong", "words"),
    [
        ("make c.pdf", "make fail", r"walk\.md:13: bookgen make fail: .*it fails"),
        ("creates: c.pdf", "creates: d.pdf", r"walk\.md:13: .*d\.pdf.* is not made"),
        ("creates: c.pdf", "creates: ../a.pdf", r"a\.pdf.* is there before"),
        ("made a.pdf\n", "made b.pdf\n", r"walk\.md:19: the page shows\nmade b"),
        ("made … in", "made … at", "but bookgen prints\nmade a"),
        ("…\nmade …", "made …", "the page shows"),
        ("mkdir sub", "rm -r sub", "a walk knows only bookgen, cd, mkdir and cmp"),
        ("# a comment", "# creates: x", "without a command"),
        ("cmp c.pdf ../a.pdf", "cmp c.pdf ../studio.toml", "they differ"),
    ],
)
@pytest.mark.usefixtures("here")
def test_a_walk_stops_where_a_page_is_wrong(
    right: str, wrong: str, words: str, tmp_path: Path
) -> None:
    assert GOOD.count(right) == 1

    with pytest.raises(AssertionError, match=words):
        walk(a_page(tmp_path, GOOD.replace(right, wrong)), make)


def test_output_without_a_command_is_a_fault_of_the_page(tmp_path: Path) -> None:
    with pytest.raises(AssertionError, match="nothing was typed before"):
        walk(a_page(tmp_path, "```text\nwords\n```\n"), make)
