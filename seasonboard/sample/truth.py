"""The truth that is planted in the sample season: `truth.toml` and `base_rates.csv`."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass

from seasonboard.sample.data_files import csv_file, toml_file

DEFAULT_SEED = 20260815
DEFAULT_SIZE = 1.0


@dataclass(frozen=True, slots=True)
class Truth:
    """Everything the generator plants. Shares are 0-1; rates are per 1000 exposures.

    Rate of injury of one site in one exposure = base rate (halved for each side of a paired area)
    x game factor in games x position factor x season course x the athlete's frailty
    x re-injury factor after an earlier injury to the site
    x the rate ratio of a preventive guard that covers the site and is worn in that session.
    The chance to come back on a day out is `returns_per_day_ratio` times as high with a return
    guard fitted: 1, they shorten nothing, unless a season is made with another.
    Base rates are of both sides together, late in the season.
    """

    hazard: str
    last_recorded_day: str
    rate_ratios_preventive: Mapping[str, float]
    rate_ratio_return: float
    returns_per_day_ratio: float
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
    wear_complete_share: float
    wear_row_missing_share: float
    was_on_share: float
    return_guard_share: float
    remake_share_scanner: float
    remake_share_phone: float
    remake_reason_shares: Mapping[str, float]
    fast_profile_share: float
    fast_profile_share_of_faulty: float
    cancelled_share: float
    zero_day_share: float
    no_session_share_gradual: float
    outside_sport_share: float
    attendance_row_missing_share: float
    attendance_session_missing_share: float
    position_missing_share: float
    earlier_season_injuries_per_three_departments: int
    wear_depends_on: str
    naive_traps: Sequence[str]


_RATES = csv_file("base_rates")
AREAS = tuple(_RATES["area"])
SIDES_OF = tuple(_RATES["sides"])  # of each area: 1 or 2
SPORTS = tuple(_RATES.columns[2:])
_TRUTH = Truth(
    base_rates_per_1000_practice_exposures={
        sport: dict(zip(AREAS, _RATES[sport], strict=True)) for sport in SPORTS
    },
    **toml_file("truth"),
)
GROUPS = tuple((sport, group) for sport in SPORTS for group in _TRUTH.position_factors[sport])
LAST_DAY = dt.date.fromisoformat(_TRUTH.last_recorded_day)


def truth() -> Truth:
    """The planted truth; the same for every seed and size."""
    return _TRUTH


def truth_as_json(*, seed: int, size: float, return_ratio: float = 1.0) -> dict[str, object]:
    """The planted truth, with the seed and size of one season, as plain JSON values."""
    planted = asdict(_TRUTH) | {"returns_per_day_ratio": return_ratio}
    return {"seed": seed, "size": size, "effects_are_invented": True, **planted}
