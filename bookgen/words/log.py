"""What a screen says of a practice log: the heads of its table, and a drill in one line."""

from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.model.route import Return
from bookgen.words.drill import hand_name
from bookgen.words.names import position_name, strings_name
from bookgen.words.speech import Speech


def heads(speech: Speech) -> tuple[str, ...]:
    """Over the columns of a player's printed drills."""
    return (
        speech.say_in("log table", "No."),
        speech.say_in("log table", "days"),
        speech.say_in("log table", "last for"),
        speech.say_in("log table", "result"),
        speech.say_in("log table", "on"),
        speech.say_in("log table", "drill"),
    )


def drill_line(drill: Drill, position: str, instrument: Instrument, speech: Speech) -> str:
    """A drill in one line.

    position: its code in the plan document.
    """
    facts = {
        "hand": hand_name(drill, speech),
        "position": position_name(position, speech),
        "strings": strings_name(drill.strings, instrument, speech),
        "stage": drill.stage,
        "finger": drill.order[0],
    }
    if drill.back is Return.MIRROR:
        return speech.say(
            "{hand}, {position}, {strings}, stage {stage}, finger {finger} begins, the way back"
            " mirrored",
            **facts,
        )
    return speech.say(
        "{hand}, {position}, {strings}, stage {stage}, finger {finger} begins, the same way back",
        **facts,
    )
