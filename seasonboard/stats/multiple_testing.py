"""Several comparisons looked at side by side: what their p-values are worth together."""

from collections.abc import Sequence


def holm(p_values: Sequence[float]) -> tuple[float, ...]:
    """Return p-values adjusted so that any false alarm among them is as rare as one alone.

    Source: Holm S (1979), Scand J Stat 6:65-70.

    Raises:
        ValueError: A p-value is not between 0 and 1.
    """
    if any(not 0 <= p <= 1 for p in p_values):
        raise ValueError("a p-value is not between 0 and 1")
    count = len(p_values)
    adjusted = [0.0] * count
    worst = 0.0
    for rank, k in enumerate(sorted(range(count), key=lambda k: p_values[k])):
        worst = max(worst, (count - rank) * p_values[k])
        adjusted[k] = min(1.0, worst)
    return tuple(adjusted)


def chance_of_a_false_alarm(count: int, *, threshold: float = 0.05) -> float:
    """Return how likely at least one of `count` independent comparisons without effect is below."""
    return float(1 - (1 - threshold) ** count)
