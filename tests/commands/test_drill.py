"""One drill in every form."""

import io
import json
import xml.etree.ElementTree as ET
from pathlib import Path

import mido
import pypdfium2
import pytest
from kit.shell import bookgen, refused
from PIL import Image

KEY = "violin-12-whole-place2-strings4321-stage3-low-mirror"
MIDI = [57, 66, 71, 80, 80, 71, 66, 57]  # A3 F#4 B4 G#5 and back, MIDI 1.0 note numbers


def made(name: str, key: str = KEY) -> bytes:
    assert bookgen("drill", key, "--out", name).out == f"{name}\n"
    return Path(name).read_bytes()


def test_without_a_name_it_is_a_pdf_called_by_its_key() -> None:
    assert bookgen("drill", KEY).out == f"output/{KEY}.pdf\n"
    page = pypdfium2.PdfDocument(Path(f"output/{KEY}.pdf"))[0]
    words = page.get_textpage().get_text_bounded()
    assert "cross on every note" in words
    assert "M6" in words


def test_a_picture_shows_the_block() -> None:
    picture = Image.open(io.BytesIO(made("x.png")))

    assert picture.format == "PNG"
    assert picture.width > picture.height > 100
    assert picture.convert("L").histogram()[0] > 100, "black ink"


def test_svg_is_well_formed() -> None:
    assert ET.fromstring(made("x.svg")).tag == "{http://www.w3.org/2000/svg}svg"  # noqa: S314  our own file


def test_lilypond_source_holds_the_notes() -> None:
    assert b"gs''" in made("x.ly")


@pytest.mark.parametrize("name", ["x.mid", "x.MIDI"])
def test_midi_sounds_the_drill(name: str) -> None:
    file = mido.MidiFile(file=io.BytesIO(made(name)))

    notes = [m.note for m in file if m.type == "note_on" and m.velocity > 0]
    assert notes == MIDI


@pytest.mark.parametrize("name", ["x.musicxml", "x.xml"])
def test_musicxml_tells_fingers_and_strings(name: str) -> None:
    score = ET.fromstring(made(name))  # noqa: S314  our own file

    assert [int(e.text or "") for e in score.iter("fingering")] == [1, 2, 1, 2, 2, 1, 2, 1]
    assert [int(e.text or "") for e in score.iter("string")] == [4, 3, 2, 1, 1, 2, 3, 4]


def test_a_plan_is_written_where_wanted() -> None:
    assert bookgen("drill", KEY, "--out", "x.ly", "--plan", "x.json").code == 0
    assert bookgen("bind", "x.json").code == 0


@pytest.mark.parametrize(
    ("key", "told"),
    [
        (
            "violin",
            "'violin' is no key of a drill, wanted is one to four fingers, e.g. 12, or t12",
        ),
        (KEY.replace("violin", "kazoo"), "no instrument 'kazoo'"),
        (KEY.replace("place2", "place23"), "lies past the fingerboard's last stop, 24"),
        (KEY.replace("place2", "place0"), "finger 1 stands 1 or more semitones above the nut"),
        (KEY.replace("12-whole", "13-whole"), "takes no whole spacing between fingers 1 and 3"),
        (KEY.replace("4321", "24"), "not two or more neighbours"),
        ("../../etc/passwd", "is no key of a drill, wanted is an instrument"),
        (KEY.replace("stage3", "stage9"), "wanted is a stage, stage1 to stage5"),
        (f"{KEY}-more", "wanted is nothing more after same or mirror"),
        ("", "'' is no key of a drill"),
    ],
)
def test_a_drill_that_there_is_not_is_told(key: str, told: str) -> None:
    assert told in refused("drill", key)


def test_an_unknown_ending_is_told_with_those_there_are() -> None:
    line = refused("drill", KEY, "--out", "x.doc")

    assert line.startswith("--out: no form with the ending '.doc'; ")
    assert ".musicxml" in line


def test_an_unknown_size_is_told() -> None:
    assert "'9/9' is no size of the violin" in refused("drill", KEY, "--size", "9/9")


def test_a_number_names_the_drill_of_a_player() -> None:
    Path("studio.toml").write_text('[players.Jo]\nsize = "1/2"\n[players.Ines]', encoding="utf-8")
    bookgen("sheet", "--player", "Jo", "--date", "2026-12-01", "--plan", "plan.json")
    plan = json.loads(Path("plan.json").read_text(encoding="utf-8"))
    second = plan["drills"][1]

    outcome = bookgen("drill", "2", "--player", "Jo", "--plan", "drill.json")
    assert outcome.out == "output/jo-2.pdf\n"
    alone = json.loads(Path("drill.json").read_text(encoding="utf-8"))
    assert alone["drills"] == [second]
    assert (alone["size"], alone["player"]) == ("1/2", "Jo")
    assert bookgen("bind", "drill.json", "--out", "again.pdf").code == 0
    assert Path("again.pdf").read_bytes() == Path("output/jo-2.pdf").read_bytes()
    told = "NUMBER: no drill of Jo has the number 99; `bookgen log --show` lists the drills"
    assert refused("drill", "99", "--player", "Jo").startswith(told)
    assert "--player: several play here" in refused("drill", "2")
    assert "--player: a key names the same drill" in refused("drill", KEY, "--player", "Jo")


def test_a_number_needs_a_studio() -> None:
    assert refused("drill", "2").startswith("studio.toml: there is no studio in this folder; ")
