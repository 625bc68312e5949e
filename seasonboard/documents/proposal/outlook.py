"""The second page of an offer: what may be expected, team by team, and what is not known yet."""

from collections.abc import Iterator

from seasonboard.answers import words
from seasonboard.answers.fields import Kind
from seasonboard.answers.pitch.figures import SEASON, known_figures
from seasonboard.answers.pitch.parts import PitchAnswer, TeamAhead
from seasonboard.answers.pitch.tables import TEAMS
from seasonboard.answers.pitch.words import count, counted, range_80, range_95
from seasonboard.documents.described import as_rounded, document_table
from seasonboard.documents.model import (
    Cell,
    Column,
    Paragraph,
    Part,
    Picture,
    Points,
    Room,
    Section,
    Table,
)
from seasonboard.documents.proposal.offered import Offered, released_sentences
from seasonboard.documents.svg.drawing import PictureWords
from seasonboard.documents.svg.ranges import RangeRow, season_ranges
from seasonboard.releases.claims import CLAIM

_MOST_TEAMS = 9
_WITHOUT = ("injuries", "games_missed")
RANGES = ("words", "median", "low_80", "high_80", "low_95", "high_95")
_CAUTIONS = (
    "A guard does not prevent every injury.",
    "Whether an athlete plays or returns is for your licensed staff to decide.",
    "Whether a guard may be worn in a game is for the sport's rules, the officials and your "
    "institution to say.",
    "These are figures of other departments; yours may differ.",
)


def carries_a_number(pitch: PitchAnswer) -> bool:
    """Say whether the evidence carries a number of games kept: its interval lies below 1."""
    kept = None if pitch.ahead is None else pitch.ahead.games_kept
    return kept is not None and pitch.effect.high is not None and pitch.effect.high < 1


def outlook_sections(offered: Offered) -> tuple[Section, ...]:
    """Return the sections of the second page, in their order."""
    whose = offered.options.to or "the department"
    return (
        Section("What to expect in your season", _expected(offered.pitch), starts_page=True),
        Section("What is known, and what is not yet", _known_so_far(offered)),
        Section("Before you decide", (Points(_CAUTIONS),)),
        Section("To accept", (Room(f"For {whose}: the plan chosen, name, day, signature", 1),)),
    )


def _expected(pitch: PitchAnswer) -> tuple[Part, ...]:
    ahead, sites = pitch.ahead, words.sites_word(pitch.sites)
    if ahead is None:
        text = f"How often {sites} are hurt in teams like yours is not known yet."
        return (Paragraph(text), _teams(pitch)) if pitch.planned else (Paragraph(text),)
    hurt = counted(ahead.injuries.mean, "injury", "injuries")
    text = (
        f"Without guards, {hurt} to {sites} on average; in four of five seasons "
        f"{range_80(ahead.injuries)}."
    )
    if ahead.games_missed is not None:
        missed = counted(ahead.games_missed.mean, "game missed", "games missed")
        text += f" They cost {missed}; in four of five seasons {range_80(ahead.games_missed)}."
    if carries_a_number(pitch) and ahead.games_kept is not None:
        games = counted(ahead.games_kept.mean, "game", "games")
        text += (
            f" With guards {games} would be kept on average; in four of five seasons "
            f"{range_80(ahead.games_kept)}."
        )
    return (Paragraph(text), _season(pitch), _teams(pitch))


def _season(pitch: PitchAnswer) -> Picture:
    """Return the season without guards; with them only where the evidence carries a number."""
    names = (*_WITHOUT, "games_kept") if carries_a_number(pitch) else _WITHOUT
    figures = [one for one in known_figures(pitch, "season") if one.name in names]
    seasons = words.whole(pitch.options.seasons)
    table = document_table(
        *(SEASON, pitch, "one season", "The same as a table."),
        only=RANGES,
        rows=figures,
        cell=as_rounded,
        lead=f"{seasons} seasons were drawn; the ranges hold chance and how sure each number is.",
    )
    title = "One season: the median, and where 80 and 95 of 100 seasons lie"
    about = "A dot and two bars for each: " + "; ".join(
        f"{one.words}, median {count(one.spread.median)}, 80 in 100 {range_80(one.spread)}"
        for one in figures
    )
    rows = [  # whole figures, as they are read, in the drawing too
        RangeRow(
            one.words.removesuffix(" without guards").removesuffix(" in the season without"),
            f"{count(one.spread.median)} ({range_95(one.spread)})",
            *(round(getattr(one.spread, end)) for end in RANGES[1:]),
        )
        for one in figures
    ]
    labels = PictureWords("season", title, about)
    return Picture(title, about, season_ranges(labels, rows), table)


def _teams(pitch: PitchAnswer) -> Table:
    rows = [_row(pitch, [team]) for team in pitch.planned[:_MOST_TEAMS]]
    more = pitch.planned[_MOST_TEAMS:]
    if more:
        rows.append(_row(pitch, more, words.plural(len(more), "other team")))
    if len(pitch.planned) > 1:
        rows.append(_row(pitch, pitch.planned, "all"))
    note = "" if pitch.is_given else "Athletes and games are usual for teams served. "
    if pitch.aside:
        names = ", ".join(team.name for team in pitch.aside)
        note += f"Left out here and in the fees, as too little is known: {names}. "
    return Table(
        "teams",
        f"{pitch.summary.scope.kinds[0].capitalize()} guards by team, and what happens without.",
        (
            *(Column("team"), Column("athletes", Kind.COUNT), Column("guards", Kind.WHOLE)),
            *(Column("injuries", Kind.TENTHS), Column("games missed", Kind.TENTHS)),
        ),
        tuple(rows),
        lead="Guards, injuries and games missed are means of one season.",
        note=note.strip(),
    )


def _row(
    pitch: PitchAnswer, teams: "tuple[TeamAhead, ...] | list[TeamAhead]", name: str = ""
) -> tuple[Cell, ...]:
    athletes = sum(team.athletes for team in teams)
    each = pitch.prints.first.mean / pitch.athletes if pitch.athletes else 0.0
    known = [(team.injuries, team.games_missed) for team in teams]
    hurt, missed = (
        None if None in column else round(sum(filter(None, column)), 1)
        for column in zip(*known, strict=True)
    )
    label = name or str(TEAMS.field("team").get(teams[0]))
    return (label, athletes, round(athletes * each), hurt, missed)


def _known_so_far(offered: Offered) -> tuple[Part, ...]:
    pitch = offered.pitch
    known = (*released_sentences(offered.block, CLAIM), pitch.contact)
    return (Points(known), Paragraph(" ".join(_together(pitch)), "Not known yet:"))


def _together(pitch: PitchAnswer) -> Iterator[str]:
    """Give what a season would tell both sides."""
    if not carries_a_number(pitch):
        yield (
            "The records so far do not show whether guards keep games, so this offer promises no "
            "number of them."
        )
    yield (
        "In one season with you, both of us learn how often your athletes are hurt at these sites, "
        "how soon guards come, and how often they are worn."
    )
    if pitch.ahead is not None and (seen := pitch.ahead.visible) is not None:
        yield (
            "One season of one department seldom settles it "
            f"({words.percent(seen.chance)} would show a difference); it adds to those of others."
        )
