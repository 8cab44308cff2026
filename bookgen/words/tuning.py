"""How strings are tuned that are not tuned in the ordinary way; stated on every page."""

from bookgen.model.instrument import NUMERALS, Instrument
from bookgen.words.names import instrument_name
from bookgen.words.speech import Speech


def tuning_line(instrument: Instrument, speech: Speech) -> str:
    """The open strings by their notes, from I; nothing where the tuning is the ordinary one.

    Notes are those that are written: a double bass sounds an octave lower, as it always does.
    """
    if instrument.ordinary is None:
        return ""
    strings = [
        speech.say_in("string and note", "{string} {note}", string=numeral, note=speech.note(new))
        if new == old
        else speech.say_in(
            "string and note",
            "{string} {note} (not {ordinary})",
            string=numeral,
            note=speech.note(new),
            ordinary=speech.note(old),
        )
        for numeral, new, old in zip(
            NUMERALS[1:], instrument.strings, instrument.ordinary.strings, strict=False
        )
    ]
    return speech.say(
        "<b>{instrument}, scordatura</b> {strings}.",
        instrument=instrument_name(instrument, speech),
        strings=speech.listed(strings),
    )
