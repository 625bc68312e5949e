"""Every table a season is made of: its columns, what they hold, its key, what it refers to.

Loading, reading, export, bundles, forms, the curtain and the table of columns in help follow from
this description; the schema in queries/schema is tested against it.
"""

from collections.abc import Mapping

from seasonboard import terms
from seasonboard.stored_column import CellType as Cell
from seasonboard.stored_column import Cover, StoredTable
from seasonboard.stored_column import StoredColumn as Column

FIRST_YEAR, LAST_YEAR = 1990, 2100
"""Dates and instants outside these years are slips of the pen."""

_MOST = 2**31 - 1
_ATHLETE = Column("athlete", Cell.KEY, "athlete", required=True, refers=("roster", "athlete"),
    numbered_in="athletes", cover=Cover.CODED)  # fmt: skip
_SESSION = Column("session", Cell.KEY, "session", required=True, refers=("sessions", "session"),
    numbered_in="sessions", cover=Cover.SEARCHED)  # fmt: skip
_GUARD = Column("guard", Cell.KEY, "guard", required=True, refers=("guards", "guard"),
    numbered_in="guards", cover=Cover.CODED)  # fmt: skip
_KIND = Column("kind", Cell.KEY, "kind of guard", required=True, refers=("kinds", "kind"),
    cover=Cover.SHOWN, label="guard kind")  # fmt: skip
_TEAM = Column("team", Cell.KEY, "team", required=True, refers=("teams", "team"),
    cover=Cover.SHOWN)  # fmt: skip
_SEASON = Column("season", Cell.KEY, "season, such as “2026 fall”", required=True,
    cover=Cover.SHOWN)  # fmt: skip

_ALL = (
    StoredTable(
        "kinds", "one body area that a kind of guard covers", ("kind", "area"),
        (
            Column("kind", Cell.KEY, "kind of guard", required=True, cover=Cover.SHOWN),
            Column("area", Cell.WORD, "body area it covers", required=True, words=tuple(terms.Area),
                headings="body area, body part"),
            Column("function", Cell.WORD, "what it is usually for", words=tuple(terms.Function)),
        ),
        other_names="guard kinds",
    ),
    StoredTable(
        "departments", "one department", ("department",),
        (
            Column("department", Cell.KEY, "key of the department", required=True,
                cover=Cover.SHOWN, headings="code, client code, department code"),
            Column("name", Cell.TEXT, "its name", required=True,
                headings="department name, client name"),
            Column("plan", Cell.WORD, "how it gets its prints", words=terms.PLANS,
                headings="print plan, printing plan, how they print"),
            Column("prints_per_week", Cell.INTEGER, "prints of its weekly allotment", high=_MOST,
                headings="prints a week, prints week, weekly prints, allotment"),
            Column("time_zone", Cell.TIME_ZONE, "time zone, such as America/Chicago", required=True,
                headings="timezone, zone, tz"),
            Column("since", Cell.DATE, "first day as a client",
                headings="client since, start date"),
        ),
        other_names="clients, department list",
    ),
    StoredTable(
        "teams", "one team", ("team",),
        (
            Column("team", Cell.KEY, "key of the team", required=True, cover=Cover.SHOWN,
                headings="code, team code"),
            Column("department", Cell.KEY, "its department", required=True,
                refers=("departments", "department"), cover=Cover.SHOWN),
            Column("sport", Cell.TEXT, "its sport", required=True, cover=Cover.SHOWN),
            Column("sex", Cell.WORD, "who plays in it", required=True, words=tuple(terms.Sex),
                headings="gender, men women"),
        ),
        other_names="team list, squads",
    ),
    StoredTable(
        "roster", "one athlete of a team in a season", ("athlete", "team", "season"),
        (
            Column("athlete", Cell.KEY, "key of the athlete", required=True, numbered_in="athletes",
                cover=Cover.CODED),
            _TEAM,
            _SEASON,
            Column("name", Cell.TEXT, "the athlete's name", required=True,
                headings="athlete name, player, player name, full name"),
            Column("jersey", Cell.TEXT, "number on the jersey", cover=Cover.LEFT_OUT,
                headings="jersey no, jersey number, shirt number, number, no, #"),
            Column("position", Cell.TEXT, "position", cover=Cover.SEARCHED, headings="pos"),
            Column("position_group", Cell.TEXT, "group of positions", cover=Cover.SHOWN,
                headings="position unit, unit, pos group"),
            Column("joined_on", Cell.DATE, "first day with the team",
                headings="joined, date joined, start date, join date"),
            Column("left_on", Cell.DATE, "last day with the team",
                headings="left, date left, end date, leave date"),
        ),
        other_names="rosters, athletes, athlete list, players, player list, squad, squad list",
    ),
    StoredTable(
        "sessions", "one game or practice of a team", ("session",),
        (
            Column("session", Cell.KEY, "key of the session", required=True, cover=Cover.SEARCHED),
            _TEAM,
            _SEASON,
            Column("starts_at", Cell.INSTANT, "when it starts", required=True,
                headings="start, starts, date, date time, start time, date and time, kickoff"),
            Column("setting", Cell.WORD, "game or practice", required=True,
                words=tuple(terms.Setting), label="game or practice",
                headings="kind, type, session type, event type, game or practice"),
            Column("season_part", Cell.WORD, "part of the season", words=tuple(terms.SeasonPart),
                headings="part of season, phase, season phase"),
            Column("label", Cell.TEXT, "what it is called", cover=Cover.LEFT_OUT,
                headings="opponent, opp, vs, title, description, event"),
        ),
        other_names="schedule, fixtures, calendar, games, practices, events",
        number="session_no", derived=("played_on",), key_made_of=("team", "starts_at", "setting"),
    ),
    StoredTable(
        "attendance", "one athlete in one session", ("session", "athlete"),
        (
            _SESSION,
            _ATHLETE,
            Column("part", Cell.WORD, "how the athlete took part", required=True,
                words=tuple(terms.Part),
                headings="status, participation, attendance, took part, availability"),
            Column("reason", Cell.WORD, "why limited or out", words=tuple(terms.OutReason),
                headings="reason out, why, absence reason"),
            Column("minutes", Cell.NUMBER, "minutes played", unit="minutes", plausible=(0.01, 300),
                headings="min, mins, minutes played, duration, time played"),
            Column("plays", Cell.INTEGER, "plays taken part in", high=_MOST,
                headings="play count, snaps, number of plays"),
        ),
        other_names="participation, availability, exposures, attendance log",
    ),
    StoredTable(
        "guards", "one guard, or order of one", ("guard",),
        (
            Column("guard", Cell.KEY, "key of the guard", required=True, cover=Cover.CODED),
            _ATHLETE,
            _KIND,
            Column("side", Cell.WORD, "side of the body", required=True, words=tuple(terms.Side)),
            Column("purpose", Cell.WORD, "why it was made", required=True,
                words=tuple(terms.Purpose), headings="use, reason for guard"),
            Column("function", Cell.WORD, "what it is for", words=tuple(terms.Function)),
            Column("scan_method", Cell.WORD, "how the body was scanned", words=terms.SCAN_METHODS,
                headings="scan, scanned with, scan type"),
            Column("material", Cell.TEXT, "material it is printed of"),
            Column("shell_mm", Cell.NUMBER, "thickness of the shell", unit="mm",
                plausible=(0.5, 15),
                headings="shell, shell thickness, thickness, thickness mm, wall thickness"),
            Column("liner_mm", Cell.NUMBER, "thickness of the liner", unit="mm",
                plausible=(0.3, 20), headings="liner, liner thickness, lining, lining mm"),
            Column("contact_pct", Cell.NUMBER, "share of its area that touches the body",
                unit="pct", high=100, plausible=(1.5, 100),
                headings="contact, contact area, contact percent, fit contact"),
            Column("mass_g", Cell.NUMBER, "mass", unit="g", plausible=(2, 3000),
                headings="mass, weight, weight g"),
            Column("printer", Cell.TEXT, "printer it was made on", cover=Cover.SEARCHED),
            Column("print_hours", Cell.NUMBER, "hours of printing", unit="hours",
                plausible=(0.05, 120),
                headings="print time, hours printed, print duration, hrs, hours, print hrs"),
            Column("remake_of", Cell.KEY, "guard it is made in place of",
                refers=("guards", "guard"), cover=Cover.CODED, label="in place of",
                headings="remake for, replaces, replaces guard, original order"),
            Column("remake_reason", Cell.WORD, "why it was made again", words=terms.REMAKE_REASONS,
                label="because", headings="reason for remake, why remade"),
        ),
        other_names="devices, device list, guard list, orders, order list",
        number="guard_no", first_key="G00001",
    ),
    StoredTable(
        "stages", "one stage that a guard reached", ("guard", "stage", "reached_at"),
        (
            _GUARD,
            Column("stage", Cell.WORD, "the stage", required=True, words=tuple(terms.Stage),
                headings="status, step, milestone"),
            Column("reached_at", Cell.INSTANT, "when it was reached", required=True,
                headings="date, date time, when, at, timestamp, reached"),
            Column("note", Cell.LINES, "note", cover=Cover.LEFT_OUT),
        ),
        other_names="order stages, order history, tracking, milestones",
    ),
    StoredTable(
        "wear", "one guard in one session, worn or not", ("session", "guard"),
        (
            _SESSION,
            _GUARD,
            Column("kept_on", Cell.WORD, "whether it stayed on for all of it", words=terms.KEPT_ON,
                headings="worn for, kept on for, how long"),
            Column("worn", Cell.WORD, "whether it was worn; empty: it was", words=terms.YES_NO,
                headings="was worn, wore it, guard on"),
        ),
        other_names="wear log, worn, guard use, device use",
    ),
    StoredTable(
        "injuries", "one injury", ("injury",),
        (
            Column("injury", Cell.KEY, "key of the injury", required=True, cover=Cover.CODED,
                headings="injury id, injury no, record id, case id"),
            _ATHLETE,
            Column("occurred_on", Cell.DATE, "day of onset", required=True, label="day",
                headings="date, injury date, date of injury, occurred, onset date"),
            Column("session", Cell.KEY, "session it occurred in", refers=("sessions", "session"),
                numbered_in="sessions", cover=Cover.SEARCHED),
            Column("area", Cell.WORD, "body area", required=True, words=tuple(terms.Area),
                label="body area",
                headings="body part, body area, part, injury part, body region, region, location"),
            Column("side", Cell.WORD, "side of the body; empty: not known",
                words=tuple(terms.Side), headings="injury side, which side"),
            Column("tissue", Cell.WORD, "tissue", words=terms.TISSUES, headings="tissue type"),
            Column("pathology", Cell.WORD, "pathology", words=terms.PATHOLOGIES,
                headings="diagnosis, injury type, type of injury"),
            Column("onset", Cell.WORD, "mode of onset", words=terms.ONSETS,
                headings="mode of onset"),
            Column("mechanism", Cell.WORD, "contact", words=terms.MECHANISMS, label="contact",
                headings="contact, cause, how did it happen, how it happened, mechanism of injury"),
            Column("history", Cell.WORD, "how it stands to an earlier injury",
                words=terms.HISTORIES, headings="recurrence, new or recurrent"),
            Column("reported_on", Cell.DATE, "day it was reported",
                headings="reported, date reported, report date, timestamp, submitted"),
            Column("returned_on", Cell.DATE, "day the athlete was back",
                headings="returned, return, return date, date returned, date of return, rtp, "
                "rtp date, return to play, returned to play, cleared, cleared on, date cleared, "
                "back on, back, full return, back to full"),
            Column("note", Cell.LINES, "note", cover=Cover.LEFT_OUT),
        ),
        other_names="injury, injury log, injury list, injury report, injury records",
        key_made_of=("athlete", "occurred_on", "area", "side"),
    ),
    StoredTable(
        "offers", "one offer of a guard to an athlete", ("offer",),
        (
            Column("offer", Cell.KEY, "key of the offer", required=True, cover=Cover.CODED,
                headings="offer id, offer no"),
            _ATHLETE,
            _KIND,
            Column("offered_on", Cell.DATE, "day of the offer", required=True,
                headings="date, offered, date offered"),
            Column("answer", Cell.WORD, "what the athlete said", required=True,
                words=tuple(terms.OfferAnswer), headings="response, reply, said"),
            Column("reason", Cell.TEXT, "why, in the athlete's words", headings="why"),
        ),
        other_names="guard offers, offered",
        key_made_of=("athlete", "kind", "offered_on"),
    ),
    StoredTable(
        "decisions", "one decision of a meeting", ("decision",),
        (
            Column("decision", Cell.KEY, "key of the decision", required=True, cover=Cover.CODED,
                headings="decision id, decision no"),
            Column("decided_on", Cell.DATE, "day of the meeting", required=True,
                headings="date, decided"),
            Column("department", Cell.KEY, "department it concerns; empty: all",
                refers=("departments", "department"), cover=Cover.SHOWN),
            Column("text", Cell.LINES, "what was decided", required=True, label="decision",
                headings="decided what, action, what"),
            Column("due_on", Cell.DATE, "day it is due", headings="due, due date, deadline"),
            Column("done_on", Cell.DATE, "day it was done", headings="done, completed, date done"),
        ),
        other_names="decision log, minutes of meetings, actions",
        first_key="D01",
    ),
)  # fmt: skip

TABLES: Mapping[str, StoredTable] = {table.name: table for table in _ALL}
"""Every table by name; a table stands after those it refers to."""
