"""Every command over every instrument of the package."""

from itertools import combinations, cycle
from pathlib import Path
from random import Random

import mido
import pytest
from kit.shell import bookgen
from kit.shorthand import hands, string_sets

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.route import Return
from bookgen.model.units import Semitones
from bookgen.readers.hands import positions_of
from bookgen.readers.instrument import instrument_keys, read_instrument

KEYS = instrument_keys()
PRINTED = ("cello", "double_bass", "double_bass_low_c")
"""Engraved in full; the others differ from these and from the violins by a string."""

FORMS = ("pdf", "png", "svg", "ly", "musicxml", "mid", "wav")


def done(*words: str) -> str:
    """Run a command that must succeed."""
    outcome = bookgen(*words)
    assert outcome.code == 0, (words, outcome.err)
    return outcome.out


def notes(instrument: Instrument) -> str:
    """A passage up all strings in first position, as plain text."""
    half_steps = ["C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B"]
    heights = [nut.midi + step for nut in reversed(instrument.strings) for step in (0, 2, 3, 4)]
    written = [f"{half_steps[midi % 12]}{midi // 12 - 1}" for midi in heights]
    return " | ".join(" ".join(written[at : at + 4]) for at in range(0, len(written), 4))


def any_drill(instrument: Instrument, dice: Random) -> Drill:
    """A drill that the hand takes."""
    pairs = [pair for pair in combinations((1, 2, 3, 4), 2) if hands(instrument, pair)]
    while True:
        frame = dice.choice(hands(instrument, dice.choice(pairs)))
        drill = Drill(
            instrument.key,
            frame,
            dice.choice((frame.fingers, frame.fingers[::-1])),
            Semitones(dice.randint(1, instrument.highest_stop)),
            dice.choice(string_sets(instrument)),
            dice.randint(1, 5),
            dice.choice((Return.SAME, Return.MIRROR)),
        )
        if drill.refusal(instrument) is None:
            return drill


@pytest.mark.parametrize("key", PRINTED)
def test_a_stranger_has_a_sheet_whose_plan_binds_to_the_same_bytes(key: str, here: Path) -> None:
    done("sheet", "--instrument", key, "--date", "2026-12-03", "--out", "a.pdf", "--plan", "a.json")
    done("bind", "a.json", "--out", "b.pdf")

    assert (here / "a.pdf").read_bytes() == (here / "b.pdf").read_bytes()


@pytest.mark.parametrize("key", KEYS)
def test_a_stranger_hears_a_sheet_and_a_passage(key: str, here: Path) -> None:
    (here / "up.passage").write_text(notes(read_instrument(key)), encoding="utf-8")

    done("sheet", "--instrument", key, "--out", "day.mid")
    done("passage", "up.passage", "--instrument", key, "--out", "up.musicxml")
    if key in PRINTED:
        done("passage", "up.passage", "--instrument", key, "--out", "up.pdf")


@pytest.mark.parametrize("key", PRINTED)
def test_a_player_has_a_booklet_a_log_and_a_map(key: str, here: Path) -> None:
    positions = ", ".join(f'"{one}"' for one in positions_of(read_instrument(key))[:3])
    (here / "studio.toml").write_text(
        f'[players.Mara]\ninstrument = "{key}"\npositions = [{positions}]\n', encoding="utf-8"
    )
    done("check")
    done("booklet", "--from", "2026-11-01", "--to", "2026-11-02")
    done("log", "1", "--secure", "--date", "2026-11-01")
    assert "whole step" in done("log", "--show")
    done("coverage")
    done("coverage", "--out", "map.pdf")


@pytest.mark.parametrize(("key", "form"), [*zip(KEYS, cycle(FORMS), strict=False)])
def test_drills_in_every_form(key: str, form: str) -> None:
    drill = any_drill(read_instrument(key), Random(f"{key}.{form}"))

    done("drill", drill.key, "--out", f"one.{form}")


@pytest.mark.published("MIDI 1.0, note numbers, as mido reads them; sounding pitch of the bass")
@pytest.mark.parametrize(
    ("key", "lowest", "program"),
    [("cello", 36 + 2, 42), ("double_bass", 28 + 2, 43), ("double_bass_solo", 30 + 2, 43)],
)
def test_what_sounds_is_the_sounding_pitch(key: str, lowest: int, program: int, here: Path) -> None:
    pair = "14-whole" if "bass" in key else "13-whole"
    done("drill", f"{key}-{pair}-place2-strings4321-stage1-low-same", "--out", "one.mid")

    (track,) = mido.MidiFile(here / "one.mid").tracks
    assert min(one.note for one in track if one.type == "note_on") == lowest
    assert [one.program for one in track if one.type == "program_change"] == [program]
