"""Guards: offers and their answers, preventive and return orders, what each guard is made of."""

import datetime as dt
from dataclasses import dataclass, replace

import numpy as np

from seasonboard.sample.clubs import Clubs
from seasonboard.sample.data_files import csv_file
from seasonboard.sample.draws import Columns, Draws, Ints
from seasonboard.sample.people import People
from seasonboard.sample.schedule import DAY, END, day_number
from seasonboard.sample.truth import GROUPS, truth
from seasonboard.sample.turnaround import NEVER, REQUESTED, STAGES, Orders, working_hours

BUILD = csv_file("kinds")  # of each kind: area, share made as a pair, and what one guard is like
KINDS = tuple(BUILD["kind"])
LEFT, RIGHT, BOTH, MID = 0, 1, 2, 3
SIDES = ("left", "right", "both", "midline")
ANSWERS = tuple(truth().answer_shares)
# First and last day on which guards are offered, by season.
_OFFER_DAYS = (
    (day_number(dt.date(2026, 7, 27)), day_number(dt.date(2026, 10, 17))),
    (day_number(dt.date(2026, 10, 12)), day_number(dt.date(2027, 1, 29))),
)


@dataclass(frozen=True, slots=True)
class Offers(Columns):
    """Guards offered, as columns; `answer` is a position in ANSWERS."""

    athlete: Ints
    kind: Ints
    day: Ints
    answer: Ints


def make_offers(clubs: Clubs, people: People, draws: Draws) -> Offers:
    """Offers over the season; by position group, never by how easily an athlete is hurt."""
    share = np.array(
        [
            [truth().offered_share[sport].get(kind, {}).get(group, 0.0) for kind in KINDS]
            for sport, group in GROUPS
        ]
    )
    chances = share[people.athlete_group]
    offered = draws.uniform(chances.size).reshape(chances.shape) < chances
    athlete, kind = np.nonzero(offered)
    only_winter = np.ones(len(clubs.teams), dtype=bool)
    only_winter[clubs.squad_team[clubs.squad_season == 0]] = False
    first, last = np.array(_OFFER_DAYS)[only_winter[people.athlete_team].astype(int)].T
    span = (last - first)[athlete]
    day = first[athlete] + np.floor(draws.uniform(len(athlete)) ** 2.0 * span).astype(np.int64)
    first_row = np.zeros(len(people.keys), dtype=np.int64)
    first_row[people.row_athlete[::-1]] = np.arange(len(people.row_athlete))[::-1]
    day = np.maximum(day, people.joined[first_row[athlete]])
    there = day <= people.left[first_row[athlete]]
    order = np.lexsort((kind, athlete, day))
    order = order[there[order]]
    answer = draws.pick(len(order), list(truth().answer_shares.values()))
    return Offers(athlete[order], kind[order], day[order], answer)


@dataclass(frozen=True, slots=True)
class Requests(Columns):
    """What is asked for: one row for each guard; `asked` in local minutes since 1970."""

    athlete: Ints
    kind: Ints
    side: Ints
    asked: Ints


def preventive_orders(offers: Offers, clubs: Clubs, people: People, draws: Draws) -> Orders:
    """A new order for each accepted offer, a few days after it."""
    accepted = offers.keep(offers.answer == 0)
    kind, day, count = accepted.kind, accepted.day, len(accepted)
    hour = 9 * 60 + draws.below(count, 480)
    asked = working_hours((day + draws.below(count, 4)) * DAY + hour, draws)
    asked = np.where(asked > END, day * DAY + hour, asked)
    paired = BUILD["paired"].to_numpy()[kind]
    side = np.where(draws.chance(count, 0.5), LEFT, RIGHT)
    side = np.where(draws.chance(count, paired), BOTH, side)
    side = np.where(kind == KINDS.index("chest"), MID, side)
    return new_orders(Requests(accepted.athlete, kind, side, asked), clubs, people, draws)


def return_orders(hurt: Requests, clubs: Clubs, people: People, draws: Draws) -> Orders:
    """A new order for each site that was hurt, asked for after the injury."""
    requests = replace(hurt, asked=working_hours(hurt.asked, draws))
    orders = new_orders(requests.keep(requests.asked <= END), clubs, people, draws)
    return replace(orders, returning=np.ones(len(orders), dtype=bool))


def new_orders(wanted: Requests, clubs: Clubs, people: People, draws: Draws) -> Orders:
    """Orders of which only the request is known yet, oldest first."""
    wanted = wanted.keep(np.lexsort((wanted.kind, wanted.athlete, wanted.asked)))
    count = len(wanted)
    department = clubs.team_department[people.athlete_team[wanted.athlete]]
    prints = clubs.departments["prints_per_week"].fill_null(0).to_numpy()[department]
    times = np.full((count, len(STAGES)), NEVER, dtype=np.int64)
    times[:, REQUESTED] = wanted.asked
    none = np.full(count, -1, dtype=np.int64)
    never = np.full(count, NEVER, dtype=np.int64)
    return Orders(
        athlete=wanted.athlete,
        kind=wanted.kind,
        side=wanted.side,
        returning=np.zeros(count, dtype=bool),
        phone=draws.chance(count, np.where(prints > 0, 0.65, 0.25)),
        onsite=prints == 0,
        department=department,
        prints=prints.astype(np.int64),
        before=none,
        reason=none,
        times=times,
        retired=never,
        cancelled=never,
    )
