"""Positions called by a published table that is not the usual one."""

import json
from pathlib import Path

import pytest
from kit.shell import bookgen, refused
from kit.sources import published
from music21 import pitch, scale

from bookgen.errors import BookgenError
from bookgen.model.units import Semitones
from bookgen.readers.instrument import parse_instrument, read_instrument
from bookgen.readers.own_instrument import instrument_at, key_of
from bookgen.readers.position_tables import position_tables
from bookgen.tasks.instruments import finder
from bookgen.tasks.studio_folder import StudioFolder
from bookgen.words.names import instrument_name
from bookgen.words.speech import speech_of

SCHOOL = published("positions", "cello_school")
CELLO = read_instrument("cello")
ORDINALS = {1: "1st", 2: "2nd", 3: "3rd"}


def coded(name: str) -> str:
    """A position of the table as plan documents write it: 1 is 1st."""
    return ORDINALS.get(int(name), f"{name}th") if name.isdigit() else name


@pytest.mark.published(SCHOOL.title)
@pytest.mark.parametrize(("name", "place"), SCHOOL.values.items())
def test_the_rule_of_the_cello_schools(name: str, place: float) -> None:
    rule = instrument_at("cello by davidov", Path(), "").position_rule
    assert rule.at(1, Semitones(int(place))) == coded(name)


@pytest.mark.published("the major scale of each string: music21 10.5")
@pytest.mark.parametrize("tuned", ["cello by davidov", "double bass by scale"])
def test_positions_are_the_steps_of_the_major_scale_of_each_string(tuned: str) -> None:
    instrument = instrument_at(tuned, Path(), "")
    for string in instrument.strings:
        nut = pitch.Pitch(str(string))
        steps = scale.MajorScale(nut).getPitches(nut, nut.transpose(12))
        places = [note.midi - nut.midi for note in steps[1:]]
        found = [instrument.position_rule.at(1, Semitones(place)) for place in places]
        assert found == ["1st", "2nd", "3rd", "4th", "5th", "6th", "7th"]


def test_the_usual_tables_are_those_of_the_instruments_files() -> None:
    assert instrument_at("cello by grove", Path(), "") == CELLO
    bass = read_instrument("double_bass")
    assert instrument_at("double bass by simandl", Path(), "") == bass
    for table in position_tables().values():
        assert len(table.labels) == 13


def test_a_file_of_ones_own_names_a_table() -> None:
    text = 'like = "cello"\n[position]\nlabels = "davidov"\n'
    mine = parse_instrument("mine", text, "mine.toml")
    assert mine.position_rule.at(1, Semitones(3)) == "1½"
    with pytest.raises(BookgenError) as caught:
        parse_instrument("mine", text.replace("davidov", "riemann"), "mine.toml")
    (line,) = map(speech_of("en").line, caught.value.findings)
    assert line.startswith("mine.toml, position: 'riemann' is no table of positions; there are")


def test_it_goes_together_with_strings_tuned_otherwise(tmp_path: Path) -> None:
    name = "cello by davidov G3 D3 G2 C2"
    both = instrument_at(name, tmp_path, "")
    assert both.key == key_of(name) == "cello_by_davidov_g3_d3_g2_c2"
    assert both.position_rule.at(1, Semitones(8)) == "4½"
    assert str(both.strings[0]) == "G3"
    assert finder(StudioFolder(tmp_path))(both.key) == both
    assert instrument_name(both, speech_of("fr")) == "Violoncelle"


def test_a_sheet_and_the_studio_call_positions_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    studio = '[players.Theo]\ninstrument = "cello"\npositions_by = "davidov"\npositions = ["1½"]\n'
    Path("studio.toml").write_text(studio, encoding="utf-8")
    assert bookgen("sheet", "--player", "Theo", "--out", "a.pdf", "--plan", "a.json").code == 0
    assert bookgen("bind", "a.json", "--out", "b.pdf").code == 0
    assert Path("a.pdf").read_bytes() == Path("b.pdf").read_bytes()
    plan = json.loads(Path("a.json").read_text(encoding="utf-8"))
    assert {drill["position"] for drill in plan["drills"]} == {"1½"}
    Path("studio.toml").write_text(studio.replace("davidov", "scale"), encoding="utf-8")
    assert "positions_by: no table 'scale' of positions for the cello" in refused("sheet")


@pytest.mark.parametrize("name", ["violin by davidov", "cello by simandl", "cello by nobody"])
def test_no_such_table_is_told(name: str) -> None:
    assert "--instrument: no table" in refused("sheet", "--instrument", name)
