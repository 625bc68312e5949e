"""Method cards of the Turnaround answer, in plain words."""

from collections.abc import Mapping

from seasonboard.answers.cards import Card

CARDS: Mapping[str, Card] = {
    "turnaround": Card(
        "Turnaround",
        "Time between two stages, by default from requested to fitted. Orders that are still open "
        "count up to their age at the end of the last day: leaving them out would make the slowest "
        "orders vanish. A cancelled order is no longer waited for and leaves at that time, so the "
        "median, 80th and 95th percentile are of orders still wanted. The curve also holds the "
        "other reading: of all orders begun, the shares fitted and cancelled by each age, which "
        "with the open ones add up to 1.",
        "S(t) = Π (1 − finished / at risk); the percentile is the first t with S(t) ≤ 1 − share, "
        "the middle of the stretch where S equals it exactly; its confidence interval ends where "
        "the log-log limits of S cross it",
        "“Not reached” means too many are still open to tell. The mean and median of the finished "
        "alone stand beside it with how many open orders they leave out.",
        "Kaplan & Meier 1958, J Am Stat Assoc 53:457-481; Brookmeyer & Crowley 1982, Biometrics "
        "38:29-41; Aalen & Johansen 1978, Scand J Stat 5:141-150.",
        "orders/orders",
    ),
    "time units": Card(
        "Hours, days, working days",
        "Hours are elapsed hours, also over a change of the clock. Days are calendar days between "
        "the local days of the department: the day of the start is day 0. Working days are Mondays "
        "to Fridays after the day of the start, up to the last day; public holidays are left out "
        "when a country is named, else they count as working days and the answer says so.",
        "hours: instant − instant; days: day − day; working days: weekdays in (first, last] less "
        "holidays",
        "Asked on a Friday and fitted on the Monday after: 3 days, 1 working day.",
        "Common practice; numpy's busday_count for working days.",
        "orders/orders",
    ),
    "ready for the next game": Card(
        "Ready for the next game",
        "Share of orders fitted before the first game of the team, in the season the guard was "
        "made for, that starts after the request. An order that is not fitted while that game is "
        "still to come is undecided; one cancelled before that game no longer wanted it; both are "
        "counted apart, and so are orders without such a game.",
        "fitted in time / (fitted in time + not fitted in time), with Wilson's confidence interval",
        "Games come often: a low share does not mean slow work, but athletes did play without.",
        "Wilson 1927, J Am Stat Assoc 22:209-212.",
        "orders/orders",
    ),
    "stage by stage": Card(
        "Where the time goes",
        "Time from each stage to the next one that is recorded, whichever that is (a printer on "
        "site ships nothing). Orders waiting in the stage count up to now.",
        "as for turnaround, from one stage to the next",
        "Medians of stages do not add up to the median of the whole.",
        "Kaplan & Meier 1958.",
        "orders/orders",
    ),
    "week by week": Card(
        "Week by week",
        "Orders are put in the week in which they began, and its median counts open ones up to "
        "their age. Weeks of finished orders would hide late ones and make the last weeks look "
        "quick. A week sets control limits when its last order was followed for as long as four "
        "in five orders take, so that a slow week would have shown, and when it has 3 orders or "
        "more.",
        "centre = mean of the weekly medians; control limits = centre ± 2.66 × mean moving range",
        "A week outside the control limits is more than the usual ups and downs.",
        "Individuals chart, NIST/SEMATECH e-Handbook of Statistical Methods, section 6.3.2.2.",
        "orders/orders",
    ),
    "set aside": Card(
        "What is not timed",
        "The first of several stamps of a stage counts. A time that runs backwards (fitted before "
        "it was requested) is an error of entry; an order that went past a stage without a stamp "
        "reached it at a time that is not known. Both are set aside and counted, never averaged, "
        "turned around or guessed.",
        "orders timed + orders set aside = all orders of the scope",
        "Correct the stamps in the file and load it again: the order then counts.",
        "Common practice of data cleaning.",
        "orders/orders",
    ),
}
