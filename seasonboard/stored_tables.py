"""Every table a season is made of: its columns, what they hold, its key, what it refers to.

Loading, reading, export, bundles, forms, the curtain and the table of columns in help follow from
this description; the schema in queries/schema is tested against it.
"""

from collections.abc import Mapping

from seasonboard import terms
from seasonboard.stored_column import (
    CellType,
    Cover,
    StoredTable,
    day,
    instant,
    integer,
    key,
    number,
    text,
    word,
)

FIRST_YEAR, LAST_YEAR = 1990, 2100
"""Dates and instants outside these years are slips of the pen."""

_CODED = Cover.CODED
_ATHLETE = key("athlete", "athlete", "roster.athlete", numbered_in="athletes", cover=_CODED)
_SESSION = key(
    "session", "session", "sessions.session", numbered_in="sessions", cover=Cover.SEARCHED
)
_GUARD = key("guard", "guard", "guards.guard", numbered_in="guards", cover=_CODED)
_KIND = key("kind", "kind of guard", "kinds.kind", label="guard kind")
_TEAM = key("team", "team", "teams.team")
_SEASON = key("season", "season, such as “2026 fall”")

_ALL = (
    StoredTable(
        "kinds", "one body area that a kind of guard covers", ("kind", "area"),
        (
            key("kind", "kind of guard"),
            word("area", "body area it covers", terms.Area, "body area, body part", required=True),
            word("function", "what it is usually for", terms.Function),
        ),
        ("guard kinds",),
    ),
    StoredTable(
        "departments", "one department", ("department",),
        (
            key("department", "key of the department",
                headings="code, client code, department code"),
            text("name", "its name", "department name, client name", required=True),
            word("plan", "how it gets its prints", terms.Plan,
                 "print plan, printing plan, how they print", required=True),
            integer("prints_per_week", "prints of its weekly allotment",
                    "prints a week, prints week, weekly prints, allotment"),
            text("time_zone", "time zone, such as America/Chicago", "timezone, zone, tz",
                 required=True, holds=CellType.TIME_ZONE, cover=Cover.SHOWN),
            day("since", "first day as a client", "client since, start date"),
        ),
        ("clients", "department list"),
    ),
    StoredTable(
        "teams", "one team", ("team",),
        (
            key("team", "key of the team", headings="code, team code"),
            key("department", "its department", "departments.department"),
            text("sport", "its sport", required=True, cover=Cover.SHOWN),
            word("sex", "who plays in it", terms.Sex, "gender, men women", required=True),
        ),
        ("team list", "squads"),
    ),
    StoredTable(
        "roster", "one athlete of a team in a season", ("athlete", "team", "season"),
        (
            key("athlete", "key of the athlete", numbered_in="athletes", cover=_CODED),
            _TEAM,
            _SEASON,
            text("name", "the athlete's name", "athlete name, player, player name, full name",
                 required=True),
            text("jersey", "number on the jersey",
                 "jersey no, jersey number, shirt number, number, no", cover=Cover.LEFT_OUT),
            text("position", "position", "pos", cover=Cover.SEARCHED),
            text("position_group", "group of positions", "position unit, unit, pos group",
                 cover=Cover.SHOWN),
            day("joined_on", "first day with the team",
                "joined, date joined, start date, join date"),
            day("left_on", "last day with the team", "left, date left, end date, leave date"),
        ),
        ("rosters", "athletes", "athlete list", "players", "player list", "squad", "squad list"),
    ),
    StoredTable(
        "sessions", "one game or practice of a team", ("session",),
        (
            key("session", "key of the session", required=True, cover=Cover.SEARCHED),
            _TEAM,
            _SEASON,
            instant("starts_at", "when it starts",
                    "start, starts, date, date time, start time, date and time, kickoff"),
            word("setting", "game or practice", terms.Setting,
                 "kind, type, session type, event type, game or practice",
                 required=True, label="game or practice"),
            word("season_part", "part of the season", terms.SeasonPart,
                 "part of season, phase, season phase"),
            text("label", "what it is called", "opponent, title, description, event",
                 cover=Cover.LEFT_OUT),
        ),
        ("schedule", "fixtures", "calendar", "games", "practices", "events"),
        number="session_no", derived=("played_on",), key_made_of=("team", "starts_at", "setting"),
    ),
    StoredTable(
        "attendance", "one athlete in one session", ("session", "athlete"),
        (
            _SESSION,
            _ATHLETE,
            word("part", "how the athlete took part", terms.Part,
                 "status, participation, attendance, took part, availability", required=True),
            word("reason", "why limited or out", terms.OutReason,
                 "reason out, why, absence reason"),
            number("minutes", "minutes played", "minutes", (0.01, 300),
                   "min, mins, minutes played, duration, time played"),
            integer("plays", "plays taken part in", "play count, snaps, number of plays"),
        ),
        ("participation", "availability", "exposures", "attendance log"),
    ),
    StoredTable(
        "guards", "one guard, or order of one", ("guard",),
        (
            key("guard", "key of the guard", cover=_CODED),
            _ATHLETE,
            _KIND,
            word("side", "side of the body", terms.Side, required=True),
            word("purpose", "why it was made", terms.Purpose, "use, reason for guard",
                 required=True),
            word("function", "what it is for", terms.Function),
            word("scan_method", "how the body was scanned", terms.ScanMethod,
                 "scan, scanned with, scan type"),
            text("material", "material it is printed of"),
            number("shell_mm", "thickness of the shell", "mm", (0.5, 15),
                   "shell, shell thickness, thickness, thickness mm, wall thickness"),
            number("liner_mm", "thickness of the liner", "mm", (0.3, 20),
                   "liner, liner thickness, lining, lining mm"),
            number("contact_pct", "share of its area that touches the body", "pct", (1.5, 100),
                   "contact, contact area, contact percent, fit contact", high=100),
            number("mass_g", "mass", "g", (2, 3000), "mass, weight, weight g"),
            text("printer", "printer it was made on", cover=Cover.SEARCHED),
            number("print_hours", "hours of printing", "hours", (0.05, 120),
                   "print time, hours printed, print duration"),
            key("remake_of", "guard it is made in place of", "guards.guard", required=False,
                headings="remake for, replaces, replaces guard, original order",
                cover=_CODED, label="in place of"),
            word("remake_reason", "why it was made again", terms.RemakeReason,
                 "reason for remake, why remade", label="because"),
        ),
        ("devices", "device list", "guard list", "orders", "order list"),
        number="guard_no", first_key="G00001",
    ),
    StoredTable(
        "stages", "one stage that a guard reached", ("guard", "stage", "reached_at"),
        (
            _GUARD,
            word("stage", "the stage", terms.Stage, "status, step, milestone", required=True),
            instant("reached_at", "when it was reached",
                    "date, date time, when, at, timestamp, reached"),
            text("note", "note", holds=CellType.LINES, cover=Cover.LEFT_OUT),
        ),
        ("order stages", "order history", "tracking", "milestones"),
    ),
    StoredTable(
        "wear", "one guard worn in one session", ("session", "guard"),
        (
            _SESSION,
            _GUARD,
            word("kept_on", "whether it stayed on for all of it", terms.KeptOn,
                 "worn for, kept on for, how long"),
        ),
        ("wear log", "worn", "guard use", "device use"),
    ),
    StoredTable(
        "injuries", "one injury", ("injury",),
        (
            key("injury", "key of the injury", cover=_CODED,
                headings="injury id, injury no, record id, case id"),
            _ATHLETE,
            day("occurred_on", "day of onset",
                "date, injury date, date of injury, occurred, onset date",
                required=True, label="day"),
            key("session", "session it occurred in", "sessions.session", required=False,
                numbered_in="sessions", cover=Cover.SEARCHED),
            word("area", "body area", terms.Area,
                 "body part, body area, part, injury part, body region, region, location",
                 required=True, label="body area"),
            word("side", "side of the body", terms.Side, "injury side", required=True),
            word("tissue", "tissue", terms.Tissue, "tissue type"),
            word("pathology", "pathology", terms.Pathology,
                 "diagnosis, injury type, type of injury"),
            word("onset", "mode of onset", terms.Onset, "mode of onset"),
            word("mechanism", "contact", terms.Mechanism, "contact, cause", label="contact"),
            word("history", "how it stands to an earlier injury", terms.History,
                 "recurrence, new or recurrent"),
            day("reported_on", "day it was reported", "reported, date reported, report date"),
            day("returned_on", "day the athlete was back",
                "returned, return, return date, date returned, date of return"),
            text("note", "note", holds=CellType.LINES, cover=Cover.LEFT_OUT),
        ),
        ("injury", "injury log", "injury list", "injury report", "injury records"),
        key_made_of=("athlete", "occurred_on", "area", "side"),
    ),
    StoredTable(
        "offers", "one offer of a guard to an athlete", ("offer",),
        (
            key("offer", "key of the offer", headings="offer id, offer no", cover=_CODED),
            _ATHLETE,
            _KIND,
            day("offered_on", "day of the offer", "date, offered, date offered", required=True),
            word("answer", "what the athlete said", terms.OfferAnswer, "response, reply, said",
                 required=True),
            text("reason", "why, in the athlete's words", "why"),
        ),
        ("guard offers", "offered"),
        key_made_of=("athlete", "kind", "offered_on"),
    ),
    StoredTable(
        "decisions", "one decision of a meeting", ("decision",),
        (
            key("decision", "key of the decision", cover=_CODED,
                headings="decision id, decision no"),
            day("decided_on", "day of the meeting", "date, decided", required=True),
            key("department", "department it concerns; empty: all", "departments.department",
                required=False),
            text("text", "what was decided", "decided what, action, what",
                 required=True, holds=CellType.LINES, label="decision"),
            day("due_on", "day it is due", "due, due date, deadline"),
            day("done_on", "day it was done", "done, completed, date done"),
        ),
        ("decision log", "minutes of meetings", "actions"),
        first_key="D01",
    ),
)  # fmt: skip

TABLES: Mapping[str, StoredTable] = {table.name: table for table in _ALL}
"""Every table by name; a table stands after those it refers to."""
