"""Method cards of the roster: what each word and number is, in plain words."""

from collections.abc import Mapping

from seasonboard.answers.cards import Card

_IOC = "IOC consensus statement 2020 (Bahr et al., Br J Sports Med 54:372-389)."

CARDS: Mapping[str, Card] = {
    "state": Card(
        "An athlete's state",
        "Full, limited or out, as recorded at the last session of the team with attendance of that "
        "athlete. An injury that is known and open goes before it: the athlete is out, or limited "
        "if a later session says so; if a later session says full, the record contradicts itself "
        "and limited is shown until it is put right. A return after the last recorded session "
        "makes it full: “returned on …, no session since”. An illness ends only by the next "
        "session. Without any record it is not recorded, which is not out. Known is what was "
        "reported by the last day.",
        "open injury, else a return since, else the last recorded part",
        "It says what was recorded, not who is fit for play. Out for selection or personal reasons "
        "was the last session's state: such an athlete may well play.",
        "Our own rule; not recorded is kept apart as unknown.",
        "roster/places",
    ),
    "expected back": Card(
        "Expected back",
        "No day of an expected return is recorded, and none is predicted. Instead: the day of "
        "onset, the days since, and how long injuries of the same body area took, of all in the "
        "store with at least one day lost, open ones counted up to their age.",
        "the first number of days lost by which half had returned (Kaplan-Meier)",
        "A count of the past, not a forecast for this athlete. With fewer than 5 such injuries "
        "it is not told.",
        "Kaplan & Meier 1958, J Am Stat Assoc 53:457-481.",
        "roster/like_injuries",
    ),
    "guards": Card(
        "How it stands with a guard",
        "Of the guard kinds in the scope, both purposes, in this order. Late: asked for, not "
        "delivered, not worn, and open for longer than four in five of its department's orders "
        "take. Being made: the same, not late. Due a remake: in hand, and another guard is ordered "
        "in its place. Hurt at its site: the last session it was worn in brought an injury to a "
        "site it covers; wearing it again ends that. Awaiting fit check: delivered, or worn, but "
        "not fitted; late too when open for that long. Unworn: fitted, and worn in none of the "
        "last 3 sessions taken part in. In hand: every other guard that is fitted, or "
        "worn though no stage is recorded. Cancelled, retired and replaced guards are not shown.",
        "rules on stages, wear and injuries as recorded",
        "None of it says whether a guard still protects or may be worn.",
        "Our own rules.",
        "roster/guards",
    ),
    "worn share": Card(
        "Worn share",
        "Sessions in which the guard was worn, of the sessions the athlete took part in since it "
        "was fitted. An athlete with several guards has the sums over the guards.",
        "sessions worn ÷ sessions taken part in since fitted",
        "A guard meant for games alone has a low share by its nature.",
        "Our own rule.",
        "roster/guards",
    ),
    "availability": Card(
        "Availability",
        "Of the athletes on the roster on the day of a session, those not out or limited through "
        "injury or illness. Not recorded, and limited or out without a reason, is unknown: it is "
        "left out of the denominator and shown. Out for selection or personal reasons is "
        "available.",
        "(full + limited or out for other reasons) ÷ those whose state can be told",
        "The more is unknown, the less the share says.",
        _IOC,
        "roster/sessions",
    ),
    "days lost": Card(
        "Days lost and severity",
        "Full days between onset and return: neither the day of onset nor the day of the return is "
        "lost. An injury without a return is open and has lost at least the days up to the last "
        "day known, that day included. Median and share still out after 28 days allow for open "
        "ones. Injuries of rostered athletes count that happened in a session of their season, or, "
        "without a session, between its first and last.",
        "return − onset − 1, not below 0; open: last day known − onset; bins 0, 1–7, 8–28, over 28",
        "A total with open injuries is a lower bound, and said to be.",
        _IOC,
        "roster/injuries",
    ),
    "roster days": Card(
        "Roster days lost to injury",
        "Days between the first and last session of the season on which an athlete was on the "
        "roster, and those of them lost to injury. Days of overlapping injuries count once.",
        "union of the days lost of each athlete",
        "Less than the sum of days lost wherever injuries overlap or outlast the season.",
        _IOC,
        "roster/injuries",
    ),
    "burden": Card(
        "Burden, and rates by part of the season",
        "Days lost per 1000 athlete-exposures, and injuries per 1000 athlete-exposures of each "
        "part of the season. An athlete-exposure is one athlete taking part, in full or limited, "
        "in one session. Injuries without a session, or of an athlete not recorded as taking part "
        "in it, are in no rate; they are counted in what is left out. A part's rate has that "
        "part's own exposures below it.",
        "1000 × days lost ÷ exposures = incidence × mean severity; exact Poisson limits for rates",
        "With open injuries the burden is a lower bound.",
        "Bahr, Clarsen & Ekstrand 2018, Br J Sports Med 52:1018-1021; Garwood 1936, Biometrika "
        "28:437-442.",
        "roster/sessions",
    ),
}
"""Cards by name."""
