"""Every method card by its name; those of the working season carry their question before it."""

from collections.abc import Mapping

from seasonboard.answers.allotment_cards import ALLOTMENT_CARDS
from seasonboard.answers.cards import CARDS, Card
from seasonboard.answers.checks_cards import CHECKS_CARDS
from seasonboard.answers.claims_cards import CLAIMS_CARDS
from seasonboard.answers.compare_cards import COMPARE_CARDS
from seasonboard.answers.departments_cards import DEPARTMENTS_CARDS
from seasonboard.answers.orders_cards import ORDERS_CARDS
from seasonboard.answers.pitch_cards import PITCH_CARDS
from seasonboard.answers.remakes_cards import REMAKES_CARDS
from seasonboard.answers.roster_cards import ROSTER_CARDS
from seasonboard.answers.take_up_cards import TAKE_UP_CARDS
from seasonboard.answers.turnaround_cards import TURNAROUND_CARDS
from seasonboard.answers.week_cards import WEEK_CARDS

WORK_CARDS: Mapping[str, Mapping[str, Card]] = {
    "week": WEEK_CARDS,
    "roster": ROSTER_CARDS,
    "orders": ORDERS_CARDS,
    "turnaround": TURNAROUND_CARDS,
    "remakes": REMAKES_CARDS,
    "allotment": ALLOTMENT_CARDS,
    "take_up": TAKE_UP_CARDS,
    "departments": DEPARTMENTS_CARDS,
    "pitch": PITCH_CARDS,
    "checks": CHECKS_CARDS,
}
ALL_CARDS: Mapping[str, Card] = {
    **CARDS,
    **CLAIMS_CARDS,
    **COMPARE_CARDS,
    **{
        f"{question}/{name}": card
        for question, cards in WORK_CARDS.items()
        for name, card in cards.items()
    },
}
