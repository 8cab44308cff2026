"""What is heard: how an open string proves a note, and pure double stops in figures."""

from collections.abc import Iterable, Sequence

from bookgen.model.ear import PureStop, easiest, easiest_sung, sung
from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.model.stop import Note
from bookgen.model.tuned import Left
from bookgen.words.names import finger_name, interval_name
from bookgen.words.speech import Speech


def ear_proof(notes: Sequence[Note], instrument: Instrument, speech: Speech) -> str:
    """How an open string proves one of the notes; where none does, how the easiest one is sung.

    notes: at least one.
    """
    check = easiest(notes, instrument)
    if check is None:
        return sung_proof(easiest_sung(notes), instrument, speech)
    note = check.note
    facts = {
        "note": note.pitch,
        "finger": finger_name(note.stop.finger, speech),
        "string": NUMERALS[note.stop.string],
        "open": speech.note(instrument.open_pitch(check.open_string)),
    }
    if check.rings:
        return speech.say(
            "<b>Ear</b> {note}, {finger} on {string}, is in tune when open {open} rings along.",
            **facts,
        )
    return speech.say(
        "<b>Ear</b> {note}, {finger} on {string}: bow it with open {open}, until the two"
        " are at rest ({interval}).",
        interval=interval_name(check.interval, speech),
        **facts,
    )


def sung_proof(note: Note, instrument: Instrument, speech: Speech) -> str:
    """How a note is sung from its own open string."""
    return speech.say(
        "<b>Ear</b> Play open {open} ({string}), sing {note} above it ({interval}), then play it:"
        " {finger} on the same string.",
        open=speech.note(instrument.open_pitch(note.stop.string)),
        string=NUMERALS[note.stop.string],
        note=note.pitch,
        interval=interval_name(sung(note), speech),
        finger=finger_name(note.stop.finger, speech),
    )


def tune_line(left: Left, speech: Speech, *, cents: bool) -> str:
    """To which neighbour a note is tuned that cannot be pure with both.

    cents: what the other interval then is, in figures.
    """
    facts: dict[str, object] = {
        "note": left.tuned.pitch,
        "other": speech.say("open {string}", string=speech.note(left.to))
        if left.open_string
        else left.to,
        "by": interval_name(left.by, speech),
        "interval": interval_name(left.label, speech),
        "low": left.low.pitch,
        "high": left.high.pitch,
    }
    return tuned_cents(left, facts, speech) if cents else tuned(left, facts, speech)


def tuned(left: Left, facts: dict[str, object], speech: Speech) -> str:
    """To what a note is tuned, and what its other interval then is."""
    if left.away > 0:
        return speech.say(
            "<b>Tune</b> {note} to {other} ({by}); the {interval}"
            " {low}–{high} is then a little wide.",  # noqa: RUF001
            **facts,
        )
    return speech.say(
        "<b>Tune</b> {note} to {other} ({by}); the {interval}"
        " {low}–{high} is then a little narrow.",  # noqa: RUF001
        **facts,
    )


def tuned_cents(left: Left, facts: dict[str, object], speech: Speech) -> str:
    """The same in figures."""
    if left.away > 0:
        return speech.count(
            "<b>Tune</b> {note} to {other} ({by}); the {interval}"
            " {low}–{high} is then {number} cent wider than pure.",  # noqa: RUF001
            "<b>Tune</b> {note} to {other} ({by}); the {interval}"
            " {low}–{high} is then {number} cents wider than pure.",  # noqa: RUF001
            round(left.away),
            **facts,
        )
    return speech.count(
        "<b>Tune</b> {note} to {other} ({by}); the {interval}"
        " {low}–{high} is then {number} cent narrower than pure.",  # noqa: RUF001
        "<b>Tune</b> {note} to {other} ({by}); the {interval}"
        " {low}–{high} is then {number} cents narrower than pure.",  # noqa: RUF001
        round(-left.away),
        **facts,
    )


def cents_line(stops: Iterable[PureStop], speech: Speech) -> str:
    """Under a drill of double stops, for grown players: one line for all kinds of them."""
    return speech.say(
        "<b>Cents</b> against equal temperament, and the difference tone: {figures}.",
        figures=speech.apart(figures(stop, speech) for stop in stops),
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
    if not round(stop.away):
        return speech.say("pure {interval} {low}–{high}: no wider, {tone} {hz} Hz", **facts)  # noqa: RUF001
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
