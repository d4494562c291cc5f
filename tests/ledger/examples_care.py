"""Examples of the facts about care, plants set out, the plot, the round and pictures."""

from datetime import UTC, date, datetime, timedelta, timezone

from greenroom.ledger.facts import (
    BasinEmptied,
    BedLaid,
    CanopySeen,
    CellCover,
    Covered,
    Fact,
    Fed,
    Finding,
    Flowered,
    JobPutOff,
    JobStruck,
    LampsSet,
    LookedOver,
    MixFelt,
    Mulched,
    Obstacle,
    ObstacleGone,
    Picked,
    PictureKept,
    Pruned,
    SeedSaved,
    SoilFelt,
    Staked,
    Weighed,
)

DAY = date(2025, 2, 24)
NOON = datetime(2025, 4, 20, 12, 30, 15, 250_001, tzinfo=UTC)
SUMMER_TIME = timezone(timedelta(hours=2))
UNUSUAL = "Ñandú × «7 pots» 🌶\n\t'; -- \\ %s {}"


def spot(holder: str = "tray-a", row: int = 0, column: int = 0) -> dict:
    return {"holder": holder, "row": row, "column": column}


CARE_EXAMPLES: dict[str, tuple[Fact, ...]] = {
    "weighed": (
        Weighed(id="weighed-1", day=DAY, holder="tray-a", grams=1_870.5),
        Weighed(id="weighed-2", day=DAY, holder="tray-a", state="wet", grams=2_340),
        Weighed(id="weighed-3", day=DAY, holder="tray-a", state="dry", grams=1_205, at=NOON),
    ),
    "basin_emptied": (BasinEmptied(id="basin_emptied-1", day=DAY, holder="tray-a"),),
    "mix_felt": (
        MixFelt(id="mix_felt-1", day=DAY, holder="tray-a", level="moist"),
        MixFelt(id="mix_felt-2", day=DAY, holder="tray-a", test="lift", level="dry"),
    ),
    "fed": (
        Fed(
            id="fed-1",
            day=date(2025, 3, 30),
            holder="rack-b",
            feed=UNUSUAL,
            n_percent=15,
            p2o5_percent=5,
            k2o_percent=15,
            ppm_n=100,
            litres=2.5,
        ),
    ),
    "lamps_set": (
        LampsSet(id="lamps_set-1", day=DAY, place="heat mat, top shelf", hours=16),
        LampsSet(id="lamps_set-2", day=DAY, place=UNUSUAL, hours=14.5, gap_cm=12),
    ),
    "looked_over": (
        LookedOver(id="looked_over-1", day=date(2025, 4, 2), holder="rack-b"),
        LookedOver(id="looked_over-2", day=date(2025, 4, 2), **spot(holder="rack-b", row=2, column=4)),
    ),
    "finding": (
        Finding(id="finding-1", day=date(2025, 4, 2), holder="rack-b", sign="aphids"),
        Finding(
            id="finding-2",
            day=date(2025, 4, 2),
            **spot(holder="rack-b", row=2, column=4),
            sign="aphids",
            count=14,
            where=UNUSUAL,
        ),
    ),
    "pruned": (
        Pruned(id="pruned-1", day=date(2025, 6, 9), **spot(holder="bed-1"), what="lower leaves"),
        Pruned(id="pruned-2", day=date(2025, 6, 9), **spot(holder="bed-1", column=1), what="side shoots"),
    ),
    "staked": (
        Staked(id="staked-1", day=date(2025, 5, 30), holder="bed-1"),
        Staked(id="staked-2", day=date(2025, 5, 30), **spot(holder="bed-1")),
    ),
    "mulched": (
        Mulched(id="mulched-1", day=date(2025, 6, 14), holder="bed-1", material="straw"),
        Mulched(id="mulched-2", day=date(2025, 6, 14), holder="bed-1"),
    ),
    "flowered": (Flowered(id="flowered-1", day=date(2025, 6, 20), **spot(holder="bed-1")),),
    "picked": (
        Picked(id="picked-1", day=date(2025, 8, 9), variety="v1", count=1),
        Picked(
            id="picked-2",
            day=date(2025, 8, 12),
            **spot(holder="bed-1"),
            variety="v1",
            count=23,
            grams=180.25,
            ripeness="turning",
        ),
    ),
    "seed_saved": (
        SeedSaved(id="seed_saved-1", day=date(2025, 9, 20), variety="v1"),
        SeedSaved(id="seed_saved-2", day=date(2025, 9, 20), **spot(holder="bed-1"), variety="v1", count=140),
    ),
    "covered": (
        Covered(id="covered-1", day=date(2025, 5, 17), holder="bed-1"),
        Covered(
            id="covered-2",
            day=date(2025, 5, 17),
            holder="bed-1",
            until=datetime(2025, 5, 18, 8, 0, tzinfo=SUMMER_TIME),
        ),
    ),
    "soil_felt": (
        SoilFelt(id="soil_felt-1", day=date(2025, 5, 14), celsius=14, at=NOON),
        SoilFelt(id="soil_felt-2", day=date(2025, 5, 14), holder="bed-1", celsius=-0.5, at=NOON),
    ),
    "bed_laid": (
        BedLaid(id="bed_laid-1", day=DAY, holder="bed-1", x_m=0, y_m=-2.5, width_m=1.2, depth_m=6),
        BedLaid(
            id="bed_laid-2",
            day=DAY,
            holder="bed-1",
            x_m=0.1 + 0.2,
            y_m=4,
            width_m=3,
            depth_m=0.4,
            turned_deg=-30.5,
            pot_litres=11,
        ),
    ),
    "obstacle": (
        Obstacle(
            id="obstacle-1",
            day=DAY,
            obstacle="ob1",
            name=UNUSUAL,
            x_m=-3,
            y_m=0,
            width_m=0.3,
            depth_m=12,
            height_m=1.8,
        ),
    ),
    "obstacle_gone": (ObstacleGone(id="obstacle_gone-1", day=date(2025, 9, 1), obstacle="ob1"),),
    "job_put_off": (
        JobPutOff(id="job_put_off-1", day=date(2025, 4, 3), job="feed rack-b", until=date(2025, 4, 5)),
    ),
    "job_struck": (JobStruck(id="job_struck-1", day=date(2025, 4, 3), job="mulch bed-1"),),
    "picture_kept": (
        PictureKept(
            id="picture_kept-1",
            day=DAY,
            picture="pic1",
            file="2025-02-24 tray a.jpg",
            sha256="0123456789abcdef" * 4,
            width=1200,
            height=800,
        ),
        PictureKept(
            id="picture_kept-2",
            day=DAY,
            picture="pic2",
            **spot(row=1, column=2),
            packet="p2",
            file="ñ.png",
            sha256="f" * 64,
            width=1,
            height=100_000,
        ),
    ),
    "canopy_seen": (
        CanopySeen(
            id="canopy_seen-1",
            day=date(2025, 3, 14),
            holder="tray-a",
            picture="pic1",
            threshold=0.1875,
            cells=(CellCover(0, 0, 0.25), CellCover(0, 11, 0), CellCover(5, 0, 1)),
        ),
        CanopySeen(
            id="canopy_seen-2", day=date(2025, 3, 7), holder="rack-b", cells=(CellCover(99, 99, 0.0625),)
        ),
    ),
}
