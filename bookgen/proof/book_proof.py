"""A finished book compared with its plan: drills, contents, indexes, fingerboard."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property, partial

from bookgen.errors import Message, told
from bookgen.model.instrument import Instrument
from bookgen.plan.document import DrillEntry, Plan
from bookgen.plan.supplement import Supplement
from bookgen.proof.atlas_proof import atlas_faults
from bookgen.proof.contents_proof import contents_faults
from bookgen.proof.cores import looked_at
from bookgen.proof.drill_proof import Measure, chart_faults, word_faults
from bookgen.proof.fault import Fault
from bookgen.proof.index_proof import index_faults
from bookgen.proof.located import Located, found_on, located
from bookgen.proof.music_proof import music_faults
from bookgen.proof.staff import Music
from bookgen.words.drill import hand_name, link_line, way_name
from bookgen.words.drill_title import place_name
from bookgen.words.names import place_short
from bookgen.words.passage_ladders import links_in
from bookgen.words.shift import shift_short
from bookgen.words.speech import Speech


@dataclass(frozen=True, slots=True)
class Setting:
    """How the book is set.

    number_pt: size of the drills' numbers; titled: a block says what its drill is.
    clean: makes of a publisher's words what can be printed of them.
    """

    number_pt: float
    titled: bool
    clean: Callable[[str], str]


def read_book(pdf: bytes, plan: Plan, instrument: Instrument, setting: Setting) -> Located:
    """A finished book with what stands where."""
    look = partial(
        found_on,
        numbers=frozenset(entry.number for entry in plan.drills),
        size=setting.number_pt,
        strings=len(instrument.strings),
    )
    return located(looked_at(pdf, look))


def faults_of(
    book: Located, plan: Plan, instrument: Instrument, setting: Setting, speech: Speech
) -> list[Fault]:
    """Everything in a finished book that is not as its plan has it.

    Raises:
        ValueError: the plan is of no book.
    """
    if plan.binding is None or plan.binding.supplement is None:
        msg = "the plan has no chapters"
        raise ValueError(msg)
    proof = Proof(plan, instrument, setting, speech, book)
    return [
        *book.faults([entry.number for entry in plan.drills]),
        *proof.drill_faults(),
        *proof.list_faults(plan.binding.supplement),
    ]


@dataclass(frozen=True)
class Proof:
    """A book that has been read, beside its plan."""

    plan: Plan
    instrument: Instrument
    setting: Setting
    speech: Speech
    book: Located

    @property
    def from_memory(self) -> bool:
        """The notes stand apart from the drills."""
        return self.plan.binding is not None and self.plan.binding.from_memory

    @cached_property
    def measure(self) -> Measure:
        """By what charts and the fingerboard are measured."""
        return Measure(self.instrument, self.instrument.size(self.plan.size).string_length_mm)

    @cached_property
    def unread(self) -> frozenset[str]:
        """Signs of another font, of which nothing can be said."""
        return self.book.unread

    @cached_property
    def led(self) -> Mapping[int, str]:
        """What drills are like that lead to a passage and have no link."""
        return links_in(self.plan, self.speech)

    def drill_faults(self) -> Iterator[Fault]:
        """What is wrong in the blocks of the drills, and in the answers."""
        for entry in self.plan.drills:
            for block in self.book.blocks.get(entry.number, ()):
                found = [*word_faults(block, [*self.said(entry)])]
                found += chart_faults(block.chart, entry, self.measure)
                if not self.from_memory:
                    found += self.staff_faults(block.music, entry)
                elif block.music is not None:
                    found.append(told("the notes are printed, and should be remembered"))
                for problem in found:
                    yield Fault(problem, block.page.label, entry.number)
            if self.from_memory:
                yield from self.answer_faults(entry)

    def answer_faults(self, entry: DrillEntry) -> Iterator[Fault]:
        """What is wrong with the notes of a drill that is played from memory."""
        answers = self.book.answers.get(entry.number, ())
        if len(answers) != 1:
            yield Fault(told("its answer is missing"), drill=entry.number)
        for answer in answers:
            for problem in self.staff_faults(answer.music, entry):
                yield Fault(problem, answer.page.label, entry.number)

    def staff_faults(self, music: Music | None, entry: DrillEntry) -> Iterator[Message]:
        """What is wrong in a drill's music, where its signs can be read."""
        return iter(()) if self.unread else music_faults(music, entry)

    def said(self, entry: DrillEntry) -> Iterator[tuple[str, ...]]:
        """What the block of a drill has to say; of each the ways in which it may be said."""
        linked = self.plan.linked(entry)
        ordinary = link_line(entry.link, entry.drill, linked, self.speech)
        yield (self.led.get(entry.number, ordinary),)
        if self.setting.titled:
            yield (hand_name(entry.drill, self.speech),)
            yield place_name(entry, self.speech), self.short_place(entry)
            yield (way_name(entry.drill, self.speech),)

    def short_place(self, entry: DrillEntry) -> str:
        """A drill's position where there is little room."""
        if entry.to_position is not None and entry.to_position != entry.position:
            return shift_short(entry.position, entry.to_position, self.speech)
        return place_short(entry.position, self.speech)

    def list_faults(self, supplement: Supplement) -> Iterator[Fault]:
        """What is wrong in the contents, in the indexes and on the fingerboard."""
        titles = [self.setting.clean(chapter.title) for chapter in supplement.chapters]
        yield from contents_faults(self.book, supplement.chapters, titles, self.speech)
        yield from index_faults(self.book, self.plan.drills, self.speech)
        yield from atlas_faults(self.book.pages, self.instrument, self.measure, self.speech)
