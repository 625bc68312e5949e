"""Fields of figures that were estimated: confidence intervals, control limits, why not known."""

from collections.abc import Callable
from typing import Any

from seasonboard.answers.fields import Element, Field, Group, Kind, of, why


def interval(kind: Kind) -> tuple[Field, Field]:
    """Describe the limits of the confidence interval of an `Estimate`."""
    return (
        Field("low", "lower limit of its confidence interval", kind, optional=True),
        Field("high", "upper limit of its confidence interval", kind, optional=True),
    )


def estimate(  # noqa: PLR0913 - each says one thing of it
    name: str,
    get: Callable[[Any], Any],
    meaning: str,
    *,
    kind: Kind = Kind.HUNDREDTHS,
    key: str = "value",
    is_flat: bool = False,
    in_csv: bool = True,
    more: "tuple[Element, ...]" = (),
    **people: Any,  # noqa: ANN401 - heading and show of its value
) -> Group:
    """Describe an `Estimate`: its value, the limits of its confidence interval, and why not known.

    In JSON an object `name` of value, low, high; `is_flat`: name, low and high among the fields
    around it. In CSV the columns `name`, `name_low` and `name_high`.

    Args:
        name: Its JSON key, and the CSV column of its value.
        get: Takes it from the row.
        meaning: One line: what it is, and its unit.
        kind: What the value and its limits are.
        key: The JSON key of its value within the object.
        is_flat: Whether its fields stand among those around it.
        in_csv: Whether CSV has it.
        more: What else belongs to it, such as what it was counted from.
        people: `heading` and `show` of its value, as of `Field`.
    """
    value = Field(name if is_flat else key, meaning, kind, of("value"), **people)
    fields = (value, *interval(kind), *more, why(of("why")))
    return Group("" if is_flat else name, get, fields, meaning, in_csv=in_csv)


def control_limits(get: Callable[[Any], Any], kind: Kind, of_what: str) -> tuple[Group, Field]:
    """Describe `ControlLimits`: the limits, and whether the value beside them lies outside."""
    low = Field("low", "lower control limit", kind)
    high = Field("high", "upper control limit", kind)
    limits = (low, high, why(of("why")))
    is_outside = "whether it lies outside them"
    return (
        Group("control_limits", get, limits, f"control limits of {of_what}"),
        Field("outside_limits", is_outside, Kind.FLAG, get=lambda row: get(row).is_outside),
    )
