"""Bars of pieces and their hard spots on their way to the page: kept as a whole, or engraved."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bookgen.model.instrument import Instrument
from bookgen.notation.engraved import Engraving
from bookgen.notation.style import Style
from bookgen.plan.passage import Passage
from bookgen.plan.passage_excerpt import Excerpt, excerpts_of
from bookgen.tasks.cache import Cache
from bookgen.tasks.look import Look

if TYPE_CHECKING:
    from bookgen.notation.engraver import Running
    from bookgen.notation.kept import KeptBars
    from bookgen.notation.lilypond import Workshop


@dataclass(frozen=True, slots=True)
class Bars:
    """Music of a piece whose lines hang together: kept, or LilyPond at work on it.

    key: under which it is kept; kept, running: one of them is None.
    """

    key: str
    cache: Cache | None
    kept: "KeptBars | None"
    running: "Running | None"

    @property
    def sources(self) -> tuple[str, ...]:
        """The LilyPond text."""
        return self.kept.sources if self.kept else self.running.sources if self.running else ()

    def finish(self, seconds: float) -> Engraving:
        """The music; LilyPond is waited for, at most that long.

        Raises:
            EngravingError: LilyPond did not do what we meant it to do.
            BookgenError: music is wider than its line.
        """
        if self.running is None:
            return self.kept.engraving if self.kept else Engraving((), ())
        from bookgen.notation.kept import KeptBars, packed  # noqa: PLC0415

        engraving = self.running.finish(seconds)
        if self.cache is not None:
            self.cache.put({self.key: packed(KeptBars(self.sources, engraving))})
        return engraving

    def stop(self) -> None:
        """End what still runs."""
        if self.running is not None:
            self.running.stop()


@dataclass(frozen=True, slots=True)
class Stand:
    """Where bars are engraved, and how.

    shop: each has a folder of its own inside that of the shop: none may lay out its fonts while
        another one reads them.
    """

    instrument: Instrument
    style: Style
    shop: "Workshop"
    cache: Cache | None

    def passage(self, passage: Passage, width_mm: float, name: str) -> Bars:
        """A passage, line by line.

        name: of its folder.

        Raises:
            BookgenError: LilyPond is missing.
        """
        from bookgen.notation.engraver import start_passage  # noqa: PLC0415  slow to import
        from bookgen.notation.kept import facts_of  # noqa: PLC0415

        return self.bars(
            facts_of(passage, width_mm),
            lambda shop: start_passage(passage, self.instrument, self.style, width_mm, shop),
            name,
        )

    def excerpts(self, excerpts: Sequence[tuple[Excerpt, float]], name: str) -> Bars:
        """Excerpts, each with the width of its line.

        name: of their folder.

        Raises:
            BookgenError: LilyPond is missing.
        """
        from bookgen.notation.engraver import start_excerpts  # noqa: PLC0415  slow to import
        from bookgen.notation.kept import facts_of_excerpts  # noqa: PLC0415

        return self.bars(
            facts_of_excerpts(excerpts),
            lambda shop: start_excerpts(excerpts, self.instrument, self.style, shop),
            name,
        )

    def bars(self, facts: object, start: "Callable[[Workshop], Running]", name: str) -> Bars:
        """Music that is made of facts: what is kept of it, else LilyPond at work.

        Raises:
            BookgenError: LilyPond is missing.
        """
        from bookgen.notation.kept import KeptBars, bars_key, unpacked  # noqa: PLC0415

        key = bars_key(facts, self.instrument, self.style, self.shop.lilypond)
        kept = unpacked(self.cache.get(key) or b"", KeptBars) if self.cache else None
        if kept is not None:
            return Bars(key, self.cache, kept, None)
        own = replace(self.shop, folder=self.shop.folder / name)
        own.folder.mkdir()
        return Bars(key, self.cache, None, start(own))


def bars_started(bars: Sequence[Passage], wanted: Look, stand: Stand) -> Iterator[Bars]:
    """The bars of pieces."""
    for number, passage in enumerate(bars):
        width = wanted.desk(stand.instrument, passage.size).sheet.column
        yield stand.passage(passage, width, f"bars-{number}")


def spots_started(bars: Sequence[Passage], wanted: Look, stand: Stand) -> Iterator[Bars | None]:
    """The hard spots of pieces; None where a piece has none."""
    from bookgen.binder.parts.passage.spots import music_mm  # noqa: PLC0415  where wanted

    for number, passage in enumerate(bars):
        if not passage.spots:
            yield None
            continue
        desk = wanted.desk(stand.instrument, passage.size)
        width = music_mm(desk, desk.sheet.column)
        excerpts = [(excerpt, width) for excerpt in excerpts_of(passage)]
        yield stand.excerpts(excerpts, f"spots-{number}")
