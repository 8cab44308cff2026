"""What is heard: how an open string proves a note, and pure double stops in figures."""

from collections.abc import Iterable, Sequence

from bookgen.model.ear import PureStop, easiest, sung
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.stop import Note
from bookgen.words.names import interval_name
from bookgen.words.speech import Speech


def ear_proof(notes: Sequence[Note], instrument: Instrument, speech: Speech) -> str:
    """How an open string proves one of the notes; where none does, how the first one is sung.

    notes: at least one.
    """
    check = easiest(notes, instrument)
    if check is None or check.open_string == check.note.stop.string:
        return sung_proof(notes[0] if check is None else check.note, instrument, speech)
    note = check.note
    facts = {
        "note": note.pitch,
        "finger": note.stop.finger,
        "string": NUMERALS[note.stop.string],
        "open": speech.note(instrument.open_pitch(check.open_string)),
    }
    if check.rings:
        return speech.say(
            "<b>Ear</b> {note}, finger {finger} on {string}, is in tune when open {open} rings"
            " along.",
            **facts,
        )
    return speech.say(
        "<b>Ear</b> {note}, finger {finger} on {string}: bow it with open {open}, until the two"
        " are at rest ({interval}).",
        interval=interval_name(check.interval, speech),
        **facts,
    )


def sung_proof(note: Note, instrument: Instrument, speech: Speech) -> str:
    """How a note is sung from its own open string."""
    return speech.say(
        "<b>Ear</b> Play open {open} ({string}), sing {note} above it ({interval}), then play it:"
        " finger {finger} on the same string.",
        open=speech.note(instrument.open_pitch(note.stop.string)),
        string=NUMERALS[note.stop.string],
        note=note.pitch,
        interval=interval_name(sung(note, instrument), speech),
        finger=note.stop.finger,
    )


def cents_line(stops: Iterable[PureStop], speech: Speech) -> str:
    """Under a drill of double stops, for grown players: one line for all kinds of them."""
    return speech.say(
        "<b>Cents</b> against equal temperament, and the difference tone: {figures}.",
        figures="; ".join(figures(stop, speech) for stop in stops),
    )


def figures(stop: PureStop, speech: Speech) -> str:
    """Of a pure double stop: how far it lies from equal temperament, and its difference tone."""
    facts = {
        "interval": interval_name(stop.label, speech),
        "low": stop.low.pitch,
        "high": stop.high.pitch,
        "tone": stop.tone,
        "hz": round(stop.tone_hz),
    }
    if stop.away > 0:
        return speech.count(
            "pure {interval} {low}–{high}: {number} cent wider, {tone} {hz} Hz",  # noqa: RUF001
            "pure {interval} {low}–{high}: {number} cents wider, {tone} {hz} Hz",  # noqa: RUF001
            round(stop.away),
            **facts,
        )
    return speech.count(
        "pure {interval} {low}–{high}: {number} cent narrower, {tone} {hz} Hz",  # noqa: RUF001
        "pure {interval} {low}–{high}: {number} cents narrower, {tone} {hz} Hz",  # noqa: RUF001
        round(-stop.away),
        **facts,
    )
