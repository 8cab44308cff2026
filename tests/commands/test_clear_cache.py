"""Engraved music that is kept: nothing is engraved twice, and no page can tell."""

from collections.abc import Callable
from pathlib import Path

import pytest
from kit.shell import Outcome, bookgen

from bookgen.notation.lilypond import Workshop
from bookgen.tasks.cache import Cache

SHEET = (
    "sheet",
    "--date",
    "2026-12-01",
    "--minutes",
    "5",
    "--out",
    "sheet.pdf",
    "--keep-ly",
    "kept",
)
AIR = "key: G major\nmeter: 2/4\nB4:8 C5 D5 F#5 | G5 D5 E4 C5 | B4 G5 C#5 D5 | G4+B4:2 |"
PASSAGE = ("passage", "air.passage", "--out", "air.pdf", "--keep-ly", "kept")
BOOK = """
title = "Towards an air"
instruments = ["violin"]

[[chapter]]
title = "The air"
take = "passage"
file = "air.passage"
"""
BOOKLET = ("booklet", "--from", "2026-12-01", "--to", "2026-12-03", "--keep-ly", "kept")


@pytest.fixture(name="cache", autouse=True)
def a_cache_of_its_own(
    tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch
) -> Cache:
    folder = tmp_path_factory.mktemp("cache")
    monkeypatch.setenv("XDG_CACHE_HOME", str(folder))
    return Cache(folder / "bookgen" / "engraving")


@pytest.fixture
def started(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What LilyPond was started for."""
    names: list[str] = []
    begin = Workshop.begin

    def told(self: Workshop, name: str, *options: str, hoarding: bool = False) -> object:
        names.append(name)
        return begin(self, name, *options, hoarding=hoarding)

    monkeypatch.setattr(Workshop, "begin", told)
    return names


def done(*words: str) -> Outcome:
    outcome = bookgen(*words)
    assert outcome.code == 0, outcome
    return outcome


def files(*words: str) -> dict[str, bytes]:
    """All that a command writes, taken away again."""
    done(*words)
    made = [path for path in Path().rglob("*") if path.is_file() and path.suffix != ".db"]
    found = {str(path): path.read_bytes() for path in made}
    for path in made:
        path.unlink()
    return found


@pytest.mark.parametrize("words", [SHEET, BOOKLET])
def test_the_same_again_comes_without_lilypond_in_the_same_bytes(
    words: tuple[str, ...], started: list[str]
) -> None:
    cold = files(*words)
    assert started == ["part-0"]
    assert {Path(name).suffix for name in cold} == {".pdf", ".ly", ".ttf"}

    assert files(*words) == cold
    assert started == ["part-0"]


def passage_files(*words: str, air: str = AIR) -> dict[str, bytes]:
    """All that a command writes that reads a passage."""
    Path("air.passage").write_text(air, encoding="utf-8")
    Path("book.toml").write_text(BOOK, encoding="utf-8")
    found = files(*words)
    return {name: found[name] for name in found if name not in {"air.passage", "book.toml"}}


@pytest.mark.parametrize("words", [PASSAGE, ("supplement", "book.toml", "--quiet")])
def test_a_passage_again_comes_without_lilypond_in_the_same_bytes(
    words: tuple[str, ...], started: list[str]
) -> None:
    cold = passage_files(*words)
    engraved = [*started]
    assert len(engraved) == 3, "the drills, the bars, the hard spots"
    assert any(name.endswith(".pdf") for name in cold)

    assert passage_files(*words) == cold
    assert started == engraved


def test_other_notes_fingers_or_widths_of_a_passage_are_engraved_anew(started: list[str]) -> None:
    for words, air in (
        (PASSAGE, AIR),
        (PASSAGE, AIR.replace("E4", "F#4")),
        ((*PASSAGE, "--paper", "a5"), AIR),
        ((*PASSAGE, "--prefer", "low"), AIR.replace("D5 E4", "D5=3 E4")),
    ):
        before = len(started)
        passage_files(*words, air=air)
        assert len(started) > before


@pytest.mark.parametrize("which", range(-3, 3))
def test_a_damaged_entry_of_a_passage_is_made_anew(
    cache: Cache, started: list[str], which: int
) -> None:
    cold = passage_files(*PASSAGE)
    spoil(sorted(cache.folder.iterdir(), key=lambda file: file.stat().st_size)[which])

    assert passage_files(*PASSAGE) == cold
    assert len(started) == 4
    assert passage_files(*PASSAGE) == cold
    assert len(started) == 4


def test_a_page_of_kept_and_new_music_is_the_same_as_all_new(started: list[str]) -> None:
    files(*SHEET)
    mixed = files(*BOOKLET)
    assert started == ["part-0", "part-0"]
    done("clear-cache")

    assert files(*BOOKLET) == mixed


def test_another_look_is_engraved_anew(started: list[str]) -> None:
    files(*SHEET)
    files(*SHEET, "--layout", "large-print")
    assert len(started) == 2


def test_a_plan_is_bound_with_what_was_engraved_for_its_sheet(started: list[str]) -> None:
    done(*SHEET, "--plan", "plan.json")
    done("bind", "plan.json", "--out", "again.pdf")
    assert Path("again.pdf").read_bytes() == Path("sheet.pdf").read_bytes()
    assert started == ["part-0"]


def spoil(file: Path) -> None:
    file.write_bytes(file.read_bytes()[:-9])


@pytest.mark.parametrize("damage", [spoil, Path.unlink])
@pytest.mark.parametrize("which", [0, -1])
def test_damage_is_mended_without_a_word(
    cache: Cache,
    started: list[str],
    damage: Callable[[Path], None],
    which: int,
) -> None:
    """The largest entry is the type case, without which no other one is of use."""
    cold = files(*SHEET)
    damage(sorted(cache.folder.iterdir(), key=lambda file: file.stat().st_size)[which])

    outcome = done(*SHEET)
    assert "cache" not in outcome.err
    assert Path("sheet.pdf").read_bytes() == cold["sheet.pdf"]
    files(*SHEET)
    assert started == ["part-0", "part-0"]


def test_a_cache_that_cannot_be_written_is_no_matter(
    monkeypatch: pytest.MonkeyPatch, started: list[str], here: Path
) -> None:
    warm = files(*SHEET)
    (here / "file").write_bytes(b"")
    monkeypatch.setenv("XDG_CACHE_HOME", str(here / "file"))
    assert {**files(*SHEET), "file": b""} == {**warm, "file": b""}
    assert started == ["part-0", "part-0"]


def test_it_is_cleared(cache: Cache, started: list[str]) -> None:
    files(*SHEET)
    told = done("clear-cache").out
    assert told.startswith(f"{cache.folder}: 0.")
    assert list(cache.folder.iterdir()) == []
    files(*SHEET)
    assert started == ["part-0", "part-0"]
