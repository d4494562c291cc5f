"""The stages of one variety of the plan: sown, up, potted up, hardened, set out, ripe."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from greenroom.guide import Guide
from greenroom.season.frost_plan import FrostPlan
from greenroom.season.plan import PlanRow
from greenroom.season.plan_chart import Sowing
from greenroom.season.plan_needs import Needs
from greenroom.season.pot_up import pot_up_day
from greenroom.season.replay import Spread


@dataclass(frozen=True, slots=True)
class Stages:
    """The season of one variety; what is not known is None."""

    on: date
    up: date
    pot_up: date | None
    hardens: date | None
    set_out: date | None
    ripe: date | None
    out_spread: Spread | None = None
    ripe_spread: Spread | None = None


def stages(guide: Guide, row: PlanRow) -> Stages:
    """Return the stages of a variety sown on the day the plan has for it."""
    return stages_from(guide, row.needs, row.on, row.sowing, row.frosts)


def stages_from(
    guide: Guide, needs: Needs, on: date, sowing: Sowing | None, frosts: FrostPlan | None
) -> Stages:
    """Return the stages of a variety sown on a day, by what comes of that day."""
    known = sowing or frosts
    if known is None:
        return Stages(on, on + timedelta(days=round(needs.days_up)), None, None, None, None)
    out = sowing.set_out_on if sowing is not None else known.ready if frosts is None else frosts.set_out
    hardens = max(known.up, out - timedelta(days=needs.hardening_days))
    pot = pot_up_day(guide, needs.crop, known.up, hardens)
    if sowing is None:
        ripe = frosts.ripe if frosts is not None else None
        return Stages(on, known.up, pot, hardens, out, ripe)
    ripe = max(sowing.ripe.usual, out) if sowing.ripe is not None else None
    return Stages(on, known.up, pot, hardens, out, ripe, sowing.set_out, sowing.ripe)
