"""Method cards of the Take-up answer."""

from collections.abc import Mapping

from seasonboard.answers.cards import Card

CARDS: Mapping[str, Card] = {
    "take-up steps": Card(
        "Eligible, offered, accepted, fitted, worn",
        "Eligible: on a roster of the scope and joined by the last day known, those who have left "
        "too. Offered: at least one offer of a kind in scope. Accepted: the last offer of that "
        "kind was accepted; else it was declined or is undecided. Fitted: a guard of that kind was "
        "fitted, made to prevent or for return. Worn: in at least one session the athlete took "
        "part in. With several kinds an athlete counts at a step with any of them, and the kinds "
        "stand below one by one. An offer or order belongs to the team whose season was the first "
        "of the athlete's to end after it, and holds for that team from then on.",
        "of the step before = athletes with both steps for one kind / athletes with the step "
        "before; of the eligible = athletes with the step / eligible",
        "A step recorded without the one before it is counted and told: guards for return after an "
        "injury are often fitted without an offer. The answer to an offer has no day of its own "
        "and is known from the day of the offer; a row that was corrected later cannot be rewound.",
        "Score interval: Wilson 1927, J Am Stat Assoc 22:209-212.",
        "take_up/offers",
    ),
    "worn share": Card(
        "Worn share",
        "Of the sessions an athlete took part in, in full or limited, with the team the guard was "
        "made for, while a guard of the kind was fitted and not yet retired: the share in which "
        "one of that kind was worn. A left and a right guard of one kind count once. Sessions "
        "between a guard and its remake do not count. A week is from Monday to Sunday.",
        "sessions worn / sessions taken part in; confidence interval from the spread between "
        "athletes",
        "Sessions of one athlete are alike: the confidence interval is wider than a plain count of "
        "sessions would give. A single athlete shows no spread, so there is none. Wear that was "
        "not recorded looks like a guard left in the bag.",
        "Ratio of sums with a design effect (Kish 1965), score interval on the effective number "
        "(Korn & Graubard 1998, Survey Methodology 24:193-201).",
        "take_up/wear",
    ),
    "declining": Card(
        "Reasons for declining",
        "The last offer of each kind to each athlete, where the answer was no or undecided, by the "
        "reason as it was written.",
        "count of athletes and kinds",
        "Written by hand, so the same reason may appear in two spellings. Decliners as a group to "
        "compare with stand in Compare.",
        "Counts; nothing is estimated.",
        "take_up/offers",
    ),
    "take-up left out": Card(
        "Out of order, and left out",
        "Out of order is told in athletes: fitted without an offer, fitted after a no, worn "
        "without being fitted. They are counted in their step. Left out are records of a guard "
        "worn that count for no step: the athlete is not recorded as taking part in the session, "
        "is not on the roster of its team, or wore a guard made for another team.",
        "counts of athletes; counts of records",
        "Many of them mean that something is written down late or not at all.",
        "Counts; nothing is estimated.",
        "take_up/left_out",
    ),
}
