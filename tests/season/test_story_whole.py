"""What the grower relies on: whatever was noted about a plant, its tray or its packet is in its story."""

from datetime import UTC, date, datetime, timedelta

import pytest

from greenroom.ledger.facts import (
    KINDS,
    BasinEmptied,
    BedLaid,
    CanopySeen,
    CellCover,
    CoolNight,
    CountingSet,
    Covered,
    Fed,
    Finding,
    Flowered,
    GerminationCount,
    GerminationTest,
    HardeningStarted,
    Held,
    HolderPlaced,
    HolderRetired,
    LampMeasured,
    LampsSet,
    LeafStage,
    LookedOver,
    Lost,
    MixFelt,
    Moved,
    Mulched,
    Note,
    OutingEnded,
    OutingStarted,
    OutingSwitched,
    Picked,
    PictureKept,
    Pruned,
    SeedSaved,
    SetbackSeen,
    SkySeen,
    SoilFelt,
    SowingPlanned,
    Sown,
    Sprouted,
    Staked,
    Wanted,
    Watered,
    Weighed,
)
from greenroom.season import deeds_spots
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.story import take_back
from greenroom.season.story_life import life
from greenroom.season.story_many import holder_story, packet_story
from tests.season.told import SOWN_ON, Told, spot

PACKET, VARIETY = "p-Cinder Lantern", "v-Cinder Lantern"
CELL, POT, PLACE = spot("Tray A", "B3"), spot("Rack 1", "A2"), spot("South bed", "A1")
POTTED_ON, SET_OUT_ON = date(2027, 4, 20), date(2027, 5, 20)

NOT_OF_A_PLANT = {
    "place_set": "the place",
    "units_set": "how figures are read",
    "weather_record": "the weather of the place",
    "forecast": "the weather of the place",
    "frost_dates_given": "the place",
    "online_choice": "the program",
    "plan_rules": "all plants to come",
    "ramp_set": "all plants of a crop to come",
    "yard_sun": "the step outside",
    "obstacle": "the plot",
    "obstacle_gone": "the plot",
    "job_put_off": "a job, not a plant",
    "job_struck": "a job, not a plant",
}
OF_THE_SEED = {"variety", "wanted", "sowing_planned", "germination_test", "germination_count"}
OF_THE_HOLDER = {"holder_made", "holder_retired"}


def at(hour, minute=0, day=5):
    return datetime(2027, 5, day, hour, minute, tzinfo=UTC)


def where(key):
    return {"holder": key.holder, "row": key.row, "column": key.column}


@pytest.fixture(scope="module")
def told():
    """A plant that everything was noted of: sown, potted up, hardened, set out, picked, its seed saved."""
    told = Told()
    told.packet("Cinder Lantern")
    told.packet("Brass Bell")
    told.holder("Tray A")
    told.holder("Rack 1", form="rack", rows=3, columns=6)
    told.holder("South bed", form="bed", rows=2, columns=4)

    def day(days, start=SOWN_ON):
        return start + timedelta(days)

    potted, out = POTTED_ON, SET_OUT_ON
    to_pot = {"to_holder": POT.holder, "to_row": POT.row, "to_column": POT.column}
    to_place = {"to_holder": PLACE.holder, "to_row": PLACE.row, "to_column": PLACE.column}
    kept = {"file": "a.jpg", "sha256": "0" * 64, "width": 4, "height": 3}
    facts = (
        Wanted(day=SOWN_ON, variety=VARIETY, year=2027, plants=4),
        SowingPlanned(day=SOWN_ON, variety=VARIETY, year=2027, on=SOWN_ON),
        GerminationTest(day=SOWN_ON, test="t", packet=PACKET, seeds=10, warmth_c=27),
        GerminationCount(day=day(5), test="t", count=8),
        Sown(day=SOWN_ON, **where(CELL), packet=PACKET, seeds=2),
        LampsSet(day=day(1), place="Shelf 1", hours=16, gap_cm=20),
        LampMeasured(day=day(1), place="shelf 1", ppfd=210),
        Watered(day=day(2), holder="Tray A"),
        Watered(day=day(3), holder="Tray A"),
        Sprouted(day=day(9), **where(CELL)),
        BasinEmptied(day=day(10), holder="Tray A"),
        MixFelt(day=day(11), holder="Tray A", level="moist"),
        HolderPlaced(day=day(12), holder="Tray A", place="shelf 2", mix_c=21),
        LeafStage(day=day(20), **where(CELL), leaves=4),
        CanopySeen(day=day(20), holder="Tray A", cells=(CellCover(1, 2, 0.25),)),
        Lost(day=day(21), **where(spot("Tray A", "A1")), cause="damping-off"),
        CoolNight(day=day(25), holder="Tray A", low_c=13),
        Finding(day=day(26), holder="Tray A", sign="aphids", count=3),
        Note(day=day(27), **where(CELL), text="the strongest of all"),
        Moved(day=potted, **where(CELL), **to_pot),
        Weighed(day=day(1, potted), holder="Rack 1", grams=4200),
        Fed(
            day=day(2, potted),
            holder="Rack 1",
            feed="Green feed",
            n_percent=5,
            p2o5_percent=5,
            k2o_percent=10,
            ppm_n=100,
            litres=2,
        ),
        LookedOver(day=day(3, potted), holder="Rack 1"),
        HardeningStarted(day=date(2027, 5, 4), holder="Rack 1"),
        CountingSet(day=date(2027, 5, 4), holder="Rack 1", by="sun"),
        OutingStarted(day=date(2027, 5, 5), outing="o", holder="Rack 1", at=at(8)),
        OutingSwitched(day=date(2027, 5, 5), outing="o", holder="Rack 1", at=at(8, 20), light="shade"),
        OutingEnded(day=date(2027, 5, 5), outing="o", holder="Rack 1", at=at(9)),
        SkySeen(day=date(2027, 5, 5), at=at(8), cloud=0.4, holder="Rack 1"),
        SetbackSeen(day=date(2027, 5, 5), holder="Rack 1", what="droop", at=at(8, 15)),
        Held(day=date(2027, 5, 6), holder="Rack 1", why="wind"),
        Moved(day=out, **where(POT), **to_place),
        BedLaid(day=out, holder="South bed", x_m=0, y_m=0, width_m=1, depth_m=4),
        Staked(day=out, **where(PLACE)),
        Mulched(day=out, holder="South bed", material="straw"),
        Covered(day=out, holder="South bed"),
        SoilFelt(day=out, holder="South bed", celsius=16, at=at(12, day=20)),
        Pruned(day=day(5, out), **where(PLACE), what="lower leaves"),
        Flowered(day=day(20, out), **where(PLACE)),
        Picked(day=day(70, out), **where(PLACE), variety=VARIETY, count=3, grams=41),
        Picked(day=day(71, out), holder="South bed", variety=VARIETY, count=5),
        Picked(day=day(72, out), holder="South bed", variety="v-Brass Bell", count=9),
        SeedSaved(day=day(73, out), **where(PLACE), variety=VARIETY, count=60),
        PictureKept(day=day(74, out), **where(PLACE), picture="one", **kept),
        PictureKept(day=day(75, out), picture="two", packet=PACKET, **kept),
        HolderRetired(day=day(80, out), holder="Tray A"),
    )
    told.do(Proposal("told", facts))
    told.facts = facts
    return told


def facts_in(lines):
    return {fact for line in lines for fact in line.facts}


def ids(told, kinds):
    """The ids of the facts of some kinds, but those that are about another plant."""
    other = ("A1", "v-Brass Bell")
    return {
        fact.id
        for fact in told.facts
        if fact.kind in kinds and not (fact.kind == "lost" or getattr(fact, "variety", "") in other)
    }


def test_every_kind_of_fact_is_in_a_story_or_is_about_no_plant(told):
    """A new kind of fact fails here until somebody says whose story it is in."""
    in_life = facts_in(life(told.season, PLACE))
    kinds = set(KINDS) - set(NOT_OF_A_PLANT) - OF_THE_SEED - OF_THE_HOLDER - {"lost"}
    told_of = {fact.kind for fact in told.facts} | {"packet", "variety", "holder_made"}
    assert kinds <= told_of
    pictures_of_seed = {fact.id for fact in told.facts if getattr(fact, "packet", None) == PACKET}
    sowing = {fact.id for fact in told.facts if fact.kind == "sown"}
    assert ids(told, kinds) - (pictures_of_seed - sowing) - in_life == set()
    assert any(line.words.startswith("packet of Cinder Lantern") for line in life(told.season, PLACE))


def test_the_story_of_a_packet_tells_of_its_seed_and_of_all_that_became_of_it(told):
    in_story = facts_in(packet_story(told.season, PACKET))
    own = OF_THE_SEED | {"sown", "sprouted", "leaf_stage", "moved", "note", "pruned", "flowered", "picked"}
    own |= {"seed_saved", "picture_kept"}
    assert ids(told, own) - in_story == set()
    words = [line.words for line in packet_story(told.season, PACKET)]
    assert "germination test begun, 10 seeds at 27 °C" in words
    assert not any("9" in line and "Brass Bell" in line for line in words)


def test_the_story_of_a_tray_tells_of_all_that_was_done_to_it_and_to_its_cells(told):
    lines = holder_story(told.season, "Tray A")
    of_tray = {fact.id for fact in told.facts if getattr(fact, "holder", None) == "Tray A"}
    assert of_tray - facts_in(lines) == set()
    assert lines[0].words == "Tray A taken into use, 6 × 12 cells"
    assert lines[-1].words == "put away"
    assert [line.words for line in lines if "damping-off" in line.words] == ["A1: lost: damping-off"]


def test_the_story_is_in_the_order_of_its_days(told):
    for lines in (
        life(told.season, PLACE)[1:],
        packet_story(told.season, PACKET),
        holder_story(told.season, "Tray A"),
    ):
        days = [line.day for line in lines]
        assert days == sorted(days)


def test_an_outing_is_one_line_with_its_minutes_of_sun_and_shade(told):
    lines = [line.words for line in life(told.season, PLACE) if line.words.startswith("out ")]
    assert lines == ["out 8:00 to 9:00: 20 min in the sun, 40 min in shade"]


def test_the_same_care_day_after_day_is_one_line(told):
    lines = [line for line in life(told.season, PLACE) if line.words.startswith("watered")]
    assert [line.words for line in lines] == ["watered from below, 2 times until 15 March"]
    assert len(lines[0].facts) == 2


def test_the_care_of_a_tray_ends_for_a_plant_that_left_it(told):
    told.do(Proposal("watered", (Watered(day=POTTED_ON + timedelta(3), holder="Tray A", how="above"),)))
    assert not any("from above" in line.words for line in life(told.season, PLACE))
    assert any("from above" in line.words for line in holder_story(told.season, "Tray A"))


def test_the_plant_tells_where_it_stood_from_the_first_day(told):
    first = [line.words for line in life(told.season, PLACE)][2]
    assert first == "place: shelf 1"


def test_what_was_done_to_a_whole_tray_is_taken_back_in_the_story_of_the_tray_only(told):
    cool = next(line for line in life(told.season, PLACE) if line.words.startswith("cool night"))
    with pytest.raises(RefusedError, match="take it back where it was done"):
        take_back(told.season, cool)
    of_tray = next(line for line in holder_story(told.season, "Tray A") if line.words.startswith("cool"))
    assert take_back(told.season, of_tray).strike == (cool.fact,)


def test_many_cells_sown_on_one_day_are_one_line_of_their_packet():
    told = Told()
    told.packet("Brass Bell")
    told.holder("Tray A")
    told.holder("Rack 1", form="rack", rows=3, columns=6)
    cells = [spot("Tray A", f"A{column}") for column in range(1, 9)]
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", cells, SOWN_ON))
    told.do(deeds_spots.mark_up(told.season, cells[:5], SOWN_ON + timedelta(9)))
    told.do(deeds_spots.move(told.season, cells[:3], spot("Rack 1", "A1"), POTTED_ON))
    told.do(deeds_spots.mark_lost(told.season, [spot("Rack 1", "A2")], POTTED_ON + timedelta(4), "dried out"))
    words = [line.words for line in packet_story(told.season, "p-Brass Bell") if line.act]
    assert words == [
        "sown, 8 seeds of Brass Bell, in 8 spots of Tray A",
        "5 up in Tray A",
        "3 moved from Tray A to Rack 1",
        "A2: lost: dried out",
    ]


def test_a_packet_that_was_struck_out_has_no_story():
    assert packet_story(Told().season, "gone") == ()
