"""A studio to begin with: valid, explained line by line, and never in the way of another."""

from pathlib import Path

import msgspec
import pytest
from kit.shell import bookgen, refused

from bookgen.errors import BookgenError
from bookgen.readers.studio.file import parse_studio
from bookgen.readers.studio.tables import PlayerTable, StartTable, StudioTable
from bookgen.tasks import new_studio
from bookgen.tasks.new_studio import starter


def test_it_writes_a_studio_that_is_in_order() -> None:
    outcome = bookgen("new-studio")

    assert (outcome.code, outcome.out) == (0, "studio.toml\n")
    assert "studio.toml: Harbour Lane Strings, 4 players" in bookgen("check").out


def test_it_makes_the_folder(here: Path) -> None:
    assert bookgen("new-studio", "music/lessons", "--quiet").out == ""
    assert [path.name for path in (here / "music" / "lessons").iterdir()] == ["studio.toml"]


def test_a_file_that_is_there_stays_as_it_is(here: Path) -> None:
    for place in (here / "studio.toml", here / "linked" / "studio.toml"):
        place.parent.mkdir(exist_ok=True)
        place.write_text("mine", encoding="utf-8")
        folder = str(place.parent)
        assert refused("new-studio", folder).startswith(f"{place}: there is one already; ")
        assert place.read_text(encoding="utf-8") == "mine"
        assert [path.name for path in place.parent.iterdir() if path.is_file()] == ["studio.toml"]


def test_a_link_to_nowhere_is_no_place_to_write_through(here: Path) -> None:
    (here / "studio.toml").symlink_to(here / "elsewhere.toml")

    assert "there is one already" in refused("new-studio")
    assert not (here / "elsewhere.toml").exists()


def test_another_command_that_was_quicker_keeps_its_file(
    here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = here / "studio.toml"

    def quicker(path: Path, content: bytes) -> Path:
        path.write_bytes(b"theirs")
        temporary = path.with_name("temporary")
        temporary.write_bytes(content)
        return temporary

    monkeypatch.setattr(new_studio, "written_beside", quicker)
    with pytest.raises(BookgenError, match="cannot be written"):
        new_studio.write_new(place, b"ours")
    assert place.read_bytes() == b"theirs"
    assert list(here.iterdir()) == [place]


def test_without_hard_links_it_is_moved(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def no_links(path: Path, target: Path) -> None:
        raise PermissionError(path, target)

    monkeypatch.setattr(Path, "hardlink_to", no_links)
    new_studio.write_new(here / "studio.toml", b"ours")
    assert [path.read_bytes() for path in here.iterdir()] == [b"ours"]


def test_a_folder_that_cannot_be_made_is_told_and_nothing_is_left(here: Path) -> None:
    (here / "file").write_text("", encoding="utf-8")

    assert "cannot be written" in refused("new-studio", "file/deep")
    assert [path.name for path in here.iterdir()] == ["file"]


def test_every_value_there_is_stands_in_it_and_is_explained() -> None:
    lines = starter().decode().splitlines()
    shown = msgspec.toml.decode(starter())["players"]["Ines"]
    fields = [*StudioTable.__struct_fields__, *PlayerTable.__struct_fields__]

    told = {"passage", "known", "also", "hands", "scordatura", "positions_by"}
    assert set(PlayerTable.__struct_fields__) - told == shown.keys()
    assert "# [[players.Ines.passage]]" in lines, "a passage needs a file, so it is only shown"
    assert "# [[players.Ines.also]]" in lines
    assert any(line.startswith("# hands = ") for line in lines), "instead of pairs"
    for key in ("scordatura", "positions_by"):
        assert any(line.startswith(f"# {key} = ") for line in lines), "few need it"
    assert "[[players.Mara.known]]" in lines, "Ines knows nothing yet"
    assert set(StartTable.__struct_fields__) == shown["start"].keys()
    for field in set(fields) - {"players", "start", *told}:
        at = next(index for index, line in enumerate(lines) if line.startswith(f"{field} ="))
        assert lines[at - 1].startswith("#"), f"{field} is explained"


def test_what_it_says_of_left_out_values_is_so() -> None:
    text = starter().decode()
    start = text.index("[players.Theo]")
    theo = parse_studio(text[start:], "studio.toml").players["Theo"]
    plain = parse_studio("[players.Theo]", "studio.toml").players["Theo"]

    assert "Left out: violin." in text
    assert (plain.instrument, plain.minutes, len(plain.practice_days)) == ("violin", 10, 7)
    assert "Left out: 12, 23 and 34." in text
    assert plain.cover.pairs == ((1, 2), (2, 3), (3, 4))
    assert "Left out: 1st." in text
    assert plain.cover.positions == ("1st",)
    assert "Left out: 3.\n" in text
    assert "Left out: 5.\n" in text
    assert (plain.cover.fewest_strings, plain.cover.highest_stage) == (3, 5)
    assert theo.minutes == 30


def test_the_roster_has_a_viola_and_a_half_size_child() -> None:
    players = parse_studio(starter().decode(), "studio.toml").players

    assert players["Mara"].instrument == "viola"
    assert players["Jo"].size == "1/2"
    assert players["Jo"].minutes < players["Ines"].minutes
