"""Which results are taken back: those of the last call, or the last ones of some drills."""

from collections.abc import Sequence

from bookgen.errors import BookgenError, Finding, Message
from bookgen.studio.entries import Entered, KeptDrill


def standing_results(history: Sequence[Entered]) -> list[Entered]:
    """The results that were not taken back, also those that a later one stands for."""
    return [entry for entry in history if entry.result is not None and not entry.taken_back]


def last_call(standing: Sequence[Entered]) -> list[Entered]:
    """The results that were entered last, all of one instant.

    Raises:
        BookgenError: there is none.
    """
    if not standing:
        nothing = Finding("--undo", Message("log-no-results"), Message("log-enter-first"))
        raise BookgenError(nothing)
    last = max(entry.entered for entry in standing)
    return [entry for entry in standing if entry.entered == last]


def last_results(
    player: str,
    numbers: Sequence[int],
    drills: Sequence[KeptDrill],
    standing: Sequence[Entered],
) -> list[Entered]:
    """The result that was entered last of each drill that has one of the numbers.

    Raises:
        BookgenError: a number has none.
    """
    keys = {number: drill.key for drill in drills for number in drill.numbers}
    latest = {keys[entry.number]: entry for entry in standing}
    ordered = sorted(set(numbers))
    findings = [
        Finding(
            Message("log-place", {"player": player, "number": number}),
            Message("log-no-result"),
            Message("log-leave-out"),
        )
        for number in ordered
        if keys.get(number) not in latest
    ]
    if findings:
        raise BookgenError(*findings)
    return [latest[key] for key in dict.fromkeys(keys[number] for number in ordered)]
