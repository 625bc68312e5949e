"""Injuries: drawn for every site of every exposure, from the planted hazards."""

from dataclasses import dataclass

import numpy as np

from seasonboard.sample.diagnoses import diagnose
from seasonboard.sample.draws import Bools, Columns, Draws, Floats, Ints
from seasonboard.sample.exposure import Attendance
from seasonboard.sample.guards import BOTH, BUILD, KINDS, LEFT, MID, RIGHT
from seasonboard.sample.truth import AREAS, GROUPS, SIDES_OF, truth
from seasonboard.sample.turnaround import Orders
from seasonboard.sample.wear import Wear

# Sites are numbered area by area, left before right.
SITES = tuple(
    (area, side)
    for area, sides in enumerate(SIDES_OF)
    for side in ((MID,) if sides == 1 else (LEFT, RIGHT))
)
SITE_AREA, SITE_SIDE = np.array(SITES, dtype=np.int64).T
_FIRST_SITE = np.searchsorted(SITE_AREA, np.arange(len(AREAS)))


def _site_rates(sport: str, group: str) -> list[float]:
    """Injuries per 1000 practice exposures of each site, for one group of positions."""
    rates = truth().base_rates_per_1000_practice_exposures[sport]
    factors = truth().position_factors[sport][group]
    areas = [(AREAS[area], SIDES_OF[area]) for area, _ in SITES]
    return [rates[area] * factors.get(area, 1.0) / sides for area, sides in areas]


SITE_RATES: Floats = np.array([_site_rates(sport, group) for sport, group in GROUPS])


@dataclass(frozen=True, slots=True)
class Injuries(Columns):
    """Injuries as columns; `row` is the attendance row, -1 for those of the year before."""

    row: Ints
    athlete: Ints
    site: Ints
    starts: Ints
    day: Ints
    diagnosis: Ints
    lost: Ints

    @property
    def back(self) -> Ints:
        """The day of return; without lost days the day of the injury itself."""
        return np.where(self.lost > 0, self.day + self.lost + 1, self.day)


@dataclass(frozen=True, slots=True)
class Worn:
    """Rate ratios of worn guards; `place` is attendance row x number of sites + site, sorted."""

    place: Ints
    ratio: Floats

    def at(self, place: Ints) -> Floats:
        """The ratio at each place; 1 where no guard was worn."""
        if not len(self.place):
            return np.ones(len(place), dtype=np.float64)
        row = np.minimum(np.searchsorted(self.place, place), len(self.place) - 1)
        return np.where(self.place[row] == place, self.ratio[row], 1.0)


def first_site(kind: Ints, side: Ints) -> Ints:
    """The (first) site that a guard of this kind and side covers."""
    area = np.array([AREAS.index(area) for area in BUILD["area"]])[kind]
    return np.asarray(_FIRST_SITE[area] + (side == RIGHT), dtype=np.int64)


def course(days_since_start: Ints) -> Floats:
    """How much denser injuries are early in the season: falls from 2 towards 1."""
    planted = truth()
    decay = np.exp(-np.maximum(days_since_start, 0) / planted.course_decay_days)
    return np.asarray(1.0 + planted.course_extra_at_start * decay, dtype=np.float64)


def hazards(plan: Attendance, frailty: Floats) -> Floats:
    """Injuries expected in each attendance row, all sites, bare and never hurt before."""
    begins = np.full(int(plan.squad.max(initial=0)) + 1, 2**40, dtype=np.int64)
    np.minimum.at(begins, plan.squad, plan.day)
    setting = np.where(plan.game, truth().game_factor, 1.0)
    total: Floats = SITE_RATES.sum(axis=1)[plan.group] / 1000.0
    early = course(plan.day - begins[plan.squad])
    return np.asarray(total * setting * early * frailty[plan.athlete], dtype=np.float64)


def make_injuries(
    plan: Attendance, frailty: Floats, worn: Worn, earlier: Injuries, draws: Draws
) -> Injuries:
    """Injuries of the season, by athlete and start.

    Candidates come at the rate of a site hurt before and are then thinned, which gives the
    planted rate exactly: one number for each exposure instead of one for each site.
    """
    most = truth().reinjury_factor
    taking_part = np.flatnonzero(plan.took_part)
    expected = most * hazards(plan, frailty)[taking_part]
    share, none = draws.uniform(len(taking_part)), np.exp(-expected)
    number = (share > none).astype(np.int64) + (share > none * (1 + expected))
    row = np.repeat(taking_part, number)
    steps = np.cumsum(SITE_RATES, axis=1)
    steps = steps / steps[:, -1:]
    site = (steps[plan.group[row]] < draws.uniform(len(row))[:, None]).sum(axis=1)
    _, once = np.unique(row * len(SITES) + site, return_index=True)
    row, site = row[once], site[once].astype(np.int64)
    diagnosis, lost = diagnose(SITE_AREA[site], draws)
    athlete, starts = plan.athlete[row], plan.starts[row]
    candidates = Injuries(row, athlete, site, starts, plan.day[row], diagnosis, lost)
    candidates = candidates.keep(np.lexsort((site, starts, athlete)))
    ratio = worn.at(candidates.row * len(SITES) + candidates.site)
    thin = draws.uniform(len(candidates)) * most / ratio
    return candidates.keep(_happen(candidates, thin, earlier))


def _happen(candidates: Injuries, thin: Floats, earlier: Injuries) -> Bools:
    """Which candidates come true: one step for each athlete's next candidate, all at once.

    An athlete who is out cannot be hurt; a site never hurt before keeps the base rate.
    """
    athletes = int(max(candidates.athlete.max(initial=0), earlier.athlete.max(initial=0))) + 1
    hurt = np.zeros((athletes, len(SITES)), dtype=bool)
    hurt[earlier.athlete, earlier.site] = True
    back = np.zeros(athletes, dtype=np.int64)
    since = np.zeros(athletes, dtype=np.int64)
    sizes = np.bincount(candidates.athlete, minlength=athletes)
    first = np.cumsum(sizes) - sizes
    happens = np.zeros(len(candidates), dtype=bool)
    for step in range(int(sizes.max(initial=0))):
        now = first[sizes > step] + step
        athlete, site = candidates.athlete[now], candidates.site[now]
        is_out = (candidates.starts[now] > since[athlete]) & (candidates.day[now] < back[athlete])
        rate = np.where(hurt[athlete, site], truth().reinjury_factor, 1.0)
        true = ~is_out & (thin[now] < rate)
        happens[now] = true
        real, who = now[true], athlete[true]
        hurt[who, site[true]] = True
        back[who] = np.maximum(back[who], candidates.back[real])
        since[who] = candidates.starts[real]
    return happens


def ratios_worn(wear: Wear, orders: Orders) -> Worn:
    """The rate ratio of what is worn, wherever something is."""
    planted = truth().rate_ratios_preventive
    ratio = np.array([planted[kind] for kind in KINDS])[orders.kind[wear.order]]
    side = orders.side[wear.order]
    place = wear.row * len(SITES) + first_site(orders.kind[wear.order], side)
    pair = side == BOTH
    places, ratios = np.r_[place, place[pair] + 1], np.r_[ratio, ratio[pair]]
    order = np.argsort(places, kind="stable")
    return Worn(places[order], ratios[order])


def out_through_injury(plan: Attendance, injuries: Injuries, draws: Draws) -> tuple[Bools, Bools]:
    """Who was out, and who was limited for a few days after the return, by attendance row."""
    whole = np.int64(2**32)
    injuries = injuries.keep(np.lexsort((injuries.starts, injuries.athlete)))
    key = injuries.athlete * whole + injuries.starts
    until = np.maximum.accumulate(injuries.athlete * whole + injuries.back)
    eased = draws.chance(len(injuries), 0.35) & (injuries.lost >= 5)
    at = np.searchsorted(key, plan.athlete * whole + plan.starts, side="left") - 1
    mine = (at >= 0) & (injuries.athlete[np.maximum(at, 0)] == plan.athlete)
    at = np.maximum(at, 0)
    day = plan.athlete * whole + plan.day
    out = mine & (day < until[at])
    after = mine & (day >= until[at]) & (day < until[at] + 3) & eased[at]
    return out, after


def earlier_injuries(athletes: Ints, number: int, before: Ints, draws: Draws) -> Injuries:
    """Injuries of the year before to these athletes, at sites of guards, healed by the summer."""
    kinds = draws.pick(number, [5.0, 3.0, 2.0, 2.0, 1.0, 1.0, 0.0])
    side = np.where(draws.chance(number, 0.5), LEFT, RIGHT)
    site = first_site(kinds, side)
    diagnosis, lost = diagnose(SITE_AREA[site], draws)
    day = before[0] + draws.below(number, int(before[1] - before[0]))
    return Injuries(
        row=np.full(number, -1, dtype=np.int64),
        athlete=athletes[draws.below(number, len(athletes))],
        site=site,
        starts=day * 24 * 60,
        day=day,
        diagnosis=diagnosis,
        lost=np.clip(lost, 2, 60),
    )
