"""Method cards of the Compare answer."""

from collections.abc import Mapping

from seasonboard.answers.cards import Card

_SITE = (
    "A site is a body area and a side. A site-exposure is one athlete taking part, in full or "
    "limited, in one session, looked at for one site. It is guarded when a guard that covers the "
    "site was worn in that very session, else bare. Nobody is a guarded athlete for a season. "
)

CARDS: Mapping[str, Card] = {
    "exposures": Card(
        "Site-exposures and injuries",
        _SITE + "View preventive: sites with no earlier recorded injury, guard made to prevent or "
        "none. An injury counts with what was worn at its site in its session. Outcome time loss: "
        "at least one full day lost, the day of onset and the day of return not counted; an injury "
        "without a recorded return is open and counts as time lost. Two records of one site in one "
        "session count once.",
        "guarded + bare + set aside = all site-exposures",
        "What is set aside or left out is listed with its count and its reason.",
        "IOC consensus statement 2020 (Bahr et al., Br J Sports Med 54:372) for exposure, area, "
        "side and time loss.",
        "compare/strata",
    ),
    "rate": Card(
        "Rate per 1000 exposures",
        "Injuries divided by site-exposures, times 1000. The interval is exact: it holds the true "
        "rate at least as often as it says, also for few injuries.",
        "1000 × injuries / exposures; limits χ²(α/2; 2x)/2 and χ²(1−α/2; 2x+2)/2 over exposures",
        "Two rates whose intervals overlap may still differ, and the other way round: read the "
        "comparisons below.",
        "Garwood 1936, Biometrika 28:437-442.",
        "compare/strata",
    ),
    "rate per hour": Card(
        "Rate per 1000 hours",
        "Injuries divided by the hours for which sites were exposed, times 1000. Only sessions for "
        "which the athlete's minutes are recorded count, with their injuries; the others are left "
        "out of this rate and counted. An athlete's hour counts once for each site studied, as an "
        "exposure does: with both shins studied, one hour of one athlete is two. Minutes recorded "
        "as 0 count as no time, and an injury in them counts.",
        "1000 × injuries / hours; hours = Σ minutes / 60; limits as for the rate per exposure",
        "Long and short sessions weigh by their length here and alike per exposure, so the two "
        "rates may differ where guards are worn in longer or shorter sessions. The ratios stay per "
        "exposure. Minutes are often recorded for games only: set the scope to games then.",
        "IOC consensus statement 2020 (Bahr et al., Br J Sports Med 54:372) names both "
        "denominators, hours of exposure and athlete-exposures; Garwood 1936, Biometrika "
        "28:437-442, for the limits.",
        "compare/hours",
    ),
    "same session": Card(
        "Same session (the headline)",
        "Guarded and bare sites are compared only within one session, one position group and one "
        "body area: whatever the teammates shared that day (opponent, ground, weather, fatigue, "
        "game or practice) cannot tip the balance. Sessions in which all were guarded, or all "
        "bare, tell nothing and count for nothing.",
        "Σ a·T0/T ÷ Σ b·T1/T over strata; a, b injuries guarded and bare, T1, T0 their exposures",
        "Below 1: guarded sites were hurt less often in the same sessions. It does not remove "
        "differences between athletes who do and do not take a guard.",
        "Mantel-Haenszel for rates with the variance of Greenland & Robins 1985, Biometrics "
        "41:55-68; where a group has no injury, the mid-P interval of the exact conditional "
        "distribution.",
        "compare/strata",
    ),
    "areas": Card(
        "Same session, area by area",
        "The headline for each body area that the guard kinds in scope cover, side by side.",
        "adjusted p: Holm's step-down over the areas that give a p",
        "Read the adjusted one: among twelve areas without any effect one below 0.05 turns up in "
        "46 % of seasons. An area picked because it looked best is not evidence.",
        "Holm 1979, Scand J Stat 6:65.",
        "compare/strata",
    ),
    "alike athletes": Card(
        "Alike athletes",
        "Compares within sport, sex, position group, setting, season, body area and two-week "
        "block. Without the blocks the season's course would be mistaken for the guard: injuries "
        "are denser early, guards come later.",
        "as for same session, with wider strata",
        "Uses more of the data than same session and removes less.",
        "Mantel-Haenszel for rates, Greenland & Robins 1985.",
        "compare/strata",
    ),
    "same athlete": Card(
        "Same athlete",
        "Each site is compared with itself: sessions with the guard against sessions without, from "
        "the day the guard was asked for. An exposure weighs what the bare rate of such athletes "
        "(sport, position group) in such sessions (setting, two-week block) leads one to expect, "
        "so that the season's course does not pass for the guard. Follow-up goes on through "
        "injuries and all of them count: stopping at the first would leave only guarded injuries "
        "able to inform. Return guards are set aside, and so are sites injured before the guard "
        "was asked for; the bare time before the asking is left out for all, since counting it "
        "only for those who were not hurt in it would flatter the bare.",
        "Σ a·E0/E ÷ Σ b·E1/E over sites; E1, E0 expected injuries guarded and bare",
        "Removes what is stable about an athlete. It rests on few sites: those hurt at least once "
        "that were exposed both ways. It errs a little toward harm (by a factor of 1.09 in "
        "simulated seasons without effect), since an injury takes away sessions that would mostly "
        "have been guarded; its limits are wide enough to hold all the same.",
        "Mantel-Haenszel for rates, Greenland & Robins 1985; indirect standardisation, Breslow & "
        "Day 1987; rates drawn toward the mean, Clayton & Kaldor 1987.",
        "compare/athlete_courses",
    ),
    "other side": Card(
        "Other side",
        "Sessions in which an athlete had one side guarded and the other bare: was the guarded or "
        "the bare side hurt? Everything but the side is the same.",
        "guarded sides hurt ÷ bare sides hurt, among pairs with one of them hurt",
        "The strongest match and the fewest injuries. A guard worn on the weaker side tips it.",
        "Matched pairs; exact binomial limits on the pairs that differ (Clopper-Pearson), shown "
        "where the large-sample ones do not exist.",
        "compare/other_side",
    ),
    "decliners": Card(
        "Decliners",
        "As same session, but the bare sites are only those of athletes who had been offered such "
        "a guard and declined, from the day of the offer on. They were offered too, so they are "
        "likelier to be like those who accepted.",
        "as for same session",
        "A second opinion on the headline, from fewer athletes. Why someone declines may itself "
        "matter.",
        "Mantel-Haenszel for rates, Greenland & Robins 1985.",
        "compare/decliners",
    ),
    "clustered": Card(
        "Clustered limits",
        "Limits from the spread between athletes: what each athlete adds to the ratio is summed "
        "over all sessions, squared, and added up. They allow for athletes who are hurt again and "
        "again and for very uneven numbers of sessions.",
        "√ Σ over athletes of (contribution)² ÷ Σ a·T0/T, on the log scale",
        "Where they are wider than the ordinary limits, believe them. Where few injuries inform "
        "them they are too narrow: in 2000 simulated seasons those of same session held the truth "
        "in 92 % with 100 injuries and in 87 to 96 % overall, those of alike athletes in 88 % or "
        "more, where the ordinary ones held in 94 to 98 %.",
        "Liang & Zeger 1986, Biometrika 73:13-22.",
        "compare/athlete_strata",
    ),
    "peek-proof": Card(
        "Peek-proof ratio and e-value",
        "A ratio that is looked at every week strays over ordinary 95 % limits by chance sooner or "
        "later. These limits hold at every look: injuries are taken in calendar order, each "
        "weighed against who was at risk in that session; a ratio is ruled out once a mixture of "
        "other ratios explains the injuries 20 times better.",
        "Π of noncentral hypergeometric likelihood ratios, averaged over a grid of log ratios "
        "(normal, spread 0.7); e-value against a ratio of 1; limits where it reaches 1/α",
        "An e-value of 20 or more is strong evidence against “no difference”, whenever it is "
        "reached. The limits are wider than the ordinary ones: that is the price of looking often.",
        "ter Schure, Pérez-Ortiz, Ly & Grünwald 2024, New Engl J Stat Data Sci 2:190-214.",
        "compare/strata",
    ),
    "needed": Card(
        "How much more is needed",
        "How many guarded site-exposures it takes, at today's bare rate and mix, until a ratio of "
        "0.7 could be told from 1 with a chance of 80 %; and in games, at the pace so far.",
        "(z₁₋α/₂ + z_power)² (1/(0.7·r) + 1/(r·k)) / (ln 0.7)²; r bare rate, k bare per guarded",
        "A rough guide for planning, not a promise.",
        "Breslow & Day 1987, Statistical Methods in Cancer Research II, chapter 7.",
        "compare/strata",
    ),
    "crude": Card(
        "Crude",
        "All guarded sites against all bare ones, nothing taken into account. Guards are worn more "
        "by some athletes, more in games than in practices, and more later in the season; the "
        "crude ratio mixes all that in.",
        "(a / T1) ÷ (b / T0)",
        "Shown so that one sees what adjusting does. Not to be quoted.",
        "Exact conditional limits (Clopper-Pearson on a of a + b) and their mid-P form; the mid-P "
        "is shown.",
        "compare/strata",
    ),
    "verdict": Card(
        "The verdict",
        "Fixed rules, top to bottom. Nothing guarded or nothing bare: nothing to compare. Fewer "
        "than 10 injuries that inform, or an interval that holds both 0.7 and 1/0.7: too few "
        "injuries to tell. Interval below 1: hurt less often; above 1: hurt more often; but if "
        "another adjusted comparison lies wholly on the other side, the comparisons disagree. "
        "Else: no difference shown.",
        "rules on the limits of the same-session ratio",
        "The board would rather say that it cannot tell than hint.",
        "Our own rules; 0.7 is the reduction that would be worth having.",
        "compare/strata",
    ),
    "left out": Card(
        "Left out",
        "What was recorded but cannot enter a rate: injuries without a session or of athletes not "
        "recorded as taking part, exposures after an earlier injury to the site, guards of another "
        "kind or purpose at the site, attendance that was not recorded.",
        "every injury to a site studied, in a session of the scope or without one between a team's "
        "first and last session, is either counted or listed here",
        "A long list is a reason to mend the records before reading the ratio.",
        "Our own rules.",
        "compare/left_out",
    ),
}

EXPLAINED = tuple(
    CARDS[name]
    for name in (
        "exposures",
        "rate",
        "rate per hour",
        "same session",
        "alike athletes",
        "same athlete",
        "other side",
        "crude",
        "decliners",
        "areas",
        "clustered",
        "peek-proof",
        "needed",
        "verdict",
        "left out",
    )
)
"""The cards of `--explain`, in the order in which its numbers stand."""
