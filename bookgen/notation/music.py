"""A planned drill as an abjad score, and the score as LilyPond's notes."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from typing import Final

import abjad

from bookgen.model.event import Begins, Event
from bookgen.model.instrument import Instrument
from bookgen.model.pitch import Pitch
from bookgen.notation.clef import clef_name
from bookgen.notation.label import Labels, from_low, labels_of, opens_line
from bookgen.plan.document import PlannedDrill

BARS: Final = {Begins.GROUP: ",", Begins.TURN: "||"}
"""A short bar between layings of the hand, a double one where the way back begins."""

FINAL_BAR: Final = "|."

SOUNDS: Final = {
    "violin": "violin",
    "viola": "viola",
    "cello": "cello",
    "bass": "contrabass",
}
"""MIDI instruments by the key of the instrument's file; others sound like a violin."""


def lilypond_music(planned: PlannedDrill, instrument: Instrument, *, intervals: bool = True) -> str:
    """The LilyPond text of one drill's staff, as it is read.

    intervals: with moves and intervals below the staff.
    """
    staff, leaves = bare_staff(planned, instrument)
    labels = labels_of(planned, instrument)
    ends = [*(opens_line(event, planned.events) for event in planned.events[1:]), False]
    for leaf, label, line_ends in zip(leaves, labels, ends, strict=True):
        write_fingers(leaf, label.fingers)
        write_strings(leaf, label.strings)
        write_naturals(leaf, label)
        if intervals:
            write_interval(leaf, label, line_ends=line_ends)
    write_octave_signs(leaves, labels)
    return str(abjad.lilypond(staff))


def lilypond_sound(planned: PlannedDrill, instrument: Instrument) -> str:
    """The LilyPond text of one drill's staff with nothing on it that makes no sound."""
    return str(abjad.lilypond(bare_staff(planned, instrument)[0]))


def bare_staff(
    planned: PlannedDrill, instrument: Instrument
) -> tuple[abjad.Staff, list[abjad.Note | abjad.Chord]]:
    """Clef, notes, ties and bars; and the leaves, one for each event, that labels hang on.

    There is one voice, or two where notes are held while others join.
    """
    events = planned.events
    holds = any(note.held for event in events for note in event.notes)
    leaves = [upper_leaf(event, apart=holds) for event in events]
    voices = [abjad.Voice(leaves, name="Upper")]
    if holds:
        lower = lower_leaves(events)
        voices.append(abjad.Voice(lower, name="Lower"))
        share_the_staff(leaves, lower, events)
        tie_held_notes(leaves, lower, events)
    abjad.attach(abjad.Clef(clef_name(planned, instrument)), leaves[0])
    write_bars(leaves, events)
    return abjad.Staff(voices, simultaneous=holds), leaves


def named(pitch: Pitch) -> abjad.NamedPitch:
    """The same pitch in abjad's words."""
    return abjad.NamedPitch(str(pitch))


def length(duration: Fraction) -> abjad.Duration:
    """The same duration in abjad's words."""
    return abjad.Duration(duration.numerator, duration.denominator)


def upper_leaf(event: Event, *, apart: bool) -> abjad.Note | abjad.Chord:
    """The event's note or chord; of two voices, the note of the higher string."""
    notes = from_low(event)
    pitches = [named(note.pitch) for note in notes]
    if len(pitches) == 1 or apart:
        return abjad.Note.from_duration_and_pitch(length(event.duration), pitches[-1])
    return abjad.Chord.from_duration_and_pitches(length(event.duration), pitches)


def lower_leaves(events: Sequence[Event]) -> list[abjad.Leaf]:
    """The notes of the lower string where two sound, and room where one sounds."""
    return [
        abjad.Note.from_duration_and_pitch(length(event.duration), named(from_low(event)[0].pitch))
        if len(event.notes) > 1
        else abjad.Skip.from_duration(length(event.duration))
        for event in events
    ]


def share_the_staff(
    upper: Sequence[abjad.Leaf], lower: Sequence[abjad.Leaf], events: Sequence[Event]
) -> None:
    """Turn stems apart where two voices sound, and leave a lone note its own stem."""
    abjad.attach(abjad.VoiceNumber(2), lower[0])
    before = 0
    for leaf, event in zip(upper, events, strict=True):
        if len(event.notes) != before:
            abjad.attach(abjad.VoiceNumber(1 if len(event.notes) > 1 else None), leaf)
        before = len(event.notes)


def tie_held_notes(
    upper: Sequence[abjad.Leaf], lower: Sequence[abjad.Leaf], events: Sequence[Event]
) -> None:
    """Tie each held note to where it sounded before, bent away from the other voice."""
    leaves = zip(upper, lower, strict=True)
    for (above, below), (here, there) in zip(leaves, pairwise(events), strict=False):
        for held in (note for note in there.notes if note.held):
            sounding = [note.stop for note in from_low(here)]
            under = len(sounding) > 1 and sounding[0] == held.stop
            leads_under = len(there.notes) > 1 and from_low(there)[0].stop == held.stop
            direction = abjad.DOWN if under or leads_under else abjad.UP
            abjad.attach(abjad.Tie(), below if under else above, direction=direction)


def write_fingers(leaf: abjad.Leaf, fingers: Sequence[int]) -> None:
    """Finger numbers above the note, that of the higher string on top."""
    for row, finger in enumerate(fingers):
        post_event(leaf, f"atFinger {row} {finger}", abjad.UP)


def write_strings(leaf: abjad.Leaf, numeral: str) -> None:
    """The string's numeral, on a line of its own above the fingers."""
    if numeral:
        abjad.attach(abjad.Markup(rf'\markup "{numeral}"'), leaf, direction=abjad.UP)


def write_interval(leaf: abjad.Leaf, label: Labels, *, line_ends: bool) -> None:
    """The move to the next note, and the interval of two that sound together."""
    if label.within:
        post_event(leaf, f'together "{label.within}"')
    if label.move:
        place = "atLineEnd \\" if line_ends else ""
        post_event(leaf, f'{place}{label.move.shape} "{label.move.text}"')


def post_event(leaf: abjad.Leaf, words: str, direction: abjad.Vertical | None = None) -> None:
    """Hang a command of ours on a note; abjad has no class for these."""
    abjad.attach(abjad.Articulation(words), leaf, direction=direction)


def write_naturals(leaf: abjad.Note | abjad.Chord, label: Labels) -> None:
    """Make naturals visible where the player needs them."""
    wanted = {str(named(pitch)) for pitch in label.naturals}
    heads = leaf.note_heads() if isinstance(leaf, abjad.Chord) else [leaf.note_head()]
    for head in heads:
        if str(head.written_pitch()) in wanted:
            head.set_is_forced(True)


def write_bars(leaves: Sequence[abjad.Leaf], events: Sequence[Event]) -> None:
    """Bars before what opens, and the final bar; a long drill turns back on a new line."""
    for leaf, event in zip(leaves, events[1:], strict=False):
        if event.begins in BARS:
            abjad.attach(abjad.BarLine(BARS[event.begins]), leaf)
        if opens_line(event, events):
            abjad.attach(abjad.LilyPondLiteral(r"\break", site="after"), leaf)
    abjad.attach(abjad.BarLine(FINAL_BAR), leaves[-1])


def write_octave_signs(leaves: Sequence[abjad.Leaf], labels: Sequence[Labels]) -> None:
    """Begin and end the runs under an 8va sign."""
    for index, (leaf, label) in enumerate(zip(leaves, labels, strict=True)):
        before = labels[index - 1].octave_sign if index else False
        if label.octave_sign != before:
            abjad.attach(abjad.Ottava(int(label.octave_sign)), leaf)
    if labels[-1].octave_sign:
        abjad.attach(abjad.Ottava(0, site="after"), leaves[-1])
