"""Putting the questions behind the comparisons, in the form in which tests compare them."""

from tests.queries.asking import LISTS, scope

COUNTS = ("injuries_guarded", "injuries_unguarded", "exposures_guarded", "exposures_unguarded")
COURSE = ("sport", "position_group", "setting", "block")
PACE = (*(name for name in LISTS if name not in {"settings", "position_groups"}), "until")


def without_purpose(**parts):
    return {name: value for name, value in scope(**parts).items() if name != "purpose"}


def courses(store, **parts):
    """Return (asked after, four counts) by athlete, site and kind of session."""
    rows = store.read("compare/athlete_courses", **without_purpose(**parts)).to_dicts()
    names = ("athlete", "area", "side", *COURSE)
    found = {
        tuple(r[n] for n in names): tuple(r[n] for n in ("asked_after", *COUNTS)) for r in rows
    }
    assert len(found) == len(rows), "one row per athlete, site and kind of session"
    return found


def by_athlete(store, **parts):
    """Return (asked after, four counts) by athlete, when each has one kind of session."""
    return {key[0]: counts for key, counts in courses(store, **parts).items()}


def bare_rates(store, **parts):
    rows = store.read("compare/bare_rates", **without_purpose(**parts)).to_dicts()
    return {tuple(r[n] for n in ("area", *COURSE)): (r["injuries"], r["exposures"]) for r in rows}


def pairs(store, **parts):
    """Return (area, athlete, guarded side hurt, bare side hurt) with how many sessions."""
    rows = store.read("compare/other_side", **scope(**parts)).to_dicts()
    names = ("area", "athlete", "injuries_guarded", "injuries_unguarded")
    return {tuple(r[n] for n in names): r["pairs"] for r in rows}


def athlete_strata(store, **parts):
    """Return by (comparison, stratum) the four counts of each athlete's number."""
    found = {}
    for row in store.read("compare/athlete_strata", **scope(**parts)).to_dicts():
        cells = found.setdefault((row["comparison"], row["stratum"]), {})
        assert row["athlete_no"] not in cells
        cells[row["athlete_no"]] = tuple(row[n] for n in COUNTS)
    return found


def pace(store, **parts):
    asked = {name: value for name, value in scope(**parts).items() if name in PACE}
    return store.read("compare/pace", **asked)["games"][0]


def summed(cells):
    return tuple(map(sum, zip(*cells, strict=True)))
