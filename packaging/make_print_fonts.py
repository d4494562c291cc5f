"""Makes the typeface that is put into printed sheets out of the one the window shows.

PDF writers that are freely licensed embed TrueType outlines only, and the typeface comes with
PostScript ones. The letters are the same: each curve is followed to within a third of a thousandth of
the type's height, and every sign that has a code point is kept. Layout features are left out: they
are not used on paper.

Needs fontTools (MIT), which the program itself does not. Run it after the typeface was renewed:

    .venv/bin/pip install fonttools
    .venv/bin/python packaging/make_print_fonts.py
"""

import argparse
import logging
from pathlib import Path

from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont, newTable

FONTS = Path(__file__).parents[1] / "resources" / "fonts"
WEIGHTS = ("Regular", "SemiBold")
ERROR_SHARE = 1 / 3000
NOT_FOR_TRUETYPE = ("CFF ", "VORG", "GSUB", "GPOS", "GDEF", "STAT", "DSIG")


def main() -> None:
    """Write a TrueType file beside the typeface for each weight."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--to", type=Path, default=FONTS / "print", help="folder to write to")
    to = parser.parse_args().to
    logging.getLogger("fontTools").setLevel(logging.ERROR)
    to.mkdir(parents=True, exist_ok=True)
    for weight in WEIGHTS:
        make(FONTS / f"Inter-{weight}.otf", to / f"Inter-{weight}.ttf")


def make(source: Path, target: Path) -> None:
    """Write one weight with TrueType outlines."""
    font = TTFont(source, recalcTimestamp=False)
    _keep_signs(font)
    order, glyphs = font.getGlyphOrder(), font.getGlyphSet()
    error = font["head"].unitsPerEm * ERROR_SHARE
    drawn = {}
    for name in order:
        pen = TTGlyphPen(glyphs)
        glyphs[name].draw(Cu2QuPen(pen, error, reverse_direction=True))
        drawn[name] = pen.glyph()
    for tag in NOT_FOR_TRUETYPE:
        if tag in font:
            del font[tag]
    _put_in(font, order, drawn)
    font.save(target)
    logging.info("%s: %d signs", target.name, len(font.getBestCmap()))


def _keep_signs(font: TTFont) -> None:
    options = Options(layout_features=[], hinting=False, notdef_outline=True, name_IDs=["*"])
    chosen = Subsetter(options)
    chosen.populate(unicodes=font.getBestCmap())
    chosen.subset(font)


def _put_in(font: TTFont, order: list[str], drawn: dict) -> None:
    font["loca"], font["glyf"] = newTable("loca"), newTable("glyf")
    font["glyf"].glyphOrder, font["glyf"].glyphs = order, drawn
    for name, glyph in drawn.items():
        glyph.recalcBounds(font["glyf"])
        font["hmtx"][name] = font["hmtx"][name][0], getattr(glyph, "xMin", 0)
    font["maxp"].tableVersion = 0x00010000
    nothing = dict.fromkeys(
        (
            "maxTwilightPoints",
            "maxStorage",
            "maxFunctionDefs",
            "maxInstructionDefs",
            "maxStackElements",
            "maxSizeOfInstructions",
        ),
        0,
    )
    counted = dict.fromkeys(
        ("maxPoints", "maxContours", "maxCompositePoints", "maxCompositeContours", "maxComponentElements"), 0
    )
    for name, value in {**nothing, **counted, "maxZones": 1, "maxComponentDepth": 0}.items():
        setattr(font["maxp"], name, value)
    font["post"].formatType = 3.0
    font.sfntVersion = "\000\001\000\000"


if __name__ == "__main__":
    logging.basicConfig(level=logging.INFO, format="%(message)s")
    main()
