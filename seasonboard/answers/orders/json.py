"""The Orders answer as JSON for scripts."""

from seasonboard.answers.json_parts import Json, summary_json, without_empty_why
from seasonboard.answers.orders.comparable import LateAfter
from seasonboard.answers.orders.parts import NextGame, OpenOrder, OrdersAnswer


def orders_json(answer: OrdersAnswer) -> Json:
    """Return the Orders answer as one JSON object."""
    return {
        **summary_json(answer.summary, "orders"),
        "as_of": answer.as_of.isoformat(),
        "known": answer.known,
        "open": len(answer.orders),
        "fitted": answer.fitted,
        "cancelled": answer.cancelled,
        "retired": answer.retired,
        "late": len(answer.late),
        "late_after": [_late_after(rule) for rule in answer.late_after],
        "orders": [_order(order) for order in answer.orders],
    }


def chance_json(order: OpenOrder) -> Json:
    """Return the chance of an open order by its next game, and what it rests on."""
    chance = order.chance
    return without_empty_why(
        {
            "chance_by_next_game": chance.share if chance else None,
            "chance_low": chance.low if chance else None,
            "chance_high": chance.high if chance else None,
            "chance_is_least": bool(chance and chance.is_least),
            "like_orders": chance.orders if chance else 0,
            "likeness": order.likeness,
            "why": order.why or (chance.why if chance else ""),
        }
    )


def next_game_json(game: NextGame | None) -> Json | None:
    """Return the next game of an order's team, or null where none is recorded ahead."""
    if game is None:
        return None
    return {
        "session": game.session,
        "starts_at": game.starts_at.isoformat(),
        "on": game.on.isoformat(),
        "label": game.label,
        "days_ahead": game.days_ahead,
    }


def _late_after(rule: LateAfter) -> Json:
    return without_empty_why(
        {
            "department": rule.department,
            "days": rule.days,
            "orders": rule.orders,
            "likeness": rule.likeness,
            "why": rule.why,
        }
    )


def _order(order: OpenOrder) -> Json:
    return {
        "guard": order.guard,
        "athlete": order.athlete,
        "name": order.name,
        "team": order.team,
        "department": order.department,
        "plan": order.plan,
        "kind": order.kind,
        "side": order.side,
        "purpose": order.purpose,
        "scan_method": order.scan_method,
        "remake_of": order.remake_of,
        "stages": [
            {"stage": step.stage, "reached_at": step.reached_at.isoformat()}
            for step in order.stages
        ],
        "stage": order.stage,
        "stage_days": order.stage_days,
        "age": order.age_days,
        "age_hours": order.age_hours,
        "late": order.is_late,
        "late_after_days": order.late_after.days,
        "attention": str(order.attention),
        "next_game": next_game_json(order.next_game),
        **chance_json(order),
        "exposures": order.exposures,
        "exposures_bare": order.bare,
        "exposures_worn": order.worn,
    }
