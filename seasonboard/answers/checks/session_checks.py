"""The data checks of rosters, sessions, attendance and injuries."""

from seasonboard.answers.checks.parts import Check

_RATES = "exposures and rates"
_AT_RISK = "numbers at risk"
_AVAILABLE = "availability"
_INJURIES = "injuries counted"

OF_SESSIONS: tuple[Check, ...] = (
    Check(
        "attendance-not-recorded",
        "Who was on the roster when a session was held, and has no row of attendance?",
        {"compare": _RATES, "games": _AT_RISK, "roster": _AVAILABLE, "departments": _AVAILABLE},
        "Without a row there is no exposure: if the athlete took part, rates are too high and the "
        "game is missing on the clock; if not, availability does not know it.",
        "Add the row: full, limited or out; a coach's list of who was there is enough.",
    ),
    Check(
        "sessions-without-attendance",
        "Which sessions were held without any attendance recorded?",
        {"compare": _RATES, "games": _AT_RISK, "roster": _AVAILABLE, "departments": _AVAILABLE},
        "Nobody is exposed in them: an injury there counts in no rate, a game there ticks no "
        "clock. Left out more often in bad weeks, they tilt every rate.",
        "Add the attendance, or delete the session when it was not held.",
    ),
    Check(
        "only-who-took-part",
        "Which teams seem to record only those who took part?",
        {"roster": _AVAILABLE, "departments": _AVAILABLE},
        "Nobody is ever out, and somebody is always missing: out and not recorded cannot be told "
        "apart, so availability is not known. Rates are right as long as all who took part are "
        "listed.",
        "Record who is out, with the reason; until then do not quote the team's availability.",
    ),
    Check(
        "not-on-the-roster",
        "Who took part in a session without being on that team's roster that day?",
        {"compare": "position groups", "games": "the mix of athletes", "roster": _AVAILABLE},
        "The exposure counts, but without a position group: it is compared only with others that "
        "have none.",
        "Add the athlete to the roster, or mend the day of joining or leaving.",
    ),
    Check(
        "session-twice",
        "Which sessions of a team were recorded twice?",
        {"compare": _RATES, "games": "the clock", "roster": _AVAILABLE},
        "Its exposures count twice, its injuries once: rates are too low, and every clock ticks "
        "once too often.",
        "Keep one of the two; move its injuries and wear to it.",
    ),
    Check(
        "teams-without-games",
        "Which teams have sessions recorded, but no game?",
        {"games": "whose curve it is"},
        "The team is in no curve of games and in no chance by the next game; in a pre-season that "
        "is as it should be.",
        "Add the games, or mend the setting of sessions that were games.",
    ),
    Check(
        "minutes-implausible",
        "Which minutes or plays of an athlete in a session cannot well be?",
        {"roster": "who took part"},
        "Minutes of somebody who was out, or none of somebody who took part: one of the two is "
        "wrong, and taking part is what every exposure rests on.",
        "Mend the part, the minutes or the plays.",
    ),
    Check(
        "position-group-missing",
        "Who took part without a position group on the roster?",
        {"compare": "same session, alike athletes", "games": "one mix of athletes"},
        "Athletes without a group are compared only with others without one: their injuries may "
        "inform nothing.",
        "Give them a position group on the roster.",
    ),
    Check(
        "athletes-twice",
        "Which athletes of one department look like one person under two keys?",
        {"compare": "same athlete", "games": "games before an injury", "take-up": "athletes"},
        "One person under two keys begins anew with the second: earlier injuries and games are "
        "forgotten, and the limits by athlete take one for two.",
        "Where they are one, load the rows of one under the key of the other; siblings may stay.",
    ),
    Check(
        "injuries-without-session",
        "Which injuries name no session, and no session of that day suggests itself?",
        {"compare": _INJURIES, "games": "sites followed"},
        "It happened in no session, so it is in no rate; it still ends the curve of its site. "
        "Gradual ones and those from outside sport belong here.",
        "Nothing, when it happened outside sport or came gradually; else name the session.",
    ),
    Check(
        "injuries-session-suggested",
        "Which injuries name no session although the athlete took part in one that day?",
        {"compare": _INJURIES, "games": _INJURIES},
        "If it happened in that session, an injury is missing from its rate, guarded or bare: the "
        "ratio is made without it.",
        "Name the session in the injury's row, unless it happened elsewhere.",
    ),
    Check(
        "injuries-on-another-day",
        "Which injuries are dated on another day than their session?",
        {"compare": "days lost", "roster": "days lost"},
        "The injury counts in its session; its days lost are counted from the other day.",
        "Mend the day or the session.",
    ),
    Check(
        "injuries-without-exposure",
        "Which injuries happened in a session in which the athlete is not recorded as taking part?",
        {"compare": _INJURIES, "games": _INJURIES},
        "An injury without an exposure enters no rate: whoever is hurt and then listed as out "
        "makes the rate too low.",
        "Who was hurt in a session took part in it: mend the attendance, or the session named.",
    ),
    Check(
        "injuries-twice",
        "Which injuries look like a second record of one injury?",
        {"compare": _INJURIES, "games": "injuries with repeats", "roster": "days lost"},
        "A second record in the same session counts once in a rate, in another session twice; "
        "repeats and days lost count both.",
        "Keep one of them, or record the later one's history as an exacerbation.",
    ),
    Check(
        "returns-not-recorded",
        "Which injuries are open although the athlete has since played in full?",
        {"compare": "time loss", "games": "time loss", "roster": "who can play"},
        "An open injury counts as time lost, and the athlete as injured, however short it was.",
        "Record the day of return.",
    ),
    Check(
        "played-before-return",
        "Which athletes played in full between an injury and the return recorded for it?",
        {"compare": "time loss", "games": "time loss", "roster": "days lost"},
        "Either the return was earlier, and fewer days were lost or none, or the part was not "
        "full.",
        "Mend the day of return, or the attendance.",
    ),
    Check(
        "sites-without-kind",
        "Which injuries are to a body area that no guard kind covers?",
        {"take-up": "athletes who could have a guard"},
        "They count in availability, and in no comparison of guards: no guard was made for there. "
        "Unspecified and multiple areas are here too.",
        "Name the area that was hurt; or add the kind, if guards for it are made.",
    ),
)
