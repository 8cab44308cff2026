"""What the user is told of a wish that is not open yet, and what leads there."""

from collections.abc import Iterator
from functools import partial

from bookgen.errors import Message, told
from bookgen.model.place import place_label
from bookgen.planner.leads import leads_of
from bookgen.studio.practice_log import PracticeLog
from bookgen.tasks.plans import Printing, known_of
from bookgen.tasks.wish import NOTHING_KNOWN, Asked
from bookgen.words.speech import Phrase
from bookgen.words.wishes import WayStep, sort_words, way_words


def lead_lines(asked: Asked, log: PracticeLog | None, printing: Printing) -> Iterator[Message]:
    """A line for each part of the wish that the first new day could not have yet."""
    if asked.wished is None or not printing.new_days:
        return
    known = NOTHING_KNOWN if log is None or not asked.name else known_of(log, asked.name)
    first = printing.new_days[0].date
    numbers = {entry.drill: entry.number for entry in printing.plan.drills}
    for lead in leads_of(asked.request(first, known), first):
        sort = Phrase(partial(sort_words, lead.wished))
        steps = [
            WayStep(
                drill,
                place_label(drill, asked.instrument),
                known.numbers.get(drill, numbers.get(drill)),
            )
            for drill in lead.steps
        ]
        if steps:
            way = Phrase(partial(way_words, steps))
            yield told("{sort}: not open yet; what leads there: {way}", sort=sort, way=way)
        else:
            yield told("{sort}: nothing in the player's area leads there", sort=sort)
