"""Method cards of the Orders answer, in plain words."""

from collections.abc import Mapping

from seasonboard.answers.cards import Card

CARDS: Mapping[str, Card] = {
    "open orders": Card(
        "Open orders",
        "An order is one guard of which a stage is known. It is open until it is fitted, cancelled "
        "or retired. Its stage is the one reached last in the usual row of stages. Its age is "
        "in calendar days since the request, in the department's time zone.",
        "open = known − fitted − cancelled − retired",
        "Late ones stand first, then those not likely by the next game, then those worn already, "
        "then the rest; in each the smaller chance first, then the older.",
        "Counted from the stages recorded.",
        "orders/orders",
    ),
    "chance by the next game": Card(
        "Chance by the next game",
        "Of comparable orders that had waited longer than this one has, the share fitted within "
        "the time left to the start of the team's next game. Comparable are orders of the same "
        "department, kind and scan method; where fewer than 20 of those had waited so long, of "
        "the same department and kind; then of the department, of its plan, of all. Orders of "
        "every season count, open ones up to their age; cancelled ones leave at that time. Time "
        "is in elapsed hours.",
        "P(T ≤ game | T > age) = 1 − S(game) / S(age), with a log-log confidence interval; an "
        "exact one where all or none were fitted in that time",
        "“≥” (at least) means that no comparable order was followed so long. It knows nothing of "
        "this order but its age and likeness: not its stage, not that somebody is working on it.",
        "Kaplan & Meier 1958, J Am Stat Assoc 53:457-481, among those still waiting.",
        "orders/comparable",
    ),
    "late": Card(
        "Late",
        "An order is late when it is open for longer than four in five orders of its department "
        "take from request to fitting, open ones counted up to their age. A department with fewer "
        "than 20 orders takes those of its plan, else of all.",
        "age in calendar days > 80th percentile of the department's turnaround",
        "There are no promised dates in the data; late means unusual here, not broken promises.",
        "Percentile as for turnaround.",
        "orders/comparable",
    ),
    "bare meanwhile": Card(
        "Bare meanwhile",
        "Sessions its athlete took part in, in full or limited, since the request, and of those "
        "the ones in which at least one site that the guard will cover had no guard of any kind.",
        "bare of sessions taken part in",
        "A guard that is being replaced may still be worn: then the site is not bare.",
        "Site and exposure as in Compare.",
        "orders/orders",
    ),
}
