"""Losses are counted by cause, stage and variety, wherever the seedling had moved to."""

from __future__ import annotations

from collections import Counter
from datetime import date

import pytest

from greenroom.ledger.facts import LeafStage, Variety
from greenroom.season.deeds_spots import mark_lost, mark_up, move, sow
from greenroom.season.losses import every_holder, losses_of, losses_why
from greenroom.season.proposal import Proposal
from tests.season.told import SOWN_ON, Told, spot

UP_ON = date(2027, 3, 22)
LATER = date(2027, 4, 10)
LAST = date(2027, 12, 31)


@pytest.fixture
def told() -> Told:
    """Six cells of Cinder and four of Brass, all up but two; pots beside."""
    made = Told()
    cinder, brass = made.packet("Cinder", seeds=50), made.packet("Brass", seeds=50)
    made.holder("Tray A", rows=2, columns=5)
    made.holder("Rack 1", form="rack", rows=1, columns=2)
    made.holder("Bed 1", form="bed", rows=1, columns=2)
    cells = [spot("Tray A", f"{row}{column}") for row in "AB" for column in range(1, 6)]
    made.do(sow(made.season, cinder, cells[:6], SOWN_ON))
    made.do(sow(made.season, brass, cells[6:], SOWN_ON))
    made.do(mark_up(made.season, cells[2:], UP_ON))
    return made


def lost(told: Told, first=SOWN_ON, last=LAST):
    return losses_of(told.season, every_holder(told.season), first, last)


def parts(found):
    return {part.name: part.count for part in found}


def stages(found):
    told = Counter()
    for part in found.by_cause:
        told.update(dict(part.stages))
    return told


def test_nothing_lost_is_told_as_such(told) -> None:
    found = lost(told)
    assert (found.total, found.by_cause, found.words) == (0, (), "Nothing lost.")


def test_losses_are_split_by_cause_stage_and_variety(told) -> None:
    """Counted by hand: two not up, three damped off, one eaten after its true leaves."""
    season = told.season
    told.do(mark_lost(season, [spot("Tray A", "A1"), spot("Tray A", "A2")], LATER, "did not come up"))
    told.do(mark_lost(season, [spot("Tray A", one) for one in ("A3", "A4", "B5")], LATER, "damping-off"))
    told.do(Proposal("leaves", (LeafStage(day=LATER, holder="Tray A", row=1, column=3, leaves=4),)))
    told.do(mark_lost(season, [spot("Tray A", "B4")], LATER, "eaten"))
    found = lost(told)
    assert parts(found.by_cause) == {"damping-off": 3, "did not come up": 2, "eaten": 1}
    assert stages(found) == {"before coming up": 2, "seed leaves": 3, "true leaves": 1}
    assert parts(found.by_variety) == {"Cinder": 4, "Brass": 2}
    assert found.words == "6 lost, 50% of them: damping-off."
    assert dict(losses_why(found).inputs)["eaten"] == "1 of 6, 17%"


def test_shares_add_up_to_one_by_whatever_they_are_split(told) -> None:
    told.do(mark_lost(told.season, [spot("Tray A", one) for one in ("A1", "A3", "B4")], LATER, ""))
    found = lost(told)
    for split in (found.by_cause, found.by_variety):
        assert sum(part.share for part in split) == pytest.approx(1)
        assert sum(part.count for part in split) == found.total == 3
        assert sum(count for part in split for _, count in part.stages) == 3
    assert found.by_cause[0].name == "no cause given"


def test_thinned_seedlings_are_no_losses(told) -> None:
    told.do(mark_lost(told.season, [spot("Tray A", "A3")], LATER, "thinned"))
    assert (lost(told).total, lost(told).thinned) == (0, 1)
    assert lost(told).words == "Nothing lost; 1 thinned out besides."


def test_a_plant_lost_in_the_bed_is_of_the_packet_it_was_sown_from(told) -> None:
    season = told.season
    told.do(move(season, [spot("Tray A", "B5")], spot("Rack 1", "A1"), LATER))
    told.do(move(season, [spot("Rack 1", "A1")], spot("Bed 1", "A1"), LATER))
    told.do(mark_lost(season, [spot("Bed 1", "A1")], LATER, "eaten"))
    assert parts(lost(told).by_variety) == {"Brass": 1}
    assert stages(lost(told)) == {"set out": 1}


def test_a_loss_taken_back_is_counted_no_more(told) -> None:
    change = mark_lost(told.season, [spot("Tray A", "A3")], LATER, "cold")
    told.do(change)
    assert lost(told).total == 1
    told.do(Proposal("undone", (), tuple(fact.id for fact in change.record)))
    assert lost(told).total == 0


def test_only_the_days_asked_for_count(told) -> None:
    told.do(mark_lost(told.season, [spot("Tray A", "A3")], LATER, "cold"))
    assert lost(told, first=date(2027, 4, 11)).total == 0
    assert lost(told, last=LATER).total == 1


def test_a_variety_called_otherwise_since_is_told_by_its_new_name(told) -> None:
    told.do(mark_lost(told.season, [spot("Tray A", "A3")], LATER, "cold"))
    assert parts(lost(told).by_variety) == {"Cinder": 1}
    told.do(Proposal("named", (Variety(day=LATER, variety="v-Cinder", name="Cinder Lantern"),)))
    assert parts(lost(told).by_variety) == {"Cinder Lantern": 1}
