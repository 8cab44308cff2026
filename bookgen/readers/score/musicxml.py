"""A MusicXML score, packed or not: one part's bars as a phrase."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Final
from xml.etree.ElementTree import Element

from bookgen.errors import Finding, told
from bookgen.model.instrument import Instrument
from bookgen.model.marking import Tempo
from bookgen.readers.score.attributes import Attributes
from bookgen.readers.score.bars import printed_numbers, wanted_bars
from bookgen.readers.score.catalog import KEPT, Staff, partwise, staves
from bookgen.readers.score.file import score_text
from bookgen.readers.score.findings import Remarks
from bookgen.readers.score.groups import with_slurs_kept
from bookgen.readers.score.marking import tempos_of
from bookgen.readers.score.old_clef import read_as_meant
from bookgen.readers.score.parts import chosen_part, cleaned, is_named
from bookgen.readers.score.passage import NO_SHIFT, PassageFile, Shift, Wanted, phrase_of
from bookgen.readers.score.staff import OpenBar, staff_bars
from bookgen.readers.score.tree import tree_of

LONGEST_TITLE: Final = 80


def musicxml_passage(data: bytes, wanted: Wanted) -> PassageFile:
    """The wanted bars of the wanted part.

    Raises:
        BookgenError: it is no score, goes beyond the limits, or has no such part or bars.
    """
    file, instrument = wanted.file, wanted.instrument
    root = partwise(tree_of(score_text(data, file), file, KEPT), file)
    found = staves(root)
    staff = found[chosen_part([one.name for one in found], wanted.part, instrument, file)]
    names = bar_names(staff)
    chosen, findings = wanted_bars(names, wanted.bars, file)
    remarks = Remarks(file)
    if not wanted.own:
        read_as_meant(staff, instrument, chosen, names, remarks)
    raw, state = staff_bars(staff, chosen, names, len(instrument.strings), remarks)
    shift = Shift.to_written(instrument)
    if shift.semitones and read_as_written(staff, instrument, transposes=state.transposes):
        shift = NO_SHIFT
        problem = told("the part does not say how it sounds; its notes are read as written")
        mend = told("give the part the transposition of its instrument")
        findings.append(Finding(file, problem, mend))
    tempos = tempos_of(root, staff.part)
    raw = [replace(bar, tempo=tempos.get(at)) for at, bar in zip(chosen, raw, strict=True)]
    if raw:
        raw[0] = replace(raw[0], tempo=running(tempos, chosen.start))
    phrase = with_slurs_kept(phrase_of(raw, shift, remarks))
    return PassageFile(
        title=title_of(root) or cleaned(wanted.stem, LONGEST_TITLE) or file,
        phrase=phrase,
        findings=(*findings, *remarks.findings()),
        part=staff.name.name or None,
        composer=composer_of(root),
    )


def running(tempos: Mapping[int, Tempo], bar: int) -> Tempo | None:
    """How fast a bar goes: the last that was said."""
    said = [index for index in tempos if index <= bar]
    return tempos[max(said)] if said else None


def read_as_written(staff: Staff, instrument: Instrument, *, transposes: bool) -> bool:
    """Whether a part of this instrument leaves out that it sounds elsewhere than it is read."""
    silent = not transposes and not staff.octave_clef
    return silent and is_named(staff.name, instrument)


def bar_names(staff: Staff) -> list[str]:
    """The printed numbers of all bars."""
    measures = staff.part.findall("measure")
    state = Attributes(staff.number)
    first = OpenBar(state, 1, "", Remarks(""))
    first.read(measures[0])
    upbeat = 0 < first.reach < state.bar
    return printed_numbers((measure.get("number") for measure in measures), upbeat=upbeat)


def title_of(root: Element) -> str:
    """The title that the score gives, as it can be printed."""
    for path in ("work/work-title", "movement-title"):
        title = cleaned(root.findtext(path) or "", LONGEST_TITLE)
        if title:
            return title
    return ""


def composer_of(root: Element) -> str:
    """Who the score says has written the music, as it can be printed; empty where it does not."""
    for creator in root.iterfind("identification/creator"):
        if creator.get("type") == "composer":
            return cleaned(creator.text or "", LONGEST_TITLE)
    return ""
