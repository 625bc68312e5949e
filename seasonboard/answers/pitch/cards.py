"""Method cards of the Pitch answer."""

from collections.abc import Mapping

from seasonboard.answers.cards import Card

CARDS: Mapping[str, Card] = {
    "prospect": Card(
        "The prospect",
        "The teams that are asked about: athletes, games and practices of one season. Without a "
        "table of teams it is a department like those served: one team of each sport and sex in "
        "the store, with the median roster, games (those listed for later days too) and practices "
        "held of its seasons so far. Where the scope names position groups, only their athletes "
        "count.",
        "median over team seasons, halves rounded up",
        "A season that has only begun makes the median practices too few.",
        "Counts; nothing is estimated.",
        "pitch/served",
    ),
    "baseline": Card(
        "Injuries to expect without guards",
        "Exposures × rate. Exposures: athletes × sessions × the share of a roster that takes part, "
        "as recorded for the sport and setting. Rate: bare sites of the same sport and sex in this "
        "setting; else with games and practices together; else the published rate of that sport, "
        "sex and setting times the published share of injuries at these body areas. An own rate "
        "needs 11 injuries: fewer leave its error above 30 %, and would show a small group. Own "
        "rates are added up over the sites of an athlete. A published figure of the other "
        "definition (time loss, any medical attention) is never used.",
        "athletes × sessions × share taking part × Σ sites · injuries / site-exposures",
        "What a team rests on stands beside it. Where nothing fits, its injuries are not known and "
        "the team is left out of all figures of injuries and games, never counted as 0.",
        "Gamma law of a sum of rates: Fay & Feuer 1997, Stat Med 16:791-801. Published rates: as "
        "named beside each.",
        "pitch/baseline",
    ),
    "taking part": Card(
        "Share of a roster that takes part",
        "Of the athletes on the roster on the day of a session whose attendance was recorded, "
        "those recorded as taking part, in full or limited. It turns athletes and sessions into "
        "athlete-exposures.",
        "took part / on the roster, added up over sessions, by sport and setting",
        "Attendance that was not recorded counts as not taking part: the share is low where much "
        "is missing. Without own sessions all are taken to take part.",
        "Counts; nothing is estimated.",
        "pitch/taking_part",
    ),
    "season ahead": Card(
        "Games kept, days kept, injuries averted",
        "A season without guards is drawn many times. Each injury keeps its athlete out for as "
        "many days as own injuries did (open ones counted as far as they have lasted), from any "
        "day of the season on, over the games that fall into it. The same season with guards: an "
        "injury falls on a guarded exposure with the share that would be guarded, and does not "
        "happen with a chance of 1 − ratio; a ratio above 1 adds injuries instead. So both seasons "
        "differ by nothing but guards.",
        "injuries: Poisson; rate: gamma, as sure as the injuries it rests on; ratio: log-normal, "
        "from its limits; seeded",
        "80 % and 95 % of simulated seasons lie in the ranges: chance, the rate and the ratio are "
        "in them; that the ratio holds elsewhere, and that injuries with a guard last as long, is "
        "assumed. A range that reaches down to 0 promises nothing.",
        "Poisson-gamma and log-normal simulation; days by Kaplan & Meier 1958.",
        "pitch/absences",
    ),
    "effect": Card(
        "The effect that is planned with",
        "The same-session ratio of Compare for the kinds in scope with its limits by athlete (or "
        "peek-proof, if asked for), where guarded and bare sites each have 11 injuries. Else none "
        "is shown yet: only seasons without guards are told, and how low the ratio would have to "
        "be for one game missed in ten to be kept.",
        "ratio needed = 1 − 0.1 / share of exposures guarded",
        "A ratio of those who chose a guard, not of a trial. Limits by athlete are a little too "
        "narrow where few injuries inform them; peek-proof ones are wide enough. Where its limits "
        "hold 1, the ranges of games kept reach below 0.",
        "Greenland & Robins 1985; Liang & Zeger 1986; see the cards of Compare.",
        "compare/strata",
    ),
    "guarded share": Card(
        "Share of exposures that would be guarded",
        "Athletes who take a guard × the part of the season that is left once it is fitted × the "
        "share of sessions in which fitted guards are worn. Own take-up: accepted of all athletes "
        "in teams that were offered guards, times the share of those fitted who wore theirs.",
        "take-up × mean(1 − (asked for + turnaround) / season) × worn share",
        "A slow printer costs guarded sessions, which is why prints and games kept hang together.",
        "Counts of Take-up, and the simulated turnaround.",
        "take_up/offers",
    ),
    "visible": Card(
        "Chance that one season shows a difference",
        "In each simulated season the injuries on guarded and on bare exposures are compared as "
        "that department could: exact conditional test, two-sided, at 5 %, nothing adjusted for.",
        "seasons with p ≤ 0.05 / seasons; p = 2 × the smaller binomial tail",
        "One season of one department rarely shows anything, whatever the guard does. Agree on "
        "that before it begins.",
        "Exact conditional test: Breslow & Day 1987, Statistical Methods in Cancer Research II.",
        "compare/strata",
    ),
    "prints ahead": Card(
        "Prints, waiting and turnaround",
        "First guards are asked for in the first two weeks, evenly: athletes who take one × guards "
        "an athlete. A guard is remade within 30 days with the own share; later ones are asked "
        "for by the own number for each session worn. Prints are made in the order in which they "
        "are asked for: at so many printers, each print taking its hours stretched by the hours a "
        "week a printer may run; or under an allotment, one every 168 / allotment hours.",
        "turnaround = wait + printing + own time outside: requested to fitted less modelled to "
        "printed",
        "Time outside is drawn from own fitted orders; open ones are not in it. Other departments "
        "that share the printer or the allotment are not counted.",
        "First come, first served: Kiefer & Wolfowitz 1955, Trans Am Math Soc 78:1-18.",
        "pitch/making",
    ),
    "prints an athlete": Card(
        "Guards an athlete, hours a print",
        "Guards an athlete: fitted preventive guards that stand in no other's place, over the "
        "athletes who have one; a pair made as one guard is one. Hours a print: the median of the "
        "hours recorded of printed guards.",
        "first guards / athletes; median of print hours",
        "With several kinds in scope an athlete may get one of each.",
        "Counts; nothing is estimated.",
        "pitch/prints",
    ),
    "cost": Card(
        "Cost of a game kept",
        "Price × guards (first and later ones; remakes are free to the department) over the games "
        "kept in each simulated season.",
        "price × guards / games kept",
        "Not known where the 95 % range of games kept reaches down to 0: a price for nothing has "
        "no median. It counts nothing but games.",
        "Our own rule.",
        "pitch/prints",
    ),
    "sensitivity": Card(
        "What would change the games kept most",
        "The mean of games kept with one input at the low and the high end of its limits, all "
        "others as they are. A share that was given or assumed is taken to be 10 points off.",
        "injuries × guarded share × (1 − ratio) × days out × games / days of the season",
        "The widest one is where better records would help most.",
        "One input at a time; nothing is estimated anew.",
        "pitch/baseline",
    ),
}
