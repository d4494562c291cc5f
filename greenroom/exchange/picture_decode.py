"""A picture file made ready to keep: checked by decoding it, turned upright, scaled, without its metadata.

What is kept is drawn anew from the pixels as a JPEG, so nothing else of the file comes along: no place,
no camera, no comment, and no trick that hides behind the name.
"""

from __future__ import annotations

import io
import struct
import zlib
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, ImageCms, ImageOps

from greenroom.exchange.errors import BadFileError, Cancel, Progress, go_on
from greenroom.exchange.picture_store import short_name
from greenroom.speech import tr

FORMATS = ("JPEG", "PNG", "WEBP", "GIF", "BMP")
ALLOWED = tr("a JPEG, PNG, WebP, GIF or BMP picture is needed")
LARGEST_BYTES = 64 * 1024 * 1024
LARGEST_PIXELS = 80_000_000
LONGEST_SIDE = 2048
QUALITY = 88
HIGH_DEPTHS = ("I;16", "I;16L", "I;16B", "I;16N", "I")
PICKED = ("P", "PA", "1")  # pixels that are numbers of colours, or just black and white
DEEPEST, SHADES = 65_535, 255

BROKEN = (
    OSError,
    SyntaxError,
    ValueError,
    EOFError,
    struct.error,
    zlib.error,
    IndexError,
    KeyError,
    TypeError,
    OverflowError,
    MemoryError,
)
"""What the decoders raise on files that are cut, mutated or made to harm."""


def ready_file(path: Path, progress: Progress, cancelled: Cancel) -> Ready:
    """Return a picture file made ready to keep.

    Raises
    ------
    BadFileError
        With one sentence, if it cannot be read or is no sound picture.
    Cancelled
        If ``cancelled`` says so.
    """
    name = short_name(path.name)
    try:
        if not path.is_file():
            raise BadFileError(
                tr("{name} is no file that can be read; {allowed}.", name=name, allowed=ALLOWED)
            )
        size = path.stat().st_size
        if size > LARGEST_BYTES:
            raise BadFileError(
                tr(
                    "{name} has {size:,} MB; pictures of up to {most} MB are taken.",
                    name=name,
                    size=size // 2**20,
                    most=LARGEST_BYTES // 2**20,
                )
            )
        data = path.read_bytes()
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or tr("its name is none that a file can have")
        raise BadFileError(tr("{name} cannot be read: {reason}.", name=name, reason=reason)) from error
    return ready_bytes(data, name, progress, cancelled)


def ready_bytes(data: bytes, name: str, progress: Progress, cancelled: Cancel) -> Ready:
    """Return a picture given as bytes made ready to keep; ``name`` is what it is called in a sentence."""
    if len(data) > LARGEST_BYTES:
        raise BadFileError(
            tr(
                "{name} is larger than the {most} MB that are taken.",
                name=name,
                most=LARGEST_BYTES // 2**20,
            )
        )
    progress(0.1)
    go_on(cancelled)
    picture = _opened(data, name)
    picture = _decoded(picture, name)
    progress(0.5)
    go_on(cancelled)
    picture = _scaled(picture)  # first, so that no copy of the large one is made
    progress(0.8)
    go_on(cancelled)
    picture = _plain(_upright(picture))
    return Ready(_written(picture), *picture.size)


def _opened(data: bytes, name: str) -> Image.Image:
    """Return the picture with only its head read, its size checked before any pixel is decoded."""
    try:
        picture: Image.Image = Image.open(io.BytesIO(data), formats=FORMATS)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise BadFileError(_too_many(name)) from error
    except BROKEN as error:
        raise BadFileError(
            tr("{name} is no picture that can be read; {allowed}.", name=name, allowed=ALLOWED)
        ) from error
    if picture.width * picture.height > LARGEST_PIXELS:
        raise BadFileError(_too_many(name))
    return picture


def _too_many(name: str) -> str:
    return tr(
        "{name} has more pixels than the {most} million that are taken; scale it down.",
        name=name,
        most=LARGEST_PIXELS // 10**6,
    )


def _decoded(picture: Image.Image, name: str) -> Image.Image:
    try:
        picture.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))  # a JPEG is decoded no larger than needed
        picture.load()
    except (Image.DecompressionBombError, *BROKEN) as error:
        raise BadFileError(
            tr(
                "{name} is cut off or damaged and cannot be decoded; {allowed}, whole.",
                name=name,
                allowed=ALLOWED,
            )
        ) from error
    return picture


def _scaled(picture: Image.Image) -> Image.Image:
    """Return the picture with its longest side within bounds, in a mode whose pixels can be averaged."""
    if picture.mode in HIGH_DEPTHS:
        picture = picture.convert("I").point(lambda value: value * (SHADES / DEEPEST)).convert("L")
    elif picture.mode in PICKED:
        clear = "transparency" in picture.info or picture.mode == "PA"
        picture = picture.convert("RGBA" if clear else "RGB")
    picture.thumbnail((LONGEST_SIDE, LONGEST_SIDE), Image.Resampling.LANCZOS)
    return picture


def _upright(picture: Image.Image) -> Image.Image:
    """Return the picture turned as its camera was held; one whose note on it is broken stays as it is."""
    try:
        return ImageOps.exif_transpose(picture)
    except BROKEN:
        return picture


def _plain(picture: Image.Image) -> Image.Image:
    """Return the pixels alone, in sRGB on white, in an image that knows nothing of the file."""
    profile = picture.info.get("icc_profile")
    clear = picture.mode in ("RGBA", "LA", "PA", "La", "RGBa") or "transparency" in picture.info
    made = Image.new("RGB", picture.size, "white")
    if clear:
        layer = picture.convert("RGBA")
        made.paste(layer, mask=layer.getchannel("A"))
    else:
        made.paste(_in_srgb(picture, profile))
    return made


def _in_srgb(picture: Image.Image, profile: bytes | None) -> Image.Image:
    """Return the picture in sRGB; without a profile that can be read, its colours are taken for that."""
    if profile and picture.mode == "RGB":
        try:
            source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            turned = ImageCms.profileToProfile(picture, source, ImageCms.createProfile("sRGB"))
        except (ImageCms.PyCMSError, *BROKEN):
            return picture
        return turned or picture
    return picture.convert("RGB")


def _written(picture: Image.Image) -> bytes:
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=QUALITY, optimize=True)
    return out.getvalue()


@dataclass(frozen=True, slots=True)
class Ready:
    """A picture as it will be kept: its JPEG, and its sides in pixels."""

    data: bytes
    width: int
    height: int
