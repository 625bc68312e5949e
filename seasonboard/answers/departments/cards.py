"""Method cards of the Departments answer."""

from collections.abc import Mapping

from seasonboard.answers.cards import Card

CARDS: Mapping[str, Card] = {
    "department figures": Card(
        "Figures of a department",
        "Open and late orders, the days within which half of its orders are fitted, and the share "
        "fitted before the next game are those of Turnaround and Orders; the remake share is that "
        "of Remakes, the worn share that of Take-up, prints those of the allotment. Availability "
        "is that of Roster over the team sessions of the last 28 days.",
        "as in those answers, for the orders, sessions and guards of the department's teams",
        "Every number equals the one that the other answer gives for that department alone.",
        "As in those answers.",
        "departments/teams",
    ),
    "attention": Card(
        "What calls for attention",
        "In this order: late orders; decisions overdue; more orders waiting to be printed than a "
        "week's allotment; turnaround whose whole interval lies above the median of all "
        "departments together; fewer orders ready for the next game, more remakes, or guards worn "
        "less, each when the whole interval lies beyond the share of all together; availability "
        "down by 5 points or more against the 28 days before. Departments stand by the number of "
        "reasons, then late orders, open orders and name.",
        "interval of the department against the figure of all departments in scope",
        "With a single department in scope nothing stands out from all. The department itself is "
        "part of all, which makes it stand out less, not more.",
        "Rules of this board.",
        "departments/teams",
    ),
    "department trends": Card(
        "Weekly trends",
        "Twelve weeks, Monday to Sunday; the last may be under way. Turnaround: the median of the "
        "orders that began in the week, open ones counted up to their age, so that recent weeks "
        "may have none yet. Remakes: how many were asked for. Availability and worn share: of the "
        "sessions of the week.",
        "one number a week; nothing where nothing was recorded",
        "A bar stands between the smallest and the largest of its own row: compare the shape, not "
        "the height, between departments.",
        "As in Turnaround, Remakes, Roster and Take-up.",
        "take_up/wear",
    ),
}
