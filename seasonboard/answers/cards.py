"""Method cards: what each number is, in plain words; the same text on every screen."""

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Card:
    """How one number is made."""

    title: str
    what: str
    formula: str
    reading: str
    source: str
    query: str


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
    "curve": Card(
        "Share still uninjured, by games played",
        "Each site is followed from the athlete's first game of a season. At each game it is in "
        "the guarded or the bare group by what was worn in that game; who takes up a guard after "
        "g games enters the guarded curve there. Only game injuries to the site are events; any "
        "other injury to the site, the end of the roster or of the season ends follow-up and is "
        "counted apart. A curve starts at the first game with enough sites at risk.",
        "S(k) = Π (1 − injuries / at risk); Greenwood's error, log-log limits",
        "The two curves hold different athletes at different games: they describe what was worn, "
        "not what would have happened to one athlete with and without. With an exposure that "
        "changes, such curves need care (Sjölander 2020).",
        "Kaplan & Meier 1958; late entry: Tsai, Jewell & Wang 1987; Snapinn, Jiang & Iglewicz "
        "2005, Am Stat 59:301; Sjölander 2020, Eur J Epidemiol.",
        "games/ticks",
    ),
    "median": Card(
        "Median games before injury",
        "The first game by which half of the sites were injured. Its limits are where the curve's "
        "own limits cross one half.",
        "min { k : S(k) ≤ ½ }",
        "“Not reached” means that more than half were never injured, which is usual and good.",
        "Brookmeyer & Crowley 1982, Biometrics 38:29-41.",
        "games/ticks",
    ),
    "restricted mean": Card(
        "Mean games before injury, up to a horizon",
        "The area under the curve up to the horizon: of the first H games, how many were played "
        "before an injury to the site, on average. The horizon is the last game at which both "
        "groups are large enough, unless one is given.",
        "Σ S(k) for k from 0 to H − 1; variance Σ A(k)² d / (n (n − d))",
        "The difference between the groups is the number to quote, with its interval. With fewer "
        "than 5 injuries in a group the normal limits would be too narrow (they missed in 17 % of "
        "simulated seasons); then gamma limits of each group's loss are put together, which held "
        "in 97 % or more.",
        "Irwin 1949, J Hyg 47:188; Karrison 1997, Control Clin Trials 18:151; Fay & Feuer 1997, "
        "Stat Med 16:791; Zou & Donner 2008, Stat Med 27:1693.",
        "games/ticks",
    ),
    "log-rank": Card(
        "Log-rank test",
        "Compares the injuries of the guarded with those expected if guarded and bare sites were "
        "hurt equally often at every game. The stratified form does so within sport, sex and "
        "position group.",
        "(O − E)² / V, hypergeometric variance, 1 degree of freedom",
        "A small p says the two groups differ somewhere along the clock, not by how much, and not "
        "why.",
        "Mantel 1966; Peto & Peto 1972, J R Stat Soc A 135:185.",
        "games/ticks",
    ),
    "other ends": Card(
        "How follow-up ends",
        "The share of sites whose follow-up each cause has ended by each game: an injury that "
        "counts, another injury to the site (in practice, or without a day lost), an injury "
        "elsewhere that ended the season, leaving the roster. With the share still followed they "
        "add up to 1. Changing between guarded and bare, and the season's end, are not ends but "
        "censoring.",
        "Aalen-Johansen: Σ S(k−1) · events(k) / at risk(k), all causes of one game together",
        "One minus the survival curve would be higher: it asks what would happen if nothing else "
        "ever ended a season.",
        "Aalen & Johansen 1978, Scand J Stat 5:141-150.",
        "games/ticks",
    ),
    "repeats": Card(
        "Mean injuries per site, repeats counted",
        "How many injuries a site has had by each game, followed through its injuries; every "
        "record counts. Preventive guards worn or not, whatever the view. The error allows for "
        "athletes who are hurt again and again.",
        "Σ injuries(k) / at risk(k); robust variance over athletes",
        "Where few are hurt twice it is close to one minus the survival curve.",
        "Nelson 1995, J Qual Technol 27:147-157; Lawless & Nadeau 1995, Technometrics 37:158-168.",
        "games/repeats",
    ),
    "one mix": Card(
        "Curves at one mix of athletes",
        "The two curves hold different mixes of sports, sexes and position groups. Here each kind "
        "has its own pair of curves, averaged with the same weights (its share of all that was "
        "followed) for both groups; up to the last game at which every kind was at risk in both.",
        "Σ weight · S(k) over kinds",
        "When a kind is missing from one group there is no such average; the board says which "
        "share of the mix that is.",
        "Makuch 1982, J Chron Dis 35:437-443.",
        "games/ticks",
    ),
    "ever never": Card(
        "The misleading tally",
        "Sites grouped by whether they were ever guarded in the season, each from its first game. "
        "It counts the games before the guard came as guarded games, and a site must last long "
        "enough uninjured to get one: the guarded seem safe while they wait.",
        "Kaplan-Meier of ever and never",
        "Shown on demand, so that it is recognised elsewhere. Never to be quoted.",
        "Immortal time: Suissa 2008, Am J Epidemiol 167:492-499.",
        "games/ever_never",
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
"""Cards by the name of the number they explain."""


def card(name: str) -> Card:
    """Return one card.

    Raises:
        KeyError: There is none by that name.
    """
    return CARDS[name]
