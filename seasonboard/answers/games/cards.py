"""Method cards of the Games answer."""

from collections.abc import Mapping

from seasonboard.answers.cards import Card
from seasonboard.answers.compare.cards import CARDS as COMPARE_CARDS

CARDS: Mapping[str, Card] = {
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
}

EXPLAINED = tuple(
    {**COMPARE_CARDS, **CARDS}[name]
    for name in (
        "exposures",
        "curve",
        "median",
        "restricted mean",
        "log-rank",
        "one mix",
        "other ends",
        "repeats",
        "ever never",
        "left out",
    )
)
"""The cards of `--explain`, in the order in which its numbers stand."""
