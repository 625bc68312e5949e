"""Method cards of the data checks: one for each, and one for all."""

from collections.abc import Mapping

from seasonboard.answers.cards import Card, read_cards
from seasonboard.answers.checks.all_checks import ALL_CHECKS
from seasonboard.answers.checks.parts import Check


def check_cards() -> Mapping[str, Card]:
    """Return the method cards by name, that of all checks first."""
    return {**read_cards("checks"), **{name: _card(check) for name, check in ALL_CHECKS.items()}}


def _card(check: Check) -> Card:
    return Card(
        check.name,
        f"{check.asks} {check.why}",
        f"one row each, with its key; touches {check.touched}",
        f"To mend: {check.mend}",
        "Our own rules; what they are is in the question's SQL.",
        check.query,
    )
