"""What is painted is sharp on every screen, and as thick on a fine one as on a coarse one."""

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPen

from greenroom.desk.look import Look
from greenroom.desk.sharp import sharp_box, steady_pen, straight
from greenroom.desk.tables.picture import png_of

SCALES = (1.0, 1.25, 1.5, 2.0)
SIDE = 60


def painted(scale, paint, left=0.0):
    """An image of a screen of a scale on which something was painted, ``left`` of it beside the widget."""
    image = QImage(round(SIDE * scale), round(SIDE * scale), QImage.Format.Format_ARGB32)
    image.setDevicePixelRatio(scale)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(left, 0)
    paint(painter)
    painter.end()
    return image


def shades(image, *, down):
    """The shades across the middle of an image, from its left or from its top."""
    middle = image.width() // 2
    places = range(image.height() if down else image.width())
    return [
        (image.pixelColor(middle, at) if down else image.pixelColor(at, middle)).lightness() for at in places
    ]


@pytest.mark.parametrize("scale", SCALES)
@pytest.mark.parametrize("width", [1.0, 2.0])
def test_a_line_of_a_chart_is_not_smeared_over_two_rows_of_pixels(qapp, scale, width):
    for at in (20.0, 20.3, 21.0):
        for down in (True, False):

            def paint(painter, at=at, down=down):
                painter.setPen(QPen(QColor("black"), width))
                ends = ((0.0, at), (SIDE, at)) if down else ((at, 0.0), (at, SIDE))
                straight(painter, *(QPointF(*one) for one in ends))

            found = shades(painted(scale, paint), down=down)
            assert set(found) == {0, 255}
            assert found.count(0) == max(1, round(width * scale))


@pytest.mark.parametrize("scale", SCALES)
def test_the_edges_of_a_bar_are_sharp_wherever_it_stands(qapp, scale):
    def paint(painter):
        painter.setPen(QPen(QColor("black"), 1))
        painter.drawRect(sharp_box(painter, QRectF(10.4, 12.0, 31.7, 24.0)))

    for left in (0.0, 7.0):
        for down in (True, False):
            assert set(shades(painted(scale, paint, left), down=down)) == {0, 255}


def one_line(look):
    """A chart with one line four pixels wide through its middle."""
    import pyqtgraph

    from greenroom.desk.chart_parts import Plot, StepAxis

    class OneLine(Plot):
        def draw(self):
            super().draw()
            self.line = pyqtgraph.InfiniteLine(pos=0.5, angle=90, pen=steady_pen(self, QColor("black"), 4.0))
            self.addItem(self.line, ignoreBounds=True)
            self.setXRange(0, 1, padding=0)

    return OneLine(look, StepAxis("left"), StepAxis("bottom"))


def test_the_curves_of_a_chart_are_as_thick_on_a_fine_screen_and_in_a_large_picture(qtbot):
    chart = one_line(Look(dark=False))
    qtbot.addWidget(chart)
    chart.resize(200, 120)
    chart.draw()
    chart.show()
    for times in (1, 2, 3):
        picture = QImage.fromData(png_of(chart, QSize(200 * times, 120 * times)))
        middle = picture.height() // 2
        dark = [picture.pixelColor(at, middle).lightness() < 128 for at in range(picture.width())]
        assert sum(dark) == 4 * times
    assert chart.line.pen.widthF() == 4.0 * chart.devicePixelRatioF()  # the one in the window stayed

    chart.devicePixelRatioF = lambda: 2.0
    QCoreApplication.sendEvent(chart, QEvent(QEvent.Type.DevicePixelRatioChange))  # moved to a finer screen
    assert chart.line.pen.widthF() == 8.0
