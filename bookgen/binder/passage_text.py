"""passage.j2, filled for a passage, for each of its groups and for each of its ladders."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from bookgen.binder.canvas import Face, Style
from bookgen.binder.desk import Desk
from bookgen.binder.names import clean, in_visual_order
from bookgen.binder.passage_hands import HandRow, hand_rows
from bookgen.binder.passage_summary import PassageWords, drills_as_one_day, passage_words
from bookgen.binder.passage_words import (
    PASSAGE,
    PASSAGE_PARTS,
    GroupWords,
    LadderWords,
    group_words,
)
from bookgen.binder.typeset import Paragraph, shorten
from bookgen.plan.passage import Passage
from bookgen.plan.passage_facts import notes_of


@dataclass(frozen=True, slots=True)
class PassageText:
    """A passage with its words.

    found: the parts of the whole passage; named: the same by part, for those that come once.
    groups: words and paragraphs of each group of the best fingering, in their order.
    hands: rows of charts.
    """

    passage: Passage
    facts: PassageWords
    found: Sequence[Paragraph]
    groups: Sequence[tuple[GroupWords, Sequence[Paragraph]]]
    hands: Sequence[HandRow]

    @property
    def named(self) -> Mapping[str, Paragraph]:
        """The paragraphs by part."""
        return {paragraph.part: paragraph for paragraph in self.found}

    def plain(self, part: str) -> str:
        """The words of a part without weight; empty where the template leaves it out."""
        found = self.named.get(part)
        return found.plain if found else ""


def text_of(passage: Passage, desk: Desk) -> PassageText:
    """Fill the template.

    Raises:
        BookgenError: the template is damaged.
    """

    def printable(text: str) -> str:
        return clean(text, desk.fonts.has)

    groups = [
        group_words(group, passage, desk.instrument, printable) for group in passage.best.groups
    ]
    filled = [(words, fill(desk, group=words)) for words in groups]
    hands, scale = hand_rows(
        [
            (stops, words)
            for group, (_, words) in zip(passage.best.groups, filled, strict=True)
            if group.same_as is None and group.frame is not None
            if (stops := [note.stop for note in notes_of(group, passage.best, passage.phrase)])
        ],
        desk,
    )
    style = Style(Face.BOLD, desk.layout.text.name)
    title = in_visual_order(
        shorten(printable(passage.title), desk.sheet.column * 0.8, style, desk.fonts)
    )
    studio = desk.name(desk.options.studio, desk.sheet.column * 0.4, desk.layout.text.body)
    day = drills_as_one_day(passage)
    scales = (scale, desk.views(day.drills)[0].scale_words if day else "")
    facts = passage_words(passage, desk.instrument, (title, studio), scales, printable)
    return PassageText(passage, facts, fill(desk, passage=facts), filled, hands)


def fill(
    desk: Desk,
    *,
    passage: PassageWords | None = None,
    group: GroupWords | None = None,
    ladder: LadderWords | None = None,
) -> list[Paragraph]:
    """Fill the template with one of the three.

    Raises:
        BookgenError: the template is damaged.
    """
    facts = {"passage": passage, "group": group, "ladder": ladder}
    return desk.words.fill(PASSAGE, facts, PASSAGE_PARTS)
