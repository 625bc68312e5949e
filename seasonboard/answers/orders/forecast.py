"""The chance to be fitted by a game from the stage an order is in, by the store's own history.

Every answer that forecasts an order takes `Forecaster` from here, and nothing else.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from hashlib import blake2b

import numpy as np
import polars as pl

from seasonboard.answers.orders.order_times import MAKING
from seasonboard.stats.estimate import Estimate
from seasonboard.stats.proportions import score_limits
from seasonboard.stats.stage_forecast import Waiting, forecasts
from seasonboard.stats.stage_model import (
    DAYS,
    Bools,
    Floats,
    Ints,
    StageModel,
    Stays,
    stage_model,
)
from seasonboard.terms import Stage

STAGES = tuple(map(str, MAKING[: MAKING.index(Stage.FITTED) + 1]))
"""The stages of the model; the last one, fitted, is its end."""

LEVELS = ("all orders", "same plan", "same department", "same department and kind")
"""Groups from the top of the tree down, in words."""
KEYS = ("plan", "department", "kind")
"""The columns that make the groups, from the top of the tree down."""

FEW_STAMPS = 50
CLOSED_SHARE = 0.02
"""With so many stages recorded, a weekday is closed that has a smaller share of them than this."""

TOO_LITTLE = "too little followed yet"


@dataclass(frozen=True, slots=True)
class Chance(Estimate):
    """The chance to be fitted by a game, 0 to 1; not known while too little was followed.

    `orders` are those in its stage that had waited there as long and that it mostly rests on,
    `likeness` says what makes them comparable. With `is_least` it is only a lower bound: it has no
    part in sums, and does not make an order unlikely.
    """

    orders: int = 0
    is_least: bool = False
    likeness: str = ""

    @property
    def forecast(self) -> float | None:
        """Return the chance where it is a forecast, None where it is a bound or not known."""
        return None if self.is_least else self.value


@dataclass(frozen=True, slots=True)
class Borrowed:
    """How much each level borrows of a stage: orders of the level above that count as own ones."""

    stage: str
    plan: float
    department: float
    kind: float


@dataclass(frozen=True, slots=True)
class Histories:
    """Orders as columns: the day each stage was reached, in days since 1970, −1 where it was not.

    `over` is the day it was called off, −1 where it was not; `fitted_share` the part of the day of
    fitting that had passed, NaN where that is not known. `group` is the position in `groups`.
    """

    reached: Ints
    over: Ints
    fitted_share: Floats
    team: Sequence[str]
    group: Ints
    groups: Sequence[tuple[str, ...]]

    def known_by(self, today: int) -> "Histories":
        """Return what was known before a day (days since 1970)."""
        reached = np.where(self.reached < today, self.reached, -1)
        over = np.where(self.over < today, self.over, -1)
        share = np.where(reached[:, -1] >= 0, self.fitted_share, np.nan)
        return Histories(reached, over, share, self.team, self.group, self.groups)


@dataclass(frozen=True, slots=True)
class Forecaster:
    """Tells the chance to be fitted in time, as of the day before `today` (days since 1970).

    `is_open` says of each day ahead whether stages are recorded on it; `last_open` is the last such
    day before today. `fitted_share` are the parts of their days at which guards were fitted.
    """

    model: StageModel
    today: int
    last_open: int
    is_open: Bools
    fitted_share: Floats

    @property
    def borrowed(self) -> tuple[Borrowed, ...]:
        """Return the weights fitted to the past, of each stage that an order was seen to leave."""
        left = sorted({stage for stage, _ in self.model.passages})
        weights = self.model.weights
        return tuple(Borrowed(STAGES[n], *weights[:, n].tolist()) for n in left)

    def chances(self, orders: pl.DataFrame, level: float = 0.95) -> list[Chance]:
        """Return the chance of each order, in the order of its rows.

        What an order asked for on a later day would come to is told by a row with stage `requested`
        and that day: the first day at which the chance of a game falls below a share is the day
        after the last one to ask for it.

        Args:
            orders: One row an order: plan, department, kind, stage (reached last, not `fitted`),
                stage_on (DATE it was reached, in the department), by_on (DATE of the game there),
                by_share (part of that day until the game begins, 0 to 1).
            level: Two-sided confidence level of the limits.

        Raises:
            ValueError: A stage is not one of `STAGES` before the last.
        """
        if orders.is_empty():
            return []
        told = forecasts(self.model, self._waiting(orders), self.is_open)
        columns = (told.chance, told.is_least, told.orders, told.depth)
        rows = zip(*(column.tolist() for column in columns), strict=True)
        return [_chance(*row, level=level) for row in rows]

    def _waiting(self, orders: pl.DataFrame) -> Waiting:
        stages = orders["stage"].to_list()
        if strange := set(stages) - set(STAGES[:-1]):
            raise ValueError(f"no stage to wait in: {', '.join(sorted(map(str, strange)))}")
        since = orders["stage_on"].to_physical().to_numpy().astype(np.int64)
        by = orders["by_on"].to_physical().to_numpy().astype(np.int64)
        return self.waiting(
            np.array([STAGES.index(stage) for stage in stages], dtype=np.int64),
            since,
            by,
            orders["by_share"].to_numpy(),
            list(orders.select(KEYS).iter_rows()),
        )

    def waiting(
        self, stage: Ints, since: Ints, by: Ints, share: Floats, groups: Sequence[tuple[str, ...]]
    ) -> Waiting:
        """Return what waits in a stage since a day, to be fitted by a part of another day."""
        own = self.fitted_share
        counts = np.searchsorted(own, share, side="left")
        counted = (counts + 0.5) / (len(own) + 1)
        ahead = np.maximum(by - self.today + 1, 0)
        return Waiting(stage, self.today - since, self.last_open - since, ahead, counted, groups)


def forecaster(histories: pl.DataFrame, until: date, holidays: Sequence[date] = ()) -> Forecaster:
    """Return what tells the chances as of the day before `until`.

    Args:
        histories: Rows of `orders/histories`, known by `until`.
        until: First day not yet known.
        holidays: Days on which nobody works, beside the weekdays on which nothing is recorded.
    """
    today = (until - date(1970, 1, 1)).days
    key = (fingerprint(histories), today, tuple(holidays))
    if key not in _KEPT:
        _KEPT[key] = forecaster_of(histories_of(histories), today, tuple(holidays))
        while len(_KEPT) > _MOST:
            _KEPT.pop(next(iter(_KEPT)))
    return _KEPT[key]


_KEPT: dict[tuple[bytes, int, tuple[date, ...]], Forecaster] = {}
"""The past does not change between two looks: forecasters by all they are made from."""
_MOST = 4


def fingerprint(rows: pl.DataFrame) -> bytes:
    """Return a short mark of the rows of a frame and their order, the same within one process."""
    return blake2b(rows.hash_rows(seed=1).to_numpy().tobytes(), digest_size=16).digest()


def histories_of(rows: pl.DataFrame) -> Histories:
    """Return rows of `orders/histories` as columns."""
    days = [rows[f"{stage}_on"].to_physical().fill_null(-1).to_numpy() for stage in STAGES]
    paths = list(rows.select(KEYS).iter_rows())
    number: dict[tuple[str, ...], int] = {}
    group = np.array([number.setdefault(path, len(number)) for path in paths], dtype=np.int64)
    return Histories(
        np.stack(days, axis=1).astype(np.int64),
        rows["over_on"].to_physical().fill_null(-1).to_numpy().astype(np.int64),
        rows["fitted_hour"].cast(pl.Float64).fill_null(float("nan")).to_numpy() / 24,
        rows["team"].to_list(),
        group,
        list(number),
    )


def forecaster_of(orders: Histories, today: int, holidays: tuple[date, ...] = ()) -> Forecaster:
    """Return what tells the chances before a day (days since 1970), from what was known by then."""
    mask = _weekmask(orders)
    calendar = np.busdaycalendar(weekmask=mask, holidays=list(holidays))
    model = stage_model(_stays(orders, today, calendar), len(STAGES))
    ahead = (today + np.arange(DAYS)).astype("datetime64[D]")
    share = orders.fitted_share
    return Forecaster(
        model,
        today,
        int(_last_open(np.array([today - 1]), calendar)[0]),
        np.is_busday(ahead, busdaycal=calendar),
        np.sort(share[~np.isnan(share)]),
    )


def _weekmask(orders: Histories) -> list[bool]:
    """Return for Monday to Sunday whether stages are recorded then; usual weeks with few."""
    stamps = orders.reached[orders.reached >= 0]
    if len(stamps) < FEW_STAMPS:
        return [True] * 5 + [False] * 2
    weekdays = np.bincount((stamps + 3) % 7, minlength=7)
    return [bool(count >= CLOSED_SHARE * len(stamps)) for count in weekdays]


def _last_open(days: Ints, calendar: np.busdaycalendar) -> Ints:
    dates = days.astype("datetime64[D]")
    return np.busday_offset(dates, 0, roll="backward", busdaycal=calendar).astype(np.int64)


def _stays(orders: Histories, today: int, calendar: np.busdaycalendar) -> Stays:
    """Return the stay of each order in each stage; those that run backwards are left out.

    The check “stages out of order” tells which those are.
    """
    last = len(STAGES) - 1
    numbers = np.where(orders.reached >= 0, np.arange(last + 1), last + 1)
    following = np.minimum.accumulate(numbers[:, ::-1], axis=1)[:, ::-1]
    after = np.where(following[:, 1:] <= last, following[:, 1:], -1)
    row, stage = np.nonzero(orders.reached[:, :-1] >= 0)
    entered, then = orders.reached[row, stage], after[row, stage]
    left = np.where(then >= 0, orders.reached[row, then], -1)
    over = np.where(orders.over[row] >= 0, orders.over[row], today - 1)
    over_seen = _last_open(over, calendar)
    end = np.where(then >= 0, left, over_seen)
    first = np.where(then >= 0, _last_open(left - 1, calendar) + 1, end)
    sound = (then < 0) | (left >= entered)
    most = (end - entered)[sound]
    least = np.clip((first - entered)[sound], 0, np.maximum(most, 0))
    stay = (stage[sound], then[sound], least, np.maximum(most, -1), orders.group[row[sound]])
    return Stays(*stay, groups=orders.groups)


def _chance(value: float, is_least: bool, orders: int, depth: int, *, level: float) -> Chance:  # noqa: FBT001
    likeness = LEVELS[depth]
    if is_least and value < 0.005:
        return Chance(None, level=level, why=TOO_LITTLE, orders=orders, likeness=likeness)
    value = min(max(value, 0.0), 1.0)
    if is_least:
        return Chance(value, value, None, level, "", TOO_LITTLE, orders, True, likeness)
    low, high = score_limits(value, max(orders, 1), level)
    return Chance(value, low, high, level, "wilson", "", orders, False, likeness)
