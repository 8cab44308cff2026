"""From a book's spec to the plans of its editions."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from msgspec.structs import replace

from bookgen.errors import BookgenError, Finding, Said, told
from bookgen.model.instrument import Instrument
from bookgen.model.weights import Effort
from bookgen.plan.document import Binding, DrillEntry, Plan
from bookgen.plan.supplement import Chapter, Supplement
from bookgen.planner.area import Area
from bookgen.planner.chapters import Asked, Exercise, entries_of, numbered
from bookgen.planner.difficulty import difficulty
from bookgen.planner.selection import By, Query, chosen
from bookgen.readers.supplement.chapter import ANY, EVERY, PASSAGE, PICKED, WAY, Search
from bookgen.readers.supplement.spec import Spec
from bookgen.readers.weights import read_weights
from bookgen.tasks.supplement_music import Led, Music

if TYPE_CHECKING:
    from bookgen.model.drill import Drill

MOST_DRILLS: Final = 2000
"""In one book: that many fill about 270 pages of A4."""

TEACHER: Final = "teacher"
MEMORY: Final = "from-memory"

NO_MUSIC: Final[Music] = {}

Chapters = Sequence[Sequence[Exercise]]


@dataclass(frozen=True, slots=True)
class Edition:
    """One of the parallel books of a spec; kind: "student", "teacher" or "from-memory"."""

    instrument: Instrument
    language: str
    kind: str

    @property
    def name(self) -> str:
        """What `--only` takes, and the end of the file's name."""
        return f"{self.instrument.key}-{self.language}-{self.kind}"

    def called(self, only: str) -> bool:
        """Whether a name, or the beginning of one, means it."""
        return f"{self.name}-".startswith(f"{only}-")


def editions_of(spec: Spec) -> Iterator[Edition]:
    """Every edition of a spec."""
    for instrument in spec.instruments.values():
        for language in spec.languages:
            for kind in spec.kinds:
                yield Edition(instrument, language, kind)


def chapters_of(spec: Spec, music: Music = NO_MUSIC) -> list[list[Exercise]]:
    """The chapters of all editions, their drills numbered throughout.

    music: the passages of the spec.

    Raises:
        BookgenError: a chapter has no drill for an instrument, or a book has too many.
    """
    effort = read_weights().effort
    asked = [asked_of(index, spec, effort, music) for index in range(len(spec.chapters))]
    found = numbered(asked, spec.instruments, effort)
    findings = [*faults(spec, asked, found)]
    if findings:
        raise BookgenError(*findings)
    return found


def asked_of(index: int, spec: Spec, effort: Effort, music: Music) -> Asked:
    """What a chapter asks for, on each of its instruments; index: of the chapter, from 0."""
    chapter = spec.chapters[index]
    least, most = chapter.difficulty
    drills: dict[str, list[Drill]] = {}
    for key in chapter.instruments:
        if chapter.take == PASSAGE:
            drills[key] = music[index, key].drills
        elif chapter.take == PICKED:
            drills[key] = [*chapter.picked[key]]
        else:
            instrument = spec.instruments[key]
            every = chosen(query_of(chapter.searches[key]), instrument)
            drills[key] = [
                drill for drill in every if least <= difficulty(drill, instrument, effort) <= most
            ]
    order = tuple(map(By, chapter.order)) if chapter.take == EVERY else None
    return Asked(drills, order, chapter.take == WAY, chapter.limit)


def query_of(search: Search) -> Query:
    """What a spec looks for, as the planner knows it."""
    area = Area(search.frames, search.positions, search.strings, max(search.stages))
    return Query(area, search.stages, search.leads, search.backs)


def faults(spec: Spec, asked: Sequence[Asked], found: Chapters) -> Iterator[Finding]:
    """Chapters without drills, and books with too many.

    To a passage the drills of earlier chapters may lead already.
    """
    for index, exercises in enumerate(found):
        chapter = spec.chapters[index]
        for key in chapter.instruments:
            before = bool(asked[index].found[key])
            led = before and chapter.take == PASSAGE
            if not led and not any(key in one.drills for one in exercises):
                yield without_drill(spec, index, key, before=before)
    for key in spec.instruments:
        count = sum(key in one.drills for exercises in found for one in exercises)
        if count > MOST_DRILLS:
            problem = told(
                "the book for {instrument} has {count} drills", instrument=key, count=count
            )
            mend = told("give its chapters a limit; {most} are the most", most=MOST_DRILLS)
            yield Finding(spec.place("chapter"), problem, mend)
        elif not any(key in chapter.instruments for chapter in spec.chapters):
            problem = told("no chapter is for {instrument}", instrument=key)
            yield Finding(spec.place("instruments"), problem, told("leave it out"))


def without_drill(spec: Spec, index: int, instrument: str, *, before: bool) -> Finding:
    """A chapter has no drill for an instrument; before: earlier chapters have them all."""
    chapter = spec.chapters[index]
    search = chapter.searches.get(instrument)
    if not before and search is not None and chapter.difficulty != ANY:
        own, effort = spec.instruments[instrument], read_weights().effort
        hard = [difficulty(drill, own, effort) for drill in chosen(query_of(search), own)]
        if hard:
            problem = told(
                "none of the drills for {instrument} is that easy or that hard",
                instrument=instrument,
            )
            mend = told(
                "give a limit between {least} and {most}",
                least=f"{min(hard):.1f}",
                most=f"{max(hard):.1f}",
            )
            return Finding(spec.place("difficulty", index), problem, mend)
    return Finding(
        spec.place("title", index),
        no_drill(instrument, before=before),
        told(
            "widen the chapter, or leave {instrument} out of its instruments", instrument=instrument
        ),
    )


def no_drill(instrument: str, *, before: bool) -> Said:
    """Why a chapter has no drill for an instrument; before: earlier chapters have them all."""
    if before:
        return told(
            "every drill for {instrument} stands in an earlier chapter", instrument=instrument
        )
    return told("there is no such drill for {instrument}", instrument=instrument)


def plan_of(
    spec: Spec,
    chapters: Chapters,
    edition: Edition,
    binding: Binding,
    music: Music = NO_MUSIC,
) -> Plan:
    """The plan of an edition.

    binding: how it is bound, but for its words and chapters; music: the passages of the spec.
    """
    instrument = edition.instrument
    led = [music.get((index, instrument.key)) for index in range(len(spec.chapters))]
    entries = entries_of(
        chapters, instrument, [one.names(instrument) if one else {} for one in led]
    )
    number = spec.numbers.get(edition.name)
    book = Supplement(
        title=spec.title[edition.language],
        chapters=tuple(said_of(spec, entries, led, edition.language)),
        subtitle=spec.subtitle[edition.language] or None,
        author=spec.author or None,
        edition=spec.edition[edition.language] or None,
        imprint=spec.imprint[edition.language],
        number=number.written if number else None,
        preface=spec.preface[edition.language],
        teacher=edition.kind == TEACHER,
    )
    return Plan(
        instrument=instrument.key,
        size=spec.sizes[instrument.key],
        player=None,
        seed=0,
        title=book.title,
        drills=tuple(entry for own in entries for entry in own),
        binding=replace(binding, supplement=book),
    )


def said_of(
    spec: Spec,
    entries: Sequence[Sequence[DrillEntry]],
    led: Sequence[Led | None],
    language: str,
) -> Iterator[Chapter]:
    """The chapters of an edition that have drills.

    entries: of all chapters; led: the passages to which they lead.
    """
    for worded, own, one in zip(spec.worded, entries, led, strict=True):
        if own:
            yield Chapter(
                title=worded.title[language],
                numbers=tuple(entry.number for entry in own),
                text=worded.text[language],
                for_teacher=worded.for_teacher[language],
                piece=one.piece if one else None,
            )
