"""Words for the steps of taking a guard up."""

from typing import TYPE_CHECKING

from seasonboard.answers.words import whole

if TYPE_CHECKING:
    from seasonboard.answers.take_up.parts import Step, TakeUpGroup


def beside_step(step: "Step", group: "TakeUpGroup") -> str:
    """Return what became of those who did not take a step: `3 declined, 1 undecided`."""
    others = {
        "accepted": f"{whole(group.declined)} declined, {whole(group.undecided)} undecided",
        "fitted": f"{whole(group.waiting)} still waiting for a first guard",
    }.get(step.step, "")
    without = f"{whole(step.without_before)} without the step before" if step.without_before else ""
    return "; ".join(part for part in (others, without) if part)
