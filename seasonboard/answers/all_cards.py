"""Every method card by its name; those of the working season carry their question before it."""

from collections.abc import Mapping

from seasonboard.answers.allotment.cards import ALLOTMENT_CARDS
from seasonboard.answers.cards import Card
from seasonboard.answers.checks.cards import CHECKS_CARDS
from seasonboard.answers.claims.cards import CLAIMS_CARDS
from seasonboard.answers.compare.cards import COMPARE_CARDS
from seasonboard.answers.departments.cards import DEPARTMENTS_CARDS
from seasonboard.answers.games.cards import GAMES_CARDS
from seasonboard.answers.orders.cards import ORDERS_CARDS
from seasonboard.answers.pitch.cards import PITCH_CARDS
from seasonboard.answers.remakes.cards import REMAKES_CARDS
from seasonboard.answers.roster.cards import ROSTER_CARDS
from seasonboard.answers.take_up.cards import TAKE_UP_CARDS
from seasonboard.answers.turnaround.cards import TURNAROUND_CARDS
from seasonboard.answers.week.cards import WEEK_CARDS

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
    **COMPARE_CARDS,
    **GAMES_CARDS,
    **CLAIMS_CARDS,
    **{
        f"{question}/{name}": card
        for question, cards in WORK_CARDS.items()
        for name, card in cards.items()
    },
}
