"""Method cards of the data checks: one for each, and one for all."""

from collections.abc import Mapping

from seasonboard.answers.cards import Card
from seasonboard.answers.checks.all_checks import ALL_CHECKS
from seasonboard.answers.checks.parts import Check


def _card(check: Check) -> Card:
    return Card(
        check.name,
        f"{check.asks} {check.why}",
        f"one row each, with its key; touches {check.touched}",
        f"To mend: {check.mend}",
        "Our own rules; what they are is in the question's SQL.",
        check.query,
    )


CARDS: Mapping[str, Card] = {
    "data checks": Card(
        "Data checks",
        "Each check asks for records that hardly fit: the rows it finds can be opened, and mended "
        "where they came from. They are counted in the scope, as it was known on its last day, "
        "and stand in the order of how many answers they touch. When every kind of guard is "
        "looked at, injuries to sites without a guard are checked too.",
        "count = rows of the check's question",
        "An answer is touched by a check when a row it finds would change a number of it once "
        "mended. A long list is a reason to mend the records before reading a ratio.",
        "Our own rules.",
        "checks/attendance_not_recorded",
    ),
    **{name: _card(check) for name, check in ALL_CHECKS.items()},
}
