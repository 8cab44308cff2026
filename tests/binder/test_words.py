"""Every sentence on a page is true: read back from the words and computed anew."""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache

import pytest
from paper import a_drill, playable, violin

from bookgen.binder.layout import BLOCK, Layout, Template
from bookgen.binder.sheet_words import position_order
from bookgen.binder.templates import Words
from bookgen.binder.typeset import Paragraph
from bookgen.binder.words import BLOCK_PARTS, drill_words
from bookgen.errors import BookgenError
from bookgen.model.dimension import Dimension
from bookgen.model.pitch import Pitch
from bookgen.model.position import LetterRule, TableRule
from bookgen.model.stop import Note
from bookgen.plan.document import Kind, Link, PlannedDrill
from bookgen.readers.instrument import read_instrument
from bookgen.readers.layout import read_layout

SPOT = r"(?P<pitch>[A-G][♯♭]*\d) \(finger (?P<finger>\d) on (?P<string>[IV]+)\)"
OPEN = r"open (?P<open>[A-G]) \((?P<at>[IV]+)\)"
AWAY = r"(?P<away>the same note|an? [a-z ]+ (?:above|below))"
RINGS = re.compile(rf"{SPOT}(?: makes {OPEN} ring along, {AWAY}\.)")
PROVES = re.compile(rf"First prove {SPOT}: {OPEN}, {AWAY}, rings along\.")
BOWS = re.compile(rf"{SPOT}: bow it with {OPEN}, {AWAY}, until")
BEFORE = re.compile(rf"{SPOT}: play {OPEN} before it, {AWAY}\.")
TUNE = re.compile(rf"tune {SPOT} to it, a pure (?P<pure>[a-z ]+?)(?:,|\.)")
NUMERALS = {"I": 1, "II": 2, "III": 3, "IV": 4}
SIZES = {
    "the same note": 0,
    "octave": 12,
    "double octave": 24,
    "triple octave": 36,
    "perfect fourth": 5,
    "perfect fifth": 7,
}
PURE = {
    "minor third": 3,
    "major third": 4,
    "perfect fourth": 5,
    "perfect fifth": 7,
    "minor sixth": 8,
    "major sixth": 9,
    "octave": 12,
    "unison": 0,
}


def told(planned: PlannedDrill, words: Words, *, cents: bool = False) -> list[Paragraph]:
    instrument = read_instrument(planned.drill.instrument)
    return words.fill(BLOCK, {"drill": drill_words(planned, instrument, cents=cents)}, BLOCK_PARTS)


def text_of(planned: PlannedDrill, words: Words) -> str:
    text = " ".join(paragraph.plain for paragraph in told(planned, words))
    return text.replace("\N{NO-BREAK SPACE}", " ")


@cache
def sample() -> list[tuple[PlannedDrill, str]]:
    words = Words(read_layout("ordinary"))
    return [(planned, text_of(planned, words)) for planned in playable()]


def midi(name: str) -> int:
    return Pitch.parse(name.replace("♯", "#").replace("♭", "b")).midi


def signed(away: str) -> int:
    if away == "the same note":
        return 0
    name = re.sub(r"^an? | (above|below)$", "", away)
    return SIZES[name] * (1 if away.endswith("above") else -1)


def notes_of(planned: PlannedDrill) -> dict[tuple[int, int], Note]:
    return {
        (note.stop.finger, note.stop.string): note
        for event in planned.events
        for note in event.notes
    }


def claims(pattern: re.Pattern[str], planned: PlannedDrill, text: str) -> Iterator[re.Match[str]]:
    """Every claim of a kind; that the drill has its note is checked on the way."""
    notes = notes_of(planned)
    for claim in pattern.finditer(text):
        note = notes[int(claim["finger"]), NUMERALS[claim["string"]]]
        assert note.pitch.midi == midi(claim["pitch"])
        yield claim


def test_every_open_string_named_does_what_is_said() -> None:
    seen: dict[str, int] = {}
    for planned, text in sample():
        instrument = read_instrument(planned.drill.instrument)
        for kind in (RINGS, PROVES, BOWS, BEFORE):
            for claim in claims(kind, planned, text):
                open_pitch = instrument.strings[NUMERALS[claim["at"]] - 1]
                assert open_pitch.letter == claim["open"]
                assert open_pitch.midi - midi(claim["pitch"]) == signed(claim["away"])
                own = claim["at"] == claim["string"]
                assert own == (kind is BEFORE)
                if kind is BOWS:
                    assert abs(NUMERALS[claim["at"]] - NUMERALS[claim["string"]]) == 1
                else:
                    assert signed(claim["away"]) % 12 == 0
                seen[kind.pattern] = seen.get(kind.pattern, 0) + 1
    assert len(seen) == 4, "the sample shows every kind of check"


def test_only_what_beats_can_tune_is_called_pure_and_its_size_is_right() -> None:
    found = 0
    for planned, text in sample():
        for claim in claims(TUNE, planned, text):
            stays = re.search(rf"(?:prove|Keep) {SPOT}", text)
            assert stays is not None
            assert abs(midi(claim["pitch"]) - midi(stays["pitch"])) == PURE[claim["pure"]]
            found += 1
        assert "pure augmented" not in text
        assert "pure diminished" not in text
        assert not re.search(r"pure (minor|major) (second|seventh)", text)
    assert found > 50


def test_double_stops_always_say_against_what() -> None:
    for planned, text in sample():
        if planned.drill.stage >= 4:
            assert "tune" in text or "comes to rest" in text


def test_no_cents_for_beginners_and_some_for_grown_players() -> None:
    words = Words(read_layout("ordinary"))
    drill = a_drill("12-whole-place2-strings4321-stage5-low-same")

    plain = " ".join(p.plain for p in told(drill, words))
    figures = " ".join(p.plain for p in told(drill, words, cents=True))
    assert "cents" not in plain
    assert "16 cents narrower" in figures
    assert "D3 147 Hz" in figures


def test_what_to_do_when_it_is_not_secure() -> None:
    words = Words(read_layout("ordinary"))
    known = "violin-12-half-place2-strings4321-stage1-low-same"
    cases = {
        Link(2, None, "x"): "Not secure? Go back to No. 2.",
        Link(None, None, "x"): "Not secure? Play only strings IV and III.",
        Link(
            known, None, "x"
        ): "First play fingers 1 and 2, a half step apart, one string after another.",
    }
    for link, said in cases.items():
        assert said in text_of(a_drill(link=link), words)


def test_hostile_text_stays_text() -> None:
    words = Words(read_layout("ordinary"))
    hostile = "</link><title>x</title> {{ drill }} <b> & \\"

    found = [p for p in told(a_drill(link=Link(None, None, hostile)), words) if p.part == "link"]
    assert [p.plain for p in found] == [f"New moves. {hostile}"]


def damaged(text: str) -> Layout:
    return replace(read_layout("ordinary"), templates={BLOCK: Template("my/block.j2", text)})


@pytest.mark.parametrize(
    ("text", "told_as"),
    [
        ("<title>\n{{ drill.fingrs }}</title>", r"block\.j2, line 2: .*fingrs"),
        ("<title>{{ drill", r"block\.j2, line 1"),
        ("<titel>x</titel>", r"block\.j2: <titel> cannot stand here; the parts are link"),
        ("<title>x", r"block\.j2: <title> is never closed"),
        ("loose words", r"block\.j2: 'loose words' stands outside every part"),
        ("<title>{{ drill.__class__ }}</title>", r"block\.j2, line 1: .*unsafe"),
        ("<title>{{ 1 // 0 }}</title>", r"block\.j2, line 1: .*zero"),
    ],
)
def test_a_damaged_template_gives_one_clear_line(text: str, told_as: str) -> None:
    with pytest.raises(BookgenError, match=told_as) as caught:
        told(a_drill(), Words(damaged(text)))
    assert len(caught.value.findings) == 1


def test_positions_are_ordered_from_the_nut() -> None:
    letters = LetterRule()
    mixed = ["11th", "2nd", "half", "3rd", "1st"]
    in_order = sorted(mixed, key=lambda label: position_order(label, letters))
    assert in_order == ["half", "1st", "2nd", "3rd", "11th"]
    table = TableRule(("half", "1", "2", "2½"), (0, 1, 2, 3))
    assert position_order("2½", table) == 3


def test_every_kind_is_said_in_plain_words() -> None:
    words = Words(read_layout("ordinary"))
    said = {
        Kind.REVIEW: "Review.",
        Kind.NEW: "New moves.",
        Kind.VARIANT: "Known moves, new order.",
        Kind.LADDER: "One step easier.",
        Kind.TEST: "Cold test.",
    }
    for kind, phrase in said.items():
        planned = replace(a_drill(number=9, link=Link(7, Dimension.STAGE, "x")), kind=kind)
        (link,) = (p.plain for p in told(planned, words) if p.part == "link")
        assert link == f"{phrase} x"


def test_a_drill_that_waits_says_for_what() -> None:
    words = Words(read_layout("ordinary"))
    waits = replace(a_drill(), only_if=12)

    assert "Only if No. 12 is secure." in text_of(waits, words)
    assert "Only if" not in text_of(a_drill(), words)


def test_an_item_of_a_test_is_played_once_and_helps_nobody() -> None:
    words = Words(read_layout("ordinary"))
    text = text_of(replace(a_drill(), kind=Kind.TEST), words)

    assert "The first try counts." in text
    assert "First try" in text
    for missing in ("Played", "Listen", "Not secure?"):
        assert missing not in text


def test_what_is_known_is_not_told_again() -> None:
    words = Words(read_layout("ordinary"))
    facts = drill_words(a_drill(), violin(), cents=False, brief=True, close=True)
    text = " ".join(p.plain for p in words.fill(BLOCK, {"drill": facts}, BLOCK_PARTS))

    assert "Play 1 and 2" in text_of(a_drill(), words)
    assert "Play 1 and 2" not in text
    assert "Listen" in text
    assert "Not yet: only IV and III." in text
