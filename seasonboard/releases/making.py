"""A release to be made: what it would hold, kind by kind, and the rows that keep it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from seasonboard.answers import words
from seasonboard.answers.games.parts import MIN_AT_RISK, Clock, GamesAnswer, GamesOptions
from seasonboard.answers.pitch.answer import basis_of
from seasonboard.answers.questions import GAMES
from seasonboard.answers.source import AnswerSource
from seasonboard.disclosure.count_table import THRESHOLD
from seasonboard.disclosure.renewal import worked_out_beside
from seasonboard.entries import Entry
from seasonboard.releases.block import (
    AGREEMENT,
    FORM,
    SAME_SITES,
    Block,
    Figure,
    Release,
    ReleaseError,
)
from seasonboard.releases.claims import declare_claims
from seasonboard.releases.draft import Draft
from seasonboard.releases.injuries import (
    declare_days_lost,
    declare_injuries,
    declare_rates,
    sharing_sites,
)
from seasonboard.releases.reading import (
    ReleaseMemory,
    corrected,
    refuse_lost,
    stored_releases,
)
from seasonboard.releases.work import (
    declare_inputs,
    declare_making,
    declare_remakes,
    declare_take_up,
    declare_teams,
    declare_turnaround,
)
from seasonboard.scope import Scope


@dataclass(frozen=True, slots=True)
class ReleasePlan:
    """A release as it would be made; `renewed` are the kinds whose figures are new."""

    release: Release
    renewed: tuple[str, ...]

    def sentences(self) -> tuple[str, ...]:
        """Return what it is, and of each kind whether it is new, and why not."""
        release = self.release
        lines = [
            f"Release {release.key}, {release.made_on}: figures through {release.through} of "
            f"{words.plural(len(release.blocks), 'kind')} of guard."
        ]
        for block in release.blocks:
            state = "new" if block.kind in self.renewed else f"as of {block.made_on}"
            hidden = len(block.masked.hidden & block.masked.table.shown)
            shown = len(block.masked.table.shown) - hidden
            text = f"{block.kind}: {state}; {shown} counts shown, {hidden} hidden."
            lines.append(f"{text} {block.note}".strip())
        return tuple(lines)

    def entry(self) -> Entry:
        """Return the rows that keep the release, to be written all or none."""
        release = self.release
        key = release.key
        new = [block for block in release.blocks if block.kind in self.renewed]
        return Entry(
            f"release {key}",
            {
                "releases": [
                    {
                        "release": key,
                        "released_on": release.made_on.isoformat(),
                        "through": release.through.isoformat(),
                        "form": str(FORM),
                    }
                ],
                "release_blocks": [
                    {
                        "release": key,
                        "kind": block.kind,
                        "made_in": block.made_in,
                        "departments": str(block.departments),
                        "note": block.note or None,
                    }
                    for block in release.blocks
                ],
                "release_counts": [row for block in new for row in _count_rows(block)],
                "release_figures": [row for block in new for row in _figure_rows(block)],
            },
        )


def plan_release(
    source: AnswerSource,
    memory: ReleaseMemory,
    made_on: date,
    tell: Callable[[str], object] = lambda _: None,
) -> ReleasePlan:
    """Return the next release of a store: figures over all departments, on fixed cuts.

    A kind of guard is renewed as a whole, or quoted as it was: where together with what is out a
    count or its change could be worked out that is neither 0 nor the threshold or more.

    Raises:
        ReleaseError: Nothing is recorded, one was lost, or a newer program made one.
        StoreError: The store could not be read.
    """
    earlier = stored_releases(source)
    refuse_lost(earlier, memory)
    known = source.scope_values
    if known.last_day is None or not known.kinds_made:
        raise ReleaseError("There is nothing to release: no guard is recorded.", "Load a season.")
    key = source.lists.free_key("releases")
    agreed = frozenset(source.read_asked("releases/agreements")["department"].to_list())
    before = {block.kind: block for release in earlier for block in release.blocks}
    left_out = sharing_sites(_in_order(known.kinds_made, earlier), known.covers)
    blocks, renewed = [], []
    for kind in dict.fromkeys([*known.kinds_made, *before]):
        tell(f"{kind} …")
        scope = Scope(min(known.last_day, made_on), kinds=(kind,))
        if kind in known.kinds_made:
            new = drafted(source, scope, key, made_on, agreed, left_out.get(kind, ""))
            block = renewed_or_quoted(new, kind, earlier)
        else:
            block = before[kind]
        blocks.append(block)
        renewed += [kind] if block.made_in == key else []
    through = max(block.through for block in blocks)
    return ReleasePlan(Release(key, made_on, through, tuple(blocks)), tuple(renewed))


def make_release(source: AnswerSource, memory: ReleaseMemory, plan: ReleasePlan) -> None:
    """Keep a release in the store, all of it or nothing, and remember that it was made.

    Raises:
        IntakeError, StoreError: It could not be written; nothing was.
    """
    assert source.entry_writer is not None  # noqa: S101 - opened to be written to
    source.entry_writer.write(plan.entry())
    memory.add(plan.release.key)
    source.look_again()


def _in_order(kinds: Sequence[str], earlier: Sequence[Release]) -> list[str]:
    """Return the kinds, those first whose figures on health are out."""
    out = [
        block.kind
        for release in earlier
        for block in release.blocks
        if "bare exposures" in block.masked.table.cells
    ]
    return list(dict.fromkeys([*out, *kinds]))


def renewed_or_quoted(new: Block, kind: str, earlier: Sequence[Release]) -> Block:
    """Return the new block of a kind, or the last one that is out where it cannot be renewed."""
    versions: dict[str, Block] = {}
    for release in earlier:
        versions |= {block.made_in: block for block in release.blocks if block.kind == kind}
    if not versions:
        return new
    last = list(versions.values())[-1]
    is_same = (last.masked, last.figures) == (new.masked, new.figures)
    if is_same or worked_out_beside(new.masked, [one.masked for one in versions.values()]):
        note = last.note if is_same else f"Not renewed: a count changed by 1 to {THRESHOLD - 1}."
        return replace(last, note=note)
    return replace(new, corrected=corrected(new.masked, [last]))


def drafted(  # noqa: PLR0913, PLR0917 - what a block is made of
    source: AnswerSource,
    scope: Scope,
    key: str,
    made_on: date,
    agreed: frozenset[str],
    same_sites_as: str,
) -> Block:
    """Return the figures of the kind of guard in a scope, with what may not be told hidden."""
    draft = Draft(agreed)
    evidence = source.pitch_evidence(scope)
    declare_turnaround(draft, evidence.timed, evidence.frames["releases/plans"])
    declare_remakes(draft, evidence.remade)
    declare_take_up(draft, evidence.taken)
    basis = basis_of(evidence)
    declare_inputs(
        draft, basis.inputs, evidence.taken, evidence.remade, evidence.frames["pitch/prints"]
    )
    declare_making(draft, basis.making)
    declare_teams(draft, evidence.frames["pitch/served"], basis.parts)
    rows = source.read_asked("releases/injuries", scope)
    if not same_sites_as:
        declare_injuries(draft, rows, evidence.compared, _followed(source, scope))
        declare_days_lost(draft, basis.absence)
        frames = (evidence.frames[f"pitch/{name}"] for name in ("baseline", "absences"))
        declare_rates(draft, basis.rates, *frames)
    declare_claims(draft, evidence.claims)
    if draft.used:
        who = words.plural(len(draft.used), "department")
        text = f"Some figures are of few departments, with the written agreement of {who}."
        draft.figure(Figure(AGREEMENT, words=text))
    if same_sites_as:
        text = f"Injuries are told with {same_sites_as} guards, of the same body area."
        draft.figure(Figure(SAME_SITES, words=text))
    masked, figures = draft.masked()
    return Block(
        kind=scope.kinds[0],
        made_in=key,
        made_on=made_on,
        through=scope.through,
        departments=rows["department"].n_unique(),
        masked=masked,
        figures=figures,
        note=_note(draft),
    )


def _note(draft: Draft) -> str:
    """Return what the maker is to know; it names departments."""
    if not draft.asked:
        return ""
    return (
        "Some figures on health are left out: too few departments stand behind them. To tell them "
        f"takes the written agreement of {', '.join(sorted(draft.asked))}."
    )


def _followed(source: AnswerSource, scope: Scope) -> GamesAnswer | None:
    """Return the Games answer by the first clock on which both groups have enough injuries."""
    for clock in (Clock.GAMES, Clock.SESSIONS):
        options = GamesOptions(clock, min_at_risk=max(MIN_AT_RISK, THRESHOLD))
        answer = source.ask(GAMES, scope, options)
        if all(group.injuries >= THRESHOLD for group in (answer.guarded, answer.unguarded)):
            return answer
    return None


def _count_rows(block: Block) -> list[dict[str, str | None]]:
    table, hidden = block.masked.table, block.masked.hidden
    sums: dict[str, list[str]] = {}
    for total, parts in table.sums:
        sums.setdefault(total, []).append("; ".join(parts))
    rows = []
    for name, value in table.cells.items():
        told, low, high = "not told", None, None
        if name in table.shown:
            told = "hidden" if name in hidden else "shown"
        elif name in table.ranges and name not in hidden:
            told, (low, high) = "within", table.ranges[name]
        rows.append(
            {
                "release": block.made_in,
                "kind": block.kind,
                "count": name,
                "value": str(value),
                "told": told,
                "low": None if low is None else str(low),
                "high": None if high is None else str(high),
                "few_departments": "yes" if name in table.close else "no",
                "parts": "\n".join(sums.get(name, [])) or None,
            }
        )
    return rows


def _figure_rows(block: Block) -> list[dict[str, str | None]]:
    return [
        {
            "release": block.made_in,
            "kind": block.kind,
            "figure": figure.name,
            **{
                end: None if value is None else repr(float(value))
                for end, value in (
                    ("estimate", figure.value),
                    ("estimate_low", figure.low),
                    ("estimate_high", figure.high),
                )
            },
            "words": figure.words or None,
        }
        for figure in block.figures.values()
    ]
