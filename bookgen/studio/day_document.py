"""A day's plan document, as the practice log keeps it."""

import msgspec

from bookgen.plan.document import Day, Plan, encode
from bookgen.plan.earlier import earlier_of


def day_document(plan: Plan, day: Day) -> str:
    """The document of one day of a plan: its drills, and the earlier ones that they name."""
    played = {item.number for item in day.items}
    drills = tuple(entry for entry in plan.drills if entry.number in played)
    earlier = earlier_of(drills, [day], plan.named)
    return encode(
        msgspec.structs.replace(plan, drills=drills, earlier=earlier, days=(day,))
    ).decode()
