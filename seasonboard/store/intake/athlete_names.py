"""Athletes by name where a key is missing: taken when sure, offered when likely, never guessed."""

from difflib import get_close_matches

import polars as pl

from seasonboard.store.intake.folding import folded_name
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.stored_column import StoredTable

NAME, JERSEY, TEAM = "athlete_name", "athlete_jersey", "athlete_team"
DEPARTMENT = "athlete_department"
MOST_SOUGHT = 500
"""For so many unknown names of one file a near one is looked for."""
_INITIAL = r"^(\p{L} \S+|\S+ \p{L}|\S+)$"
_ASKED = (NAME, JERSEY, TEAM, "_department")


def with_athletes(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Fill the key `athlete` of rows that only name the athlete.

    A name counts as the athlete's when it is the same but for capitals, apostrophes, dots and
    “Last, First”, and nobody else of the department (of the team, with the jersey, where they are
    given) has it.

    Args:
        table: The table; only those that refer to athletes are touched.
        text: Its rows as text, with `athlete_name` and perhaps `athlete_jersey`, `athlete_team`.
        context: The load. Its options say whether the likeliest athlete is taken, with a note; else
            its findings take a problem for every row whose athlete is not sure.
    """
    if table.name == "roster" or not {NAME, JERSEY} & set(text.columns):
        return text
    findings, accept_likely = context.findings, context.options.accept_likely
    text = _with_columns(text, context.season)
    named = pl.col(NAME).is_not_null() | (pl.col(JERSEY).is_not_null() & pl.col(TEAM).is_not_null())
    open_ = text.filter(pl.col("athlete").is_null() & named)
    people = _people(context.season)
    asked = open_.select(_ASKED).unique(maintain_order=True).with_row_index("_asked")
    matched = _matched(_folded(asked, NAME), people)
    joined = text.join(matched, on=_ASKED, how="left", maintain_order="left", nulls_equal=True)
    mine = pl.col("athlete").is_null() & named
    sure = mine & pl.col("_found").is_not_null()
    likely = mine & pl.col("_found").is_null() & pl.col("_likely").is_not_null()
    _tell_sure(joined, findings, sure)
    if accept_likely:
        said = "was taken as the likely athlete {_likely} ({_called})."
        findings.doubt(joined, likely, NAME, said)
    else:
        said = (
            "is no athlete's name here, but likely {_likely} ({_called}). Write the key, give it "
        )
        said += "in the mapping under values.athlete, or take likely ones with --accept-likely."
        findings.reject(joined, likely, NAME, said)
    _tell_nobody(joined, findings, mine & ~sure & ~likely)
    keys = [pl.col("athlete"), pl.when(sure).then(pl.col("_found"))]
    if accept_likely:
        keys.append(pl.when(likely).then(pl.col("_likely")))
    filled = joined.with_columns(athlete=pl.coalesce(keys))
    return filled.select(text.columns).drop("_department")


def _with_columns(text: pl.DataFrame, season: SeasonRows) -> pl.DataFrame:
    for name in ("athlete", NAME, JERSEY, TEAM, DEPARTMENT):
        if name not in text.columns:
            text = text.with_columns(pl.lit(None, pl.String).alias(name))
    teams = season.now("teams").select("team", "department")
    only = teams["department"].unique()
    by_team = teams.select(pl.col("team").alias(TEAM), _of_team="department")
    text = text.join(by_team, on=TEAM, how="left", maintain_order="left")
    if "session" in text.columns:
        played = season.now("sessions").select("session", "team").join(teams, on="team")
        played = played.select("session", _of_session="department").unique("session")
        text = text.join(played, on="session", how="left", maintain_order="left")
    else:
        text = text.with_columns(_of_session=pl.lit(None, pl.String))
    alone = pl.lit(only[0] if len(only) == 1 else None, pl.String)
    department = pl.coalesce("_of_team", DEPARTMENT, "_of_session", alone)
    return text.with_columns(_department=department).drop("_of_team", "_of_session")


def _people(season: SeasonRows) -> pl.DataFrame:
    teams = season.now("teams").select("team", "department")
    roster = season.now("roster").join(teams, on="team", how="left")
    people = roster.select("athlete", "name", "jersey", "team", "department").unique(
        maintain_order=True
    )
    return _folded(people, "name")


def _folded(frame: pl.DataFrame, name: str) -> pl.DataFrame:
    names = frame[name].unique().drop_nulls()
    fold = {one: folded_name(one) for one in names}
    return frame.with_columns(
        _folded=pl.col(name).replace_strict(fold, default=None, return_dtype=pl.String)
    )


def _matched(asked: pl.DataFrame, people: pl.DataFrame) -> pl.DataFrame:
    """Return asked → `_found` (sure), `_likely`, and what the likely one is called."""
    ways = (asked.join(people, on="_folded"), _by_jersey(asked, people), _by_initial(asked, people))
    pairs = pl.concat(ways, how="diagonal")
    here = pl.col("_department").is_null() | (pl.col("_department") == pl.col("department"))
    in_team = pl.col(TEAM).is_null() | (pl.col(TEAM) == pl.col("team"))
    pairs = pairs.filter(here.fill_null(False) & in_team.fill_null(False))
    worn = (pl.col("jersey") == pl.col(JERSEY)).fill_null(False)
    counted = pairs.group_by("_asked").agg(
        pl.col("athlete").unique().alias("_all"),
        pl.col("athlete").filter(worn).unique().alias("_worn"),
        _jersey=pl.col("jersey").drop_nulls().first(),
    )
    one = pl.col("_all").list.len() == 1
    one_worn = pl.col("_worn").list.len() == 1
    counted = counted.select(
        "_asked",
        "_jersey",
        _several=pl.col("_all").list.sort().list.join(", "),
        _found=pl.when(one)
        .then(pl.col("_all").list.first())
        .when(one_worn)
        .then(pl.col("_worn").list.first()),
    )
    joined = asked.join(counted, on="_asked", how="left", maintain_order="left")
    elsewhere = pl.col("_department").is_null() & (people["department"].n_unique() > 1)
    joined = joined.with_columns(
        _exact=pl.when(elsewhere).then("_found"), _found=pl.when(~elsewhere).then("_found")
    )
    return _with_likely(joined, people).select(
        *_ASKED, "_found", "_likely", "_called", "_jersey", "_several"
    )


def _by_jersey(asked: pl.DataFrame, people: pl.DataFrame) -> pl.DataFrame:
    """Pair rows that give no name with those of the team who wear the number."""
    nameless = asked.filter(pl.col(NAME).is_null()).drop("_folded")
    worn = people.with_columns(pl.col("team").alias(TEAM), pl.col("jersey").alias(JERSEY))
    return nameless.join(worn, on=[TEAM, JERSEY], how="inner")


def _by_initial(asked: pl.DataFrame, people: pl.DataFrame) -> pl.DataFrame:
    """Pair “Anneli C.”, “A. Corran” and “Corran” with those of the team or department named so."""
    in_team, in_club = pl.col(TEAM).is_not_null(), pl.col("_department").is_not_null()
    whole = asked.join(people, on="_folded", how="semi").select("_asked")
    short = asked.filter(pl.col("_folded").str.contains(_INITIAL)).join(
        whole, on="_asked", how="anti"
    )
    parts = short.select("_asked", TEAM, "_department", _words=pl.col("_folded").str.split(" "))
    named = people.select("athlete", "name", "jersey", "team", "department", "_folded")
    pairs = pl.concat(
        [
            parts.filter(in_team).join(named.with_columns(**{TEAM: "team"}), on=TEAM),
            parts.filter(~in_team & in_club).join(
                named.with_columns(_department="department"), on="_department"
            ),
        ],
        how="diagonal",
    )
    own = pl.col("_folded").str.split(" ")
    given, last = pl.col("_words").list.first(), pl.col("_words").list.last()
    both = own.list.first().str.starts_with(given) & own.list.last().str.starts_with(last)
    lone = own.list.contains(given)
    one = pairs.filter(pl.when(pl.col("_words").list.len() == 1).then(lone).otherwise(both))
    return short.drop("_folded").join(one.select("_asked", *named.columns), on="_asked")


def _with_likely(asked: pl.DataFrame, people: pl.DataFrame) -> pl.DataFrame:
    """Seek a near name among the people of the department, for names that match nobody."""
    open_ = asked.filter(
        pl.col("_found").is_null() & pl.col("_exact").is_null() & pl.col("_several").is_null()
    )
    near = []
    sought = open_.drop_nulls("_folded").head(MOST_SOUGHT)
    for number, name, department in sought.select("_asked", "_folded", "_department").iter_rows():
        here = people
        if department is not None:
            here = people.filter(pl.col("department") == department)
        close = get_close_matches(name or "", here["_folded"].unique().to_list(), n=1, cutoff=0.7)
        if close:
            likely = here.filter(pl.col("_folded") == close[0])
            if likely["athlete"].n_unique() == 1:
                near.append((number, likely["athlete"][0]))
    close_ones = pl.DataFrame(near, schema={"_asked": pl.UInt32, "_near": pl.String}, orient="row")
    joined = asked.join(close_ones, on="_asked", how="left", maintain_order="left")
    joined = joined.with_columns(_likely=pl.coalesce("_exact", "_near"))
    called = people.unique("athlete", keep="first").select(
        _likely="athlete",
        _called=pl.concat_str(
            pl.col("name"), pl.col("jersey").fill_null("no jersey"), separator=", "
        ),
    )
    return joined.join(called, on="_likely", how="left", maintain_order="left")


def _tell_sure(joined: pl.DataFrame, findings: Findings, sure: pl.Expr) -> None:
    other = sure & pl.col(JERSEY).is_not_null() & (pl.col("_jersey") != pl.col(JERSEY))
    said = "was taken as athlete {_found} by name; the roster has jersey {_jersey}."
    findings.doubt(joined, other, JERSEY, said)
    plain = sure & ~other.fill_null(False)
    findings.doubt(joined, plain, NAME, "was taken as athlete {_found}, by name.")


def _tell_nobody(joined: pl.DataFrame, findings: Findings, nobody: pl.Expr) -> None:
    several = nobody & pl.col("_several").is_not_null()
    said = "is the name of more than one athlete ({_several}); write the key or the jersey."
    findings.reject(joined, several, NAME, said)
    said = "is no athlete's name on the rosters of the department; write the key."
    findings.reject(joined, nobody & pl.col("_several").is_null(), NAME, said)
