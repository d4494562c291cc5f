"""How a colour is seen: by its contrast, and by eyes that lack one kind of cone."""

import numpy as np
from PySide6.QtGui import QImage
from skimage.color import deltaE_ciede2000, rgb2lab

# Machado, Oliveira and Fernandes (2009), "A physiologically-based model for simulation of color vision
# deficiency", IEEE Transactions on Visualization and Computer Graphics 15(6), 1291-1298: the matrices of
# severity 1.0 (from memory; a test holds that they keep greys, as those of the paper do).
WITHOUT = {
    "long cones": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "middle cones": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "short cones": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}
LUMINANCE = np.array((0.2126, 0.7152, 0.0722))


def rgb(colour):
    """Red, green and blue from 0 to 1 of a colour written #rrggbb."""
    return np.array([int(colour[place : place + 2], 16) for place in (1, 3, 5)]) / 255


def linear(shares):
    """Light from sRGB, as WCAG 2.2 defines it under "relative luminance" (threshold 0.04045 of sRGB)."""
    return np.where(shares <= 0.04045, shares / 12.92, ((shares + 0.055) / 1.055) ** 2.4)


def luminance(shares):
    """Relative luminance, WCAG 2.2: 0.2126 R + 0.7152 G + 0.0722 B of the light."""
    return linear(shares) @ LUMINANCE


def contrast(one, other):
    """Contrast ratio, WCAG 2.2: (L1 + 0.05) / (L2 + 0.05), the lighter one above."""
    low, high = sorted(float(luminance(rgb(colour))) for colour in (one, other))
    return (high + 0.05) / (low + 0.05)


def seen_without(cones, shares):
    """What is seen of sRGB colours without one kind of cone."""
    light = np.clip(linear(shares) @ np.array(WITHOUT[cones]).T, 0, 1)
    return np.where(light <= 0.0031308, light * 12.92, 1.055 * light ** (1 / 2.4) - 0.055)


def apart(one, other, cones=None):
    """CIE Delta E 2000 between two colours, to all eyes or to eyes without one kind of cone."""
    pair = np.stack([rgb(one), rgb(other)])
    seen = seen_without(cones, pair) if cones else pair
    return float(deltaE_ciede2000(*rgb2lab(seen)))


def shares_of(image):
    """The pixels of a picture as sRGB shares, rows by columns by three."""
    whole = image.convertToFormat(QImage.Format.Format_RGB888)
    bits = np.frombuffer(whole.constBits(), np.uint8).reshape(whole.height(), whole.bytesPerLine())
    return bits[:, : whole.width() * 3].reshape(whole.height(), whole.width(), 3) / 255


def grey(image):
    """A picture as lightness L* alone (CIE 1976), as it is seen without any colour."""
    light = luminance(shares_of(image))
    return np.where(light > 216 / 24389, 116 * np.cbrt(light) - 16, light * 24389 / 27)


def share_apart(one, other, steps=20.0):
    """The share of pixels of two pictures of a size whose lightness differs by more than so many steps."""
    return float(np.mean(np.abs(grey(one) - grey(other)) > steps))


def print_contrast(image):
    """The contrast of a picture's commonest colour, its ground, with the colour that is farthest from it."""
    seen = np.round(shares_of(image) * 255).astype(np.uint32)
    codes, counts = np.unique(seen @ np.array((65536, 256, 1), dtype=np.uint32), return_counts=True)
    colours = np.stack([codes >> 16, codes >> 8 & 255, codes & 255], axis=1) / 255
    light = luminance(colours)
    ground = light[np.argmax(counts)]
    ratios = (np.maximum(light, ground) + 0.05) / (np.minimum(light, ground) + 0.05)
    return float(ratios.max())
