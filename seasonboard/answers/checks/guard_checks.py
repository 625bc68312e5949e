"""The data checks of guards, their stages and their wear, of offers and departments."""

from seasonboard.answers.checks.parts import Check

_GUARDED = "guarded exposures"
_TIMES = "time from stage to stage"

OF_GUARDS: tuple[Check, ...] = (
    Check(
        "wear-not-recorded",
        "In which sessions is no guard recorded as worn although several could have been?",
        {"compare": _GUARDED, "games": _GUARDED, "take-up": "worn share", "roster": "worn share"},
        "Not recorded counts as bare: guarded exposures turn into bare ones, and an injury there "
        "is blamed on having worn nothing. It draws every ratio toward 1, or past it.",
        "Record what was worn; if nobody knows, leave the session out by its team and days.",
    ),
    Check(
        "wear-of-few-games",
        "Which teams record what was worn in fewer than half of their games?",
        {"compare": _GUARDED, "games": _GUARDED, "take-up": "worn share"},
        "So few that not worn and not recorded cannot be told apart: what counts as bare may have "
        "been guarded.",
        "Settle with the team how wear is recorded; until then compare without it.",
    ),
    Check(
        "worn-before-delivered",
        "Which guards were worn before they were delivered or fitted?",
        {"compare": _GUARDED, "games": _GUARDED, "turnaround": _TIMES, "orders": "open orders"},
        "Either the stage is late or missing, and the turnaround too long, or it was not this "
        "guard that was worn.",
        "Add or mend the stage, or name the guard that was worn.",
    ),
    Check(
        "worn-while-out",
        "Which guards were worn in a session that their athlete was out of?",
        {"compare": _GUARDED, "games": _GUARDED, "take-up": "worn share"},
        "Without taking part there is no exposure: the wear counts nowhere. A spreadsheet filled "
        "down too far looks like this.",
        "Mend the attendance, or take the wear away.",
    ),
    Check(
        "worn-without-attendance",
        "Which guards were worn in a session without attendance of their athlete?",
        {"compare": _GUARDED, "games": _GUARDED, "take-up": "worn share"},
        "Without a row there is no exposure: guarded exposures are missing, bare ones are not.",
        "Add the attendance, or mend the session or guard of the wear.",
    ),
    Check(
        "worn-after-the-end",
        "Which guards were worn after they were retired or cancelled?",
        {"compare": _GUARDED, "remakes": "guard life", "take-up": "worn share"},
        "Either it is still in use, or its successor was worn.",
        "Mend the stage, or name the guard that was worn.",
    ),
    Check(
        "two-guards-at-once",
        "Who wore two guards at one site in one session?",
        {"compare": "set aside", "take-up": "worn share", "remakes": "sessions worn"},
        "The site counts as guarded once, or is set aside where one was made for return; both "
        "guards count the session as worn.",
        "Name the one that was worn.",
    ),
    Check(
        "stages-out-of-order",
        "Which guards reached their stages out of the usual order?",
        {"turnaround": _TIMES, "orders": "stage and age"},
        "A time that ends before it begins is left out; others are too short or too long.",
        "Mend the instant; day and month may have changed places.",
    ),
    Check(
        "stages-missing",
        "Which guards lack a stage between two that they reached?",
        {"turnaround": "time of one stage"},
        "The guard is in the whole time, and missing from the times of the stages before and "
        "after.",
        "Add the stage if its time is known.",
    ),
    Check(
        "stages-ahead",
        "Which stages are dated after the moment they were loaded?",
        {"turnaround": _TIMES, "orders": "open orders", "week": "orders"},
        "What has not happened yet counts as reached from its day on, and “through” the last day "
        "known means that day.",
        "Mend the year or the month; a plan is not a stage.",
    ),
    Check(
        "orders-without-stage",
        "Which guards have no stage, so that nobody knows when they were asked for or came?",
        {"orders": "open orders", "turnaround": "orders", "take-up": "fitted"},
        "A guard without a stage is no order: it is in no turnaround, on no list of what is late.",
        "Add at least when it was requested and when it was fitted.",
    ),
    Check(
        "offers-without-order",
        "Which accepted offers were not followed by an order?",
        {"take-up": "accepted to fitted", "orders": "open orders"},
        "The athlete said yes and waits for something that nobody makes; or the guard is recorded "
        "under another kind.",
        "Order it, or record that the athlete changed his or her mind.",
    ),
    Check(
        "remake-of-another",
        "Which guards are recorded as made in place of another athlete's or another site's?",
        {"remakes": "remakes and chains"},
        "It counts as that guard's remake, or is left out of the chains.",
        "Name the guard it replaces, or nothing.",
    ),
    Check(
        "order-twice",
        "Which orders look like a second record of one order?",
        {"orders": "open orders", "turnaround": "orders", "departments": "prints used"},
        "One of them never ends: it grows late and keeps a print that nobody needs.",
        "Cancel one, or name what it replaces.",
    ),
    Check(
        "dimensions-implausible",
        "Which measures of a guard cannot well be?",
        {"remakes": "by contact"},
        "Measures in other units, or slipped by a column, put the guard into the wrong group.",
        "Mend the measure: millimetres, grams, per cent, hours.",
    ),
    Check(
        "time-zone-not-set",
        "Which departments have a placeholder for a time zone?",
        {"week": "days", "turnaround": "days", "compare": "days of evening games"},
        "Late games and stages fall on the next day, in the wrong week or block.",
        "Name the place, such as America/Chicago.",
    ),
    Check(
        "allotment-missing",
        "Which departments with a weekly allotment have no number of prints a week?",
        {"departments": "prints used"},
        "Without the number nobody can say how much of it is used.",
        "Record prints_per_week.",
    ),
)
