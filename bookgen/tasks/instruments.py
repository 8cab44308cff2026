"""The instruments at hand, by their keys."""

from bookgen.errors import BookgenError, Finding, Said, told
from bookgen.model.drill import Drill
from bookgen.model.instrument import Instrument
from bookgen.plan.decoder import FindInstrument
from bookgen.readers.instrument import instrument_keys, read_instrument
from bookgen.readers.own_instrument import ENDING, KEY, read_own
from bookgen.readers.variant import variant_in
from bookgen.tasks.roster import choose
from bookgen.tasks.studio_folder import StudioFolder


def finder(folder: StudioFolder, given: Instrument | None = None) -> FindInstrument:
    """Looks up an instrument by its key.

    It is the one that is given, of the package, of a player on the roster, that of a file in the
    folder whose name is the key, or one of these with other strings or positions, as the key says.
    """

    def find(key: str) -> Instrument | None:
        if given is not None and given.key == key:
            return given
        if key in instrument_keys():
            return read_instrument(key)
        for player in folder.studio.players.values():
            if player.own is not None and player.own.key == key:
                return player.own
        name = f"{key}{ENDING}"
        if KEY.fullmatch(key) and (folder.path / name).is_file():
            return read_own(name, folder.path, name)
        variant = variant_in(key)
        base = None if variant is None else find(variant.base)
        return None if variant is None or base is None else variant.make(base, key)

    return find


def instrument_of_drill(drill: Drill, find: FindInstrument, place: Said) -> Instrument:
    """The instrument that a drill's key names.

    place: where the key was given.

    Raises:
        BookgenError: there is none of that name.
    """
    found = find(drill.instrument)
    if found is None:
        problem = told("no instrument {name}", name=repr(drill.instrument))
        raise BookgenError(Finding(place, problem, choose(drill.instrument, instrument_keys())))
    return found
