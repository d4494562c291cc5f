"""Reads printed sheets back with libraries that had no part in making them."""

from io import BytesIO

import numpy as np
import pypdf
import zxingcpp

from greenroom.exchange.paper.picture import picture_of

MM = 25.4 / 72  # ISO 32000-1, 8.3.2.3: the unit of a page is 1/72 in


def pages(printed):
    return pypdf.PdfReader(BytesIO(printed.pdf)).pages


def text_of(printed):
    return "\n".join(page.extract_text() for page in pages(printed))


def size_mm(page):
    box = page.mediabox
    return float(box.width) * MM, float(box.height) * MM


def pieces(page):
    """Every piece of text with where it begins: (text, mm from the left, mm from the top, points)."""
    height, found = float(page.mediabox.height), []

    def take(text, _outer, matrix, _font, size):
        if text.strip():
            found.append((text.strip(), matrix[4] * MM, (height - matrix[5]) * MM, size))

    page.extract_text(visitor_text=take)
    return found


def strokes(page):
    """Every operator that draws a path, with its operands in mm from the left and the foot."""
    content = page.get_contents()
    return [
        (operator.decode(), [float(one) * MM for one in operands])
        for operands, operator in pypdf.generic.ContentStream(content, None).operations
        if operator in (b"m", b"l", b"re")
    ]


def image(printed, page=0, dots=300):
    shown = picture_of(printed.pdf, page, dots)
    rows = np.frombuffer(shown.rgb, dtype=np.uint8).reshape(shown.height, shown.stride)
    return rows[:, : 3 * shown.width].reshape(shown.height, shown.width, 3)


def codes(printed, page=0, dots=300):
    """The QR codes on a page: (text, left, top, right, foot) in mm."""
    return codes_in(image(printed, page, dots), dots)


def codes_in(picture, dots=300):
    """The QR codes in a picture, as `codes` tells them."""
    scale = 25.4 / dots
    found = zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode)
    return [
        (
            one.text,
            one.position.top_left.x * scale,
            one.position.top_left.y * scale,
            one.position.bottom_right.x * scale,
            one.position.bottom_right.y * scale,
        )
        for one in found
    ]
