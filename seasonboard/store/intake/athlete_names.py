"""Athletes by name where a key is missing: taken when sure, offered when likely, never guessed."""

from difflib import get_close_matches

import polars as pl

from seasonboard.file_limits import MOST_COMPARED
from seasonboard.store.intake.load_context import LoadContext
from seasonboard.store.intake.problems import Findings
from seasonboard.store.intake.season_rows import SeasonRows
from seasonboard.store.intake.text_columns import folded_names, with_text
from seasonboard.stored_column import StoredTable

NAME, JERSEY, TEAM = "athlete_name", "athlete_jersey", "athlete_team"
DEPARTMENT = "athlete_department"
MOST_SOUGHT = 500
"""For so many unknown names of one file a near one is looked for, if few enough are known."""
_INITIAL = r"^(\p{L} \S+|\S+ \p{L}|\S+)$"
_ASKED = (NAME, JERSEY, TEAM, "_department")


def with_athletes(table: StoredTable, text: pl.DataFrame, context: LoadContext) -> pl.DataFrame:
    """Fill the key `athlete` of rows that only name the athlete.

    A name counts as the athlete's when it is the same but for capitals, apostrophes, dots and
    “Last, First”, and nobody else of the department (of the team, with the jersey, where they are
    given) has it. The options say whether the likeliest athlete is taken, with a note; else every
    row whose athlete is not sure is a problem.
    """
    if table.name == "roster" or not {NAME, JERSEY} & set(text.columns):
        return text
    findings, accept_likely = context.findings, context.options.accept_likely
    text = _with_columns(text, context.season)
    named = pl.col(NAME).is_not_null() | (pl.col(JERSEY).is_not_null() & pl.col(TEAM).is_not_null())
    mine = pl.col("athlete").is_null() & named
    queries = text.filter(mine).select(_ASKED).unique(maintain_order=True).with_row_index("_asked")
    matched = _matched(queries.with_columns(_folded=folded_names(queries[NAME])), context.season)
    joined = text.join(matched, on=_ASKED, how="left", maintain_order="left", nulls_equal=True)
    sure = mine & pl.col("_found").is_not_null()
    likely = mine & pl.col("_found").is_null() & pl.col("_likely").is_not_null()
    _tell_sure(joined, findings, sure)
    if accept_likely:
        said = "was taken as the likely athlete {_likely} ({_called})."
        findings.doubt(joined, likely, NAME, said)
    else:
        said = "is no athlete's name here, but likely {_likely} ({_called}). Write the key, give "
        said += "it in the mapping under values.athlete, or take likely ones with --accept-likely."
        findings.reject(joined, likely, NAME, said)
    _tell_nobody(
        joined,
        findings,
        mine & ~sure & ~likely,
        has_people=bool(context.season.now("roster").height),
    )
    key = pl.when(sure).then("_found").when(likely & accept_likely).then("_likely")
    return (
        joined.with_columns(athlete=key.otherwise("athlete"))
        .select(text.columns)
        .drop("_department")
    )


def _with_columns(text: pl.DataFrame, season: SeasonRows) -> pl.DataFrame:
    """Add what is absent, and `_department`: of the team, as written, of the session, or alone."""
    text = with_text(text, ("athlete", NAME, JERSEY, TEAM, DEPARTMENT))
    teams = season.now("teams").select("team", "department")
    only = teams["department"].unique()
    by_team = teams.select(pl.col("team").alias(TEAM), _of_team="department")
    text = text.join(by_team, on=TEAM, how="left", maintain_order="left")
    if "session" in text.columns:
        played = season.now("sessions").select("session", "team").join(teams, on="team")
        played = played.select("session", _of_session="department").unique("session")
        text = text.join(played, on="session", how="left", maintain_order="left")
    text = with_text(text, ["_of_session"])
    alone = pl.lit(only[0] if len(only) == 1 else None, pl.String)
    department = pl.coalesce("_of_team", DEPARTMENT, "_of_session", alone)
    return text.with_columns(_department=department).drop("_of_team", "_of_session")


def _people(season: SeasonRows) -> pl.DataFrame:
    teams = season.now("teams").select("team", "department")
    people = season.now("roster").join(teams, on="team", how="left")
    people = people.select("athlete", "name", "jersey", "team", "department")
    people = people.unique(maintain_order=True)
    return people.with_columns(_folded=folded_names(people["name"]))


def _matched(queries: pl.DataFrame, season: SeasonRows) -> pl.DataFrame:
    """Return asked → `_found` (sure), `_likely`, and what the likely one is called."""
    people = _people(season)
    ways = (
        queries.join(people, on="_folded"),
        _by_jersey(queries, people),
        _by_initial(queries, people),
    )
    here = pl.col("_department").is_null() | (pl.col("_department") == pl.col("department"))
    in_team = pl.col(TEAM).is_null() | (pl.col(TEAM) == pl.col("team"))
    wears = (pl.col("jersey") == pl.col(JERSEY)).fill_null(False)
    counted = (
        pl.concat(ways, how="diagonal")
        .filter(here.fill_null(False) & in_team.fill_null(False))
        .group_by("_asked")
        .agg(
            pl.col("athlete").unique().sort().alias("_all"),
            pl.col("athlete").filter(wears).unique().alias("_wearing"),
            _jersey=pl.col("jersey").drop_nulls().first(),
        )
    )
    only, wearing = (
        pl.when(pl.col(name).list.len() == 1).then(pl.col(name).list.first())
        for name in ("_all", "_wearing")
    )
    several = pl.col("_all").list.join(", ")
    counted = counted.select("_asked", "_jersey", _several=several, _one=pl.coalesce(only, wearing))
    joined = queries.join(counted, on="_asked", how="left", maintain_order="left")
    elsewhere = pl.col("_department").is_null() & (people["department"].n_unique() > 1)
    joined = joined.with_columns(
        _found=pl.when(~elsewhere).then("_one"), _exact=pl.when(elsewhere).then("_one")
    )
    return _with_likely(joined, people).select(
        *_ASKED, "_found", "_likely", "_called", "_jersey", "_several"
    )


def _by_jersey(queries: pl.DataFrame, people: pl.DataFrame) -> pl.DataFrame:
    """Pair rows that give no name with those of the team who wear the number."""
    nameless = queries.filter(pl.col(NAME).is_null()).drop("_folded")
    worn = people.with_columns(pl.col("team").alias(TEAM), pl.col("jersey").alias(JERSEY))
    return nameless.join(worn, on=[TEAM, JERSEY], how="inner")


def _by_initial(queries: pl.DataFrame, people: pl.DataFrame) -> pl.DataFrame:
    """Pair “Anneli C.”, “A. Corran” and “Corran” with those of the team or department named so."""
    exact = queries.join(people, on="_folded", how="semi")
    short = queries.filter(pl.col("_folded").str.contains(_INITIAL))
    short = short.join(exact, on="_asked", how="anti").rename({"_folded": "_words"})
    in_team, in_club = pl.col(TEAM).is_not_null(), pl.col("_department").is_not_null()
    by_team = people.with_columns(pl.col("team").alias(TEAM))
    by_club = people.with_columns(_department="department")
    pairs = pl.concat(
        [
            short.filter(in_team).join(by_team, on=TEAM),
            short.filter(~in_team & in_club).join(by_club, on="_department"),
        ],
        how="diagonal",
    )
    words, own = pl.col("_words").str.split(" "), pl.col("_folded").str.split(" ")
    first = own.list.first().str.starts_with(words.list.first())
    last = own.list.last().str.starts_with(words.list.last())
    lone = own.list.contains(words.list.first())
    return pairs.filter(pl.when(words.list.len() == 1).then(lone).otherwise(first & last))


def _with_likely(queries: pl.DataFrame, people: pl.DataFrame) -> pl.DataFrame:
    """Seek a near name among the people of the department, for names that match nobody."""
    nobody = pl.col("_one").is_null() & pl.col("_several").is_null()
    most = min(MOST_SOUGHT, MOST_COMPARED // max(1, people.height))
    sought = queries.filter(nobody).drop_nulls("_folded").head(most)
    near = []
    for number, name, department in sought.select("_asked", "_folded", "_department").iter_rows():
        here = people
        if department is not None:
            here = people.filter(pl.col("department") == department)
        for close in get_close_matches(name, here["_folded"].unique().to_list(), 1, cutoff=0.7):
            likely = here.filter(pl.col("_folded") == close)["athlete"].unique()
            near += [(number, likely[0])] if len(likely) == 1 else []
    close_ones = pl.DataFrame(near, schema={"_asked": pl.UInt32, "_near": pl.String}, orient="row")
    joined = queries.join(close_ones, on="_asked", how="left", maintain_order="left")
    joined = joined.with_columns(_likely=pl.coalesce("_exact", "_near"))
    jersey = pl.col("jersey").fill_null("no jersey")
    called = people.unique("athlete", keep="first").select(
        _likely="athlete", _called=pl.concat_str(pl.col("name"), jersey, separator=", ")
    )
    return joined.join(called, on="_likely", how="left", maintain_order="left")


def _tell_sure(joined: pl.DataFrame, findings: Findings, sure: pl.Expr) -> None:
    other = sure & pl.col(JERSEY).is_not_null() & (pl.col("_jersey") != pl.col(JERSEY))
    said = "was taken as athlete {_found} by name; the roster has jersey {_jersey}."
    findings.doubt(joined, other, JERSEY, said)
    unnoted = sure & ~other.fill_null(False)
    findings.doubt(joined, unnoted, NAME, "was taken as athlete {_found}, by name.")


def _tell_nobody(
    joined: pl.DataFrame, findings: Findings, nobody: pl.Expr, *, has_people: bool
) -> None:
    several = nobody & pl.col("_several").is_not_null()
    said = "is the name of more than one athlete ({_several}); write the key or the jersey."
    findings.reject(joined, several, NAME, said)
    said = "is no athlete's name on the rosters of the department; write the key."
    if not has_people:
        said = "is nobody known: no roster is loaded yet. Load the roster first, or together with "
        said += "this file, as files of one folder."
    findings.reject(joined, nobody & pl.col("_several").is_null(), NAME, said)
