"""Method cards of the Week answer."""

from collections.abc import Mapping

from seasonboard.answers.cards import Card

CARDS: Mapping[str, Card] = {
    "what changed": Card(
        "What changed",
        "Everything dated after one day (the last that was already talked about, seven days back "
        "unless asked otherwise) up to the last day known. An injury is new on the day it was "
        "reported, without a report on the day of onset; injuries to every site count, and those "
        "at a site that the guard kinds of the scope cover are told apart. A stage counts on its "
        "day in the department's time zone, the first stamp of it only. A new guard in the place "
        "of another is a remake when the reason is fit, damage, print fault or scan fault, else a "
        "replacement. Loads are dated in UTC.",
        "counts of rows with since < day ≤ through",
        "The strip counts the same rows day by day.",
        "Counts; nothing is estimated. Remake reasons as in Remakes.",
        "week/injuries",
    ),
    "availability of the week": Card(
        "Availability at games and practices",
        "Of the athletes on the roster on the day of a session: those who took part in full, or "
        "were limited or out for a reason other than injury and illness, divided by all whose "
        "state is known. Who is not recorded, or limited or out without a reason, is not known "
        "and shown.",
        "available / (rostered − not known), summed over sessions",
        "The same count as in Roster.",
        "IOC consensus statement 2020 (Bahr et al., Br J Sports Med 54:372).",
        "roster/sessions",
    ),
    "what is ahead": Card(
        "What is ahead",
        "Games of the next seven days, and one on the last day known when nobody's attendance of "
        "it is recorded. Guards not there: every order of these teams that is open now, with its "
        "stage, its age since it was asked for and its chance to be fitted by the team's next "
        "game, from comparable orders. Out or limited: by the last record, as in Roster. Late: "
        "open for longer than four in five orders of its department take. A decision is overdue "
        "when its day lies before the last day known and it is not done; one without a department "
        "concerns every department.",
        "open at the end of the last day known",
        "A chance knows nothing of an order but its age, department, kind and scan method.",
        "As in Orders and Roster.",
        "week/games",
    ),
    "rewinding": Card(
        "Rewinding to an earlier day",
        "With an earlier “through” only what is dated up to that day counts: stages, attendance, "
        "wear, injuries once reported, returns, offers, decisions, joining and leaving a roster. A "
        "row counts from its own day, not from the day it was loaded, since a season is often "
        "written down or loaded late: at a meeting held that day less may have been at hand. The "
        "schedule of sessions ahead counts as known.",
        "day of the row < first day not yet known",
        "Three things cannot be rewound: the answer to an offer has no day of its own and is known "
        "with the offer; a row that was corrected is shown as corrected; a roster place or a "
        "guard without any date is known from the start.",
        "A rule of this board.",
        "week/decisions",
    ),
}
