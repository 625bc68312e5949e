"""The E-value: how strong something unmeasured would have to be to explain a ratio away."""

import math
from dataclasses import dataclass

from seasonboard.stats.estimate import Estimate


@dataclass(frozen=True, slots=True)
class EValue:
    """The E-value of a ratio and of its limit nearer 1; `why` says why one is None.

    Another figure than anytime evidence, which some call by the same letter.
    """

    value: float | None
    of_limit: float | None
    why: str = ""


def e_value(ratio: Estimate) -> EValue:
    """Return the E-value of a ratio of rates, and of that limit of it which is nearer 1.

    It is the ratio that something unmeasured must have both with being guarded and with being
    injured, to account for all of the ratio (or to bring its limit to 1). A limit on the other
    side of 1 has the E-value 1.

    Source: VanderWeele & Ding (2017), Ann Intern Med 167, 268-274.
    """
    if ratio.value is None:
        return EValue(None, None, ratio.why)
    nearer, is_inside = ratio.high, ratio.high is not None and ratio.high >= 1
    if ratio.value > 1:
        nearer, is_inside = ratio.low, ratio.low is not None and ratio.low <= 1
    limit = 1.0 if is_inside else _of(nearer)
    why = "" if ratio.value and nearer is not None else ratio.why or "no limit nearer 1"
    return EValue(_of(ratio.value), limit, why)


def _of(ratio: float | None) -> float | None:
    if not ratio:
        return None
    away = max(ratio, 1 / ratio)
    return away + math.sqrt(away * (away - 1))
