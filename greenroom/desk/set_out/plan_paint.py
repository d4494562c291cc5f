"""How the plan is painted: ground with its sun, beds, what throws shade, plants and their distances."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QFontMetricsF, QPainter, QPen, QPolygonF

from greenroom.desk.grow.cell_art import face_of
from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.desk.set_out.plan_state import DRAW
from greenroom.desk.sharp import sharp_box, straight
from greenroom.season.plot import Bed, Shade, Thing
from greenroom.season.plot_plants import Plant
from greenroom.season.spots import SpotKey
from greenroom.speech import figure, tr

if TYPE_CHECKING:
    from greenroom.desk.set_out.plan_view import PlanView

CENTRE = Qt.AlignmentFlag.AlignCenter
NUMBERED_PX = 27.0
LEAST_PLANT_PX, MOST_PLANT_PX = 14.0, 52.0
PLANT_SHARE = 0.66  # of the room there is, so that the ring of its distance shows round it
HANDLE_PX = 12.0
HOURS_PX = 44.0
SIGNED_PX = 24.0
EVEN_LIGHT = 0.179  # black and white stand out alike, 4.6 to 1 (WCAG 2.2, contrast ratio)
FLAG_PX = 18.0


def paint(view: PlanView, painter: QPainter) -> None:
    """Paint the whole plan."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    look, frame = view.bench.look, view.frame
    painter.fillRect(view.rect(), look.colour("card"))
    painter.fillRect(frame.rect, look.colour("leaf_wash"))
    painter.save()
    painter.setClipRect(frame.rect)
    _paint_sun(view, painter)
    for bed in view.state.plot.beds:
        _paint_bed(view, painter, bed)
    _paint_shadows(view, painter)
    for shade in view.state.plot.shades:
        _paint_shade(view, painter, shade)
    for bed in view.state.plot.beds:
        _paint_positions(view, painter, bed)
    for thing in view.state.things:
        _paint_flag(view, painter, thing)
    _paint_chosen(view, painter)
    painter.restore()
    _paint_edge(view, painter)
    if view.hasFocus():
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(look.colour("focus"), 2))
        painter.drawRoundedRect(QRectF(view.rect()).adjusted(1, 1, -1, -1), 6, 6)


def heat(look: Look, share: float) -> QColor:
    """Return the colour of a share of the day's sun, from shade to full."""
    low, high = look.colour("sky"), look.colour("sun")
    share = max(0.0, min(1.0, share))
    ends = ((low.red(), high.red()), (low.green(), high.green()), (low.blue(), high.blue()))
    return QColor(*(round(one + (other - one) * share) for one, other in ends))


def ink_on(ground: QColor) -> QColor:
    """Return black or white, whichever stands out on a ground: on any, one of them does."""
    red, green, blue = (_light(share) for share in (ground.redF(), ground.greenF(), ground.blueF()))
    light = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    return QColor(Qt.GlobalColor.black if light > EVEN_LIGHT else Qt.GlobalColor.white)


def _light(share: float) -> float:
    """Return the light of a share of red, green or blue (IEC 61966-2-1, sRGB)."""
    return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4


def plant_px(view: PlanView, bed: Bed) -> float:
    """Return how large a plant of a bed is drawn."""
    room = min(bed.pitch_m) * view.frame.scale * PLANT_SHARE
    return max(LEAST_PLANT_PX, min(MOST_PLANT_PX, room))


def handle_rect(view: PlanView, thing: Bed | Shade) -> QRectF:
    """Return the handle at the north-east corner by which a thing is made larger or smaller."""
    rect = QRectF(0, 0, HANDLE_PX, HANDLE_PX)
    rect.moveCenter(view.frame.to_px(thing.corners[2]))
    return rect


def _paint_sun(view: PlanView, painter: QPainter) -> None:
    sun, look, frame = view.state.sun, view.bench.look, view.frame
    if sun is None:
        return
    hours, most = sun.of(view.state.half), sun.most.of(view.state.half)
    taken = [frame.polygon(thing.corners) for thing in view.state.things]
    taken += [QPolygonF(_flag_rect(view, thing)) for thing in view.state.things if _on_plan(view, thing)]
    side = sun.side_m * frame.scale
    painter.setFont(font(SMALL_PX))
    for row in range(sun.rows):
        for column in range(sun.columns):
            x, y = sun.middle(row, column)
            rect = QRectF(0, 0, side, side)
            rect.moveCenter(frame.to_px((x, y)))
            here = float(hours[row, column])
            colour = heat(look, here / most if most else 0.0)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.fillRect(sharp_box(painter, rect.adjusted(0, 0, -1, -1)), colour)
            words = QRectF(rect.center().x() - 13, rect.center().y() - 8, 26, 16)
            if side >= NUMBERED_PX and not any(one.intersects(QPolygonF(words)) for one in taken):
                painter.setPen(ink_on(colour))
                painter.drawText(words, CENTRE, figure(here, ".1f"))


def _paint_bed(view: PlanView, painter: QPainter, bed: Bed) -> None:
    look = view.bench.look
    soil = look.colour("soil")
    soil.setAlpha(70 if view.state.sun is not None else 235)
    painter.setBrush(soil)
    painter.setPen(QPen(look.colour("soil_edge"), 2))
    painter.drawPolygon(view.frame.polygon(bed.corners))


def _paint_shade(view: PlanView, painter: QPainter, shade: Shade) -> None:
    look = view.bench.look
    outline = view.frame.polygon(shade.corners)
    painter.setBrush(look.colour("card"))
    painter.setPen(QPen(look.colour("ink"), 1.6))
    painter.drawPolygon(outline)
    hatch = look.colour("quiet")
    painter.setBrush(QBrush(hatch, Qt.BrushStyle.BDiagPattern))
    painter.drawPolygon(outline)


def _paint_shadows(view: PlanView, painter: QPainter) -> None:
    dark = view.bench.look.colour("plum")
    dark.setAlpha(92)
    painter.setBrush(dark)
    painter.setPen(Qt.PenStyle.NoPen)
    for outline in view.state.shadows:
        painter.drawPolygon(view.frame.polygon(outline))


def _paint_positions(view: PlanView, painter: QPainter, bed: Bed) -> None:
    planted = {plant.spot: plant for plant in view.state.plants}
    for spot, point in bed.places():
        middle = view.frame.to_px(point)
        plant = planted.get(spot)
        if plant is not None:
            _paint_distance(view, painter, plant)
        _paint_spot(view, painter, bed, spot, middle)


def _paint_spot(view: PlanView, painter: QPainter, bed: Bed, spot: SpotKey, middle: QPointF) -> None:
    look, state = view.bench.look, view.state
    side = plant_px(view, bed)
    rect = QRectF(0, 0, side, side)
    rect.moveCenter(middle)
    face = face_of(view.season.spot(spot), pot=True)
    view.art.paint(painter, rect.toRect(), face, opacity=0.35 if spot in view.hand.sources else 1.0)
    if view.hand.active:
        _paint_landing(view, painter, spot, rect)
    elif spot in state.marked:
        _number(view, painter, rect, state.marked[spot])
    if spot in state.minded:
        _sign(view, painter, rect)
    if min(bed.pitch_m) * view.frame.scale >= HOURS_PX:
        _paint_hours(view, painter, spot, rect)
    if spot == state.current and state.mode != DRAW:
        for inset, name in ((-1.0, "card"), (-3.0, "focus" if view.hasFocus() else "ink")):
            _ring(painter, rect.adjusted(inset, inset, -inset, -inset), look.colour(name), 2.0)


def _paint_hours(view: PlanView, painter: QPainter, spot: SpotKey, rect: QRectF) -> None:
    """Write the hours of a position below it."""
    hours = view.state.hours.get(spot)
    if hours is None:
        return
    below = QRectF(rect.center().x() - 16, rect.bottom() + 1, 32, 15)
    ground = view.bench.look.colour("card")
    ground.setAlpha(200)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ground)
    painter.drawRoundedRect(below, 3, 3)
    painter.setPen(view.bench.look.colour("ink"))
    painter.setFont(font(SMALL_PX))
    painter.drawText(below, CENTRE, figure(hours.of(view.state.half), ".1f"))


def _paint_distance(view: PlanView, painter: QPainter, plant: Plant) -> None:
    """Draw a ring as wide as the distance the plant asks for: rings that cross stand too close."""
    side = plant.crown_m * view.frame.scale
    rect = QRectF(0, 0, side, side)
    rect.moveCenter(view.frame.to_px(plant.point))
    wash = view.bench.look.colour("leaf")
    pen = QPen(wash, 1.4, Qt.PenStyle.DotLine)
    wash.setAlpha(36)
    painter.setBrush(wash)
    painter.setPen(pen)
    painter.drawEllipse(rect)


def _paint_landing(view: PlanView, painter: QPainter, spot: SpotKey, rect: QRectF) -> None:
    hand, look = view.hand, view.bench.look
    if hand.takes and spot in hand.places:
        _ring(painter, rect, look.colour("leaf"), 3.0)
        _number(view, painter, rect, hand.places.index(spot) + 1)
    elif spot == hand.target and not hand.takes:
        painter.setPen(QPen(look.colour("clay"), 3.0))
        painter.drawLine(rect.topLeft(), rect.bottomRight())
        painter.drawLine(rect.topRight(), rect.bottomLeft())


def _paint_chosen(view: PlanView, painter: QPainter) -> None:
    thing = view.state.thing
    if view.state.mode != DRAW or thing is None:
        return
    look = view.bench.look
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for name, width in (("card", 5.0), ("focus", 2.5)):
        painter.setPen(QPen(look.colour(name), width))
        painter.drawPolygon(view.frame.polygon(thing.corners))
    painter.setBrush(look.colour("card"))
    painter.drawRect(handle_rect(view, thing))


def _paint_edge(view: PlanView, painter: QPainter) -> None:
    """Draw the scale bar and the arrow to the north below the ground."""
    look, frame = view.bench.look, view.frame
    painter.setPen(QPen(look.colour("quiet"), 1.6))
    y = frame.rect.bottom() + 14
    left, length = frame.rect.left(), frame.bar_m() * frame.scale
    straight(painter, QPointF(left, y), QPointF(left + length, y))
    for x in (left, left + length):
        straight(painter, QPointF(x, y - 4), QPointF(x, y + 4))
    painter.setFont(font(SMALL_PX))
    painter.setPen(look.colour("quiet"))
    painter.drawText(QPointF(left + length + 6, y + 4), tr("{metres:g} m", metres=frame.bar_m()))
    _arrow(painter, QPointF(frame.rect.right() - 14, y), look)


def _arrow(painter: QPainter, foot: QPointF, look: Look) -> None:
    painter.setPen(QPen(look.colour("ink"), 2))
    tip = foot + QPointF(0, -8)
    painter.drawLine(foot + QPointF(0, 8), tip)
    painter.drawLine(tip, tip + QPointF(-4, 5))
    painter.drawLine(tip, tip + QPointF(4, 5))
    painter.setFont(font(SMALL_PX, QFont.Weight.Bold))
    painter.drawText(QRectF(foot.x() - 22, foot.y() - 9, 16, 18), CENTRE, tr("N", sense="north"))


def _on_plan(view: PlanView, thing: Thing) -> bool:
    bounds = view.frame.polygon(thing.corners).boundingRect()
    return bounds.adjusted(-1, -1, 1, 1).intersects(view.frame.rect)


def _flag_words(thing: Thing) -> str:
    if isinstance(thing, Shade):
        return tr("{name} {metres:g} m", name=thing.name, metres=thing.height_m)
    return (
        tr("{name} · {litres:g} L pots", name=thing.name, litres=thing.pot_litres)
        if thing.pot_litres is not None
        else thing.name
    )


def _flag_rect(view: PlanView, thing: Thing) -> QRectF:
    """Return where a thing is named: over a bed, in the middle of what throws shade, inside the plan."""
    outline, inside = view.frame.polygon(thing.corners), view.frame.rect
    width = QFontMetricsF(font(SMALL_PX, QFont.Weight.DemiBold)).horizontalAdvance(_flag_words(thing)) + 8
    bounds = outline.boundingRect()
    if isinstance(thing, Shade):
        left, top = bounds.center().x() - width / 2, bounds.center().y() - FLAG_PX / 2
    else:
        corner = min((outline.at(place) for place in range(4)), key=lambda one: (one.y(), one.x()))
        left, top = corner.x(), corner.y() - FLAG_PX
    left = max(inside.left(), min(left, inside.right() - width))
    return QRectF(left, max(inside.top(), min(top, inside.bottom() - FLAG_PX)), width, FLAG_PX)


def _paint_flag(view: PlanView, painter: QPainter, thing: Thing) -> None:
    """Name a thing on a small plate, so that it can be read on any ground."""
    if not _on_plan(view, thing):
        return
    look, plate = view.bench.look, _flag_rect(view, thing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.colour("card"))
    painter.drawRoundedRect(plate, 3, 3)
    painter.setFont(font(SMALL_PX, QFont.Weight.DemiBold))
    painter.setPen(look.colour("ink"))
    painter.drawText(plate, CENTRE, _flag_words(thing))


def _ring(painter: QPainter, rect: QRectF, colour: QColor, width: float) -> None:
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(colour, width))
    painter.drawEllipse(rect)


def _number(view: PlanView, painter: QPainter, rect: QRectF, number: int) -> None:
    look = view.bench.look
    disc = QRectF(0, 0, 18, 18)
    disc.moveCenter(rect.center())
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.colour("leaf"))
    painter.drawEllipse(disc)
    painter.setPen(look.colour("on_leaf"))
    painter.setFont(font(SMALL_PX, QFont.Weight.Bold))
    painter.drawText(disc, CENTRE, str(number))


def _sign(view: PlanView, painter: QPainter, rect: QRectF) -> None:
    """Draw a mark of exclamation at the corner of what is to mind, or a ring where there is no room."""
    look = view.bench.look
    if rect.width() < SIGNED_PX:
        _ring(painter, rect.adjusted(-1, -1, 1, 1), look.colour("clay"), 2.5)
        return
    plate = QRectF(rect.right() - 11, rect.top() - 3, 14, 14)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.colour("clay"))
    painter.drawEllipse(plate)
    painter.setPen(look.colour("on_clay"))
    painter.setFont(font(SMALL_PX, QFont.Weight.Bold))
    painter.drawText(plate, CENTRE, "!")
