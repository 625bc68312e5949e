"""The truth that is planted in the sample season, in one frozen structure."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, fields
from types import MappingProxyType

from seasonboard.sample.rates import BASE_RATES, OFFERED, POSITION_FACTORS

DEFAULT_SEED = 20260815
DEFAULT_SIZE = 1.0
LAST_DAY = dt.date(2027, 1, 30)


@dataclass(frozen=True, slots=True)
class Truth:
    """Everything the generator plants. Shares are 0-1; rates are per 1000 exposures.

    Rate of injury of one site in one exposure = base rate (halved for each side of a paired area)
    x game factor in games x position factor x season course x the athlete's frailty
    x re-injury factor after an earlier injury to the site
    x the rate ratio of a preventive guard that covers the site and is worn in that session.
    """

    hazard: str
    last_recorded_day: str
    rate_ratios_preventive: Mapping[str, float]
    rate_ratio_return: float
    game_factor: float
    course_extra_at_start: float
    course_decay_days: float
    frailty_variance: float
    reinjury_factor: float
    base_rates_per_1000_practice_exposures: Mapping[str, Mapping[str, float]]
    position_factors: Mapping[str, Mapping[str, Mapping[str, float]]]
    offered_share: Mapping[str, Mapping[str, Mapping[str, float]]]
    answer_shares: Mapping[str, float]
    worn_share_games: float
    worn_share_practices: float
    worn_share_spread: float
    never_worn_share: float
    return_guard_share: float
    remake_share_scanner: float
    remake_share_phone: float
    remake_reason_shares: Mapping[str, float]
    cancelled_share: float
    zero_day_share: float
    no_session_share_gradual: float
    outside_sport_share: float
    attendance_row_missing_share: float
    attendance_session_missing_share: float
    position_missing_share: float
    earlier_season_injuries_per_three_departments: int
    wear_depends_on: str
    naive_traps: tuple[str, ...]


_TRUTH = Truth(
    hazard=(
        "per exposure and site: base rate (halved for each side of a paired area) x game factor in "
        "games x position factor x (1 + course extra x exp(-days since the team's first session / "
        "course decay days)) x frailty of the athlete (gamma, mean 1) x re-injury factor after an "
        "earlier injury to the site x rate ratio of a preventive guard worn there and then"
    ),
    last_recorded_day=LAST_DAY.isoformat(),
    rate_ratios_preventive=MappingProxyType(
        {
            "shin": 0.60,
            "thumb": 1.00,
            "ankle": 0.75,
            "knee": 1.00,
            "wrist": 0.85,
            "shoulder": 0.90,
            "chest": 0.70,
        }
    ),
    rate_ratio_return=1.00,
    game_factor=3.5,
    course_extra_at_start=1.0,
    course_decay_days=35.0,
    frailty_variance=0.5,
    reinjury_factor=2.0,
    base_rates_per_1000_practice_exposures=BASE_RATES,
    position_factors=POSITION_FACTORS,
    offered_share=OFFERED,
    answer_shares=MappingProxyType({"accepted": 0.84, "declined": 0.10, "undecided": 0.06}),
    worn_share_games=0.94,
    worn_share_practices=0.70,
    worn_share_spread=0.25,
    never_worn_share=0.07,
    return_guard_share=0.55,
    remake_share_scanner=0.09,
    remake_share_phone=0.20,
    remake_reason_shares=MappingProxyType(
        {
            "fit": 0.40,
            "damage": 0.18,
            "print fault": 0.12,
            "scan fault": 0.10,
            "lost": 0.08,
            "body change": 0.06,
            "worn out": 0.06,
        }
    ),
    cancelled_share=0.04,
    zero_day_share=0.20,
    no_session_share_gradual=0.25,
    outside_sport_share=0.03,
    attendance_row_missing_share=0.025,
    attendance_session_missing_share=0.01,
    position_missing_share=0.01,
    earlier_season_injuries_per_three_departments=8,
    wear_depends_on="setting and the guard's own habit; never frailty, side or injury",
    naive_traps=(
        "guards are taken up over the season while injuries thin out after its start",
        "position groups that are hurt more are offered guards more",
        "guards are worn more in games, where more is hurt",
        "return guards are worn on sites whose rate of injury is doubled",
        "some fitted guards are never worn, so having one is not wearing one",
        "some attendance is not recorded, and one team lists only those who took part",
        "orders are still open on the last recorded day",
    ),
)


def truth() -> Truth:
    """The planted truth; the same for every seed and size."""
    return _TRUTH


def truth_as_json(*, seed: int, size: float) -> dict[str, object]:
    """The planted truth, with the seed and size of one season, as plain JSON values."""
    values = {field.name: _plain(getattr(_TRUTH, field.name)) for field in fields(_TRUTH)}
    return {"seed": seed, "size": size, "effects_are_invented": True, **values}


def _plain(value: object) -> object:
    """Mappings as dictionaries and tuples as lists, all the way down."""
    if isinstance(value, Mapping):
        return {key: _plain(inner) for key, inner in value.items()}
    return list(value) if isinstance(value, tuple) else value
