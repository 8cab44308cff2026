"""A book's spec, a TOML file, as values; or everything that is wrong with it, each in its line."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from bookgen.binder.prepress.book_number import BookNumber
from bookgen.binder.prepress.spine import Stock
from bookgen.errors import BookgenError, Finding, RefusedError, Said, told, why
from bookgen.model.instrument import Instrument
from bookgen.plan.prose import paragraphs
from bookgen.readers.data_file import plain
from bookgen.readers.own_instrument import instrument_at, key_of
from bookgen.readers.shown import shown, unknown
from bookgen.readers.supplement.chapter import Chapter, chapter_of
from bookgen.readers.supplement.spec import CHAPTER, Spec, Worded, place_of
from bookgen.readers.supplement.tables import WORDS, ChapterTable, SpecTable, Texts, Titles
from bookgen.readers.table import converted
from bookgen.readers.toml_lines import Lines
from bookgen.words.speech import languages

MEND: Final = told("mend the file; `bookgen new-supplement` writes one that is explained")
MOST_CHAPTERS: Final = 200
TITLE: Final = told('write e.g. title = "First Crossings"')


def parse_spec(text: str, file: str, folder: Path) -> Spec:
    """Read the text of a spec.

    file: the name under which the user knows it; folder: to which paths in it are relative.

    Raises:
        BookgenError: the text is no TOML, or something in it is wrong; all of that is told.
    """
    values, lines = plain(text, file, MEND), Lines(text)
    reading = Reading(file, lines, folder, [])
    table = reading.table(values, SpecTable, None)
    instruments = reading.instruments(table.instruments)
    reading.known_languages(table.languages)
    if "title" not in values:
        reading.find("title", None, told("the book has no title"), TITLE)
    chapters = values.get(CHAPTER, [])
    if isinstance(chapters, list) and not 1 <= len(chapters) <= MOST_CHAPTERS:
        problem = told("there are {count} chapters", count=len(chapters))
        mend = told("write 1 to {most} tables [[chapter]]", most=MOST_CHAPTERS)
        reading.find(CHAPTER, None, problem, mend)
    spec = reading.spec(table, instruments)
    if reading.findings:
        raise BookgenError(*reading.findings)
    return spec


@dataclass(frozen=True, slots=True)
class Reading:
    """A spec while it is read; findings: what was wrong so far."""

    file: str
    lines: Lines
    folder: Path
    findings: list[Finding]

    def find(self, key: str, chapter: int | None, problem: Said, mend: Said) -> None:
        """Note what is wrong with a key."""
        self.findings.append(Finding(place_of(self.file, self.lines, key, chapter), problem, mend))

    def table[Table: (SpecTable, ChapterTable)](
        self, value: object, kind: type[Table], chapter: int | None
    ) -> Table:
        """A table of the file, checked by its shape."""
        here: Said = self.file
        if chapter is not None:
            here = told("{file}, chapter {number}", file=self.file, number=chapter + 1)
        return converted(
            value,
            kind,
            here,
            self.findings,
            words=WORDS,
            at=lambda key: place_of(self.file, self.lines, key, chapter),
        )

    def instruments(self, given: Sequence[str]) -> dict[str, Instrument]:
        """The instruments of that name, or of that file."""
        found: dict[str, Instrument] = {}
        place = place_of(self.file, self.lines, "instruments")
        for name in given:
            try:
                instrument = instrument_at(name, self.folder, place)
            except BookgenError as error:
                self.findings.extend(error.findings)
            else:
                found[instrument.key] = instrument
        return found

    def known_languages(self, given: Sequence[str]) -> None:
        """Note languages that have no catalogue."""
        for name in given:
            if name not in languages():
                problem = told("there is no catalogue of the language {name}", name=shown(name))
                place = place_of(self.file, self.lines, "languages")
                self.findings.append(unknown(place, problem, name, tuple(languages())))

    def spec(self, table: SpecTable, instruments: Mapping[str, Instrument]) -> Spec:
        """The whole spec."""
        chapters = self.chapters(table, instruments)
        said = tuple(dict.fromkeys(table.languages))
        return Spec(
            file=self.file,
            folder=self.folder,
            lines=self.lines,
            title=self.titles(table.title, said),
            subtitle=self.worded(table.subtitle, "subtitle", said),
            author=table.author or "",
            edition=self.worded(table.edition, "edition", said),
            imprint=self.prose(table.imprint, "imprint", said),
            preface=self.prose(table.preface, "preface", said),
            back=self.prose(table.back, "back", said),
            numbers=self.numbers(table.isbn),
            stock=Stock(table.paper_grams, table.paper_bulk) if table.paper_grams else None,
            instruments=instruments,
            sizes=self.sizes(table.size, instruments),
            languages=said,
            kinds=tuple(dict.fromkeys(table.editions)),
            paper=table.paper,
            layout=table.layout,
            chapters=tuple(chapter for chapter, _ in chapters),
            worded=tuple(worded for _, worded in chapters),
        )

    def sizes(
        self, given: str | Mapping[str, str] | None, instruments: Mapping[str, Instrument]
    ) -> dict[str, str]:
        """The size of each instrument: its usual one, where none is given."""
        own = dict(given) if isinstance(given, Mapping) else dict.fromkeys(instruments, given or "")
        for name in own.keys() - instruments.keys():
            problem = told("the book is not for the {instrument}", instrument=shown(name))
            self.find("size", None, problem, told("name it among the instruments of the book too"))
        for key, size in own.items():
            known = [one.name for one in instruments[key].sizes] if key in instruments else []
            if size and known and size not in known:
                problem = told("{instrument} has no size {size}", instrument=key, size=shown(size))
                mend = told("choose {known}", known=", ".join(known))
                self.find("size", None, problem, mend)
        return {key: own.get(key) or one.sizes[0].name for key, one in instruments.items()}

    def numbers(self, given: Mapping[str, str]) -> dict[str, BookNumber]:
        """The numbers of the editions, by their names."""
        found = {}
        for name, text in given.items():
            try:
                found[name] = BookNumber.parse(text)
            except RefusedError as error:
                mend = told("write all its digits; it begins with 978 or 979")
                self.find("isbn", None, error.message, mend)
        return found

    def chapters(
        self, table: SpecTable, instruments: Mapping[str, Instrument]
    ) -> list[tuple[Chapter, Worded]]:
        """Every chapter with its words."""
        said = tuple(dict.fromkeys(table.languages))
        found = []
        for index, value in enumerate(table.chapter[:MOST_CHAPTERS]):
            own = self.table(value, ChapterTable, index)
            if isinstance(value, dict) and "title" not in value:
                self.find("title", index, told("the chapter has no title"), TITLE)
            worded = Worded(
                self.titles(own.title, said, index),
                self.prose(own.text, "text", said, index),
                self.prose(own.for_teacher, "for_teacher", said, index),
            )
            found.append((self.chapter(own, index, instruments), worded))
        return found

    def chapter(
        self, table: ChapterTable, index: int, instruments: Mapping[str, Instrument]
    ) -> Chapter:
        """What a chapter asks for."""
        here = dict(instruments)
        if table.instruments is not None:
            own = {key_of(name) or name for name in table.instruments}
            for name in sorted(own - instruments.keys()):
                problem = told("the book is not for the {instrument}", instrument=shown(name))
                mend = told("name it among the instruments of the book too")
                self.find("instruments", index, problem, mend)
            here = {name: one for name, one in instruments.items() if name in own}
        chapter, wrong = chapter_of(table, here)
        for key, *said in wrong:
            self.find(key, index, *said)
        return chapter

    def worded(
        self,
        given: Titles | Texts | None,
        key: str,
        said: Sequence[str],
        chapter: int | None = None,
    ) -> dict[str, str]:
        """Words for each language of the book."""
        if not isinstance(given, dict):
            return dict.fromkeys(said, given or "")
        for language in said:
            if language not in given:
                problem = told("nothing is written in the language {name}", name=language)
                mend = told("write {key}.{name}", key=key, name=language)
                self.find(key, chapter, problem, mend)
        for language in given.keys() - {*said}:
            problem = told("the book is not in the language {name}", name=shown(language))
            mend = told("name it among the languages of the book, or leave the words out")
            self.find(key, chapter, problem, mend)
        return dict(given)

    def titles(
        self, given: Titles | None, said: Sequence[str], chapter: int | None = None
    ) -> dict[str, str]:
        """The title of the book or a chapter for each language; it is not blank."""
        found, told_as = self.worded(given, "title", said, chapter), WORDS["title"]
        for title in dict.fromkeys(found.values()):
            if title.isspace():
                problem = told_as.problem.about(value=shown(title))
                self.find("title", chapter, problem, told_as.mend)
        return found

    def prose(
        self, given: Texts, key: str, said: Sequence[str], chapter: int | None = None
    ) -> dict[str, str]:
        """A text in Markdown for each language of the book."""
        found = self.worded(given, key, said, chapter)
        for problem in faults(found):
            mend = told("write paragraphs with **bold** and *italic* words only")
            self.find(key, chapter, problem, mend)
        return {language: text.strip() for language, text in found.items()}


def faults(texts: Mapping[str, str]) -> Iterator[Said]:
    """What in texts is more of Markdown than is printed."""
    for text in dict.fromkeys(texts.values()):
        try:
            paragraphs(text)
        except ValueError as error:
            yield why(error)
