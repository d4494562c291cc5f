"""What the grower relies on: a picture is kept as it was seen, tells nobody where, and does no harm."""

import hashlib
import io
import os
import struct
import zlib

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PIL import Image, ImageCms

from greenroom.exchange.errors import BadFileError, Cancelled
from greenroom.exchange.picture_decode import LARGEST_BYTES, LONGEST_SIDE, ready_bytes, ready_file
from greenroom.exchange.picture_store import PictureStore, folder_beside, plain_name
from greenroom.ledger.facts import PictureKept
from tests.ledger.examples_care import DAY

RED, BLUE = (200, 20, 20), (20, 20, 200)
ORIENTATION, MAKER, GPS = 0x0112, 0x010F, 0x8825  # Exif 2.32 (CIPA DC-008), tables 4 and 5
LATITUDE = 2  # Exif 2.32, table 15


def two_halves(size=(120, 80)):
    """Red at the left, blue at the right."""
    made = Image.new("RGB", size, RED)
    made.paste(BLUE, (size[0] // 2, 0, *size))
    return made


def encoded(picture, form="JPEG", **more):
    out = io.BytesIO()
    picture.save(out, form, **more)
    return out.getvalue()


def ready(data, name="plant.jpg", told=None, stop=lambda: False):
    return ready_bytes(data, name, (told if told is not None else []).append, stop)


def kept(data):
    return Image.open(io.BytesIO(ready(data).data))


def near(one, other):
    return all(abs(a - b) < 12 for a, b in zip(one, other, strict=True))


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "GIF", "BMP"])
def test_pictures_of_the_usual_forms_are_taken(form):
    made = kept(encoded(two_halves(), form))
    assert (made.format, made.size) == ("JPEG", (120, 80))
    assert near(made.getpixel((10, 40)), RED)
    assert near(made.getpixel((110, 40)), BLUE)


def test_a_large_picture_is_scaled_and_keeps_its_shape():
    found = ready(encoded(Image.new("RGB", (3000, 1500), RED)))
    assert (found.width, found.height) == (LONGEST_SIDE, LONGEST_SIDE // 2)
    assert Image.open(io.BytesIO(found.data)).size == (found.width, found.height)


# Exif 2.32 (CIPA DC-008), orientation: 3 is upside down; 6 wants a quarter turn clockwise, 8 one back.
@pytest.mark.parametrize(
    ("orientation", "size", "red_at"),
    [
        (1, (120, 80), (10, 40)),
        (3, (120, 80), (110, 40)),
        (6, (80, 120), (40, 10)),
        (8, (80, 120), (40, 110)),
    ],
)
def test_a_picture_stands_as_the_camera_was_held(orientation, size, red_at):
    exif = Image.Exif()
    exif[ORIENTATION] = orientation
    made = kept(encoded(two_halves(), exif=exif))
    assert made.size == size
    assert near(made.getpixel(red_at), RED)


def test_where_and_with_what_it_was_taken_is_not_kept():
    exif = Image.Exif()
    exif[MAKER] = "a telltale maker"
    exif.get_ifd(GPS)[LATITUDE] = (46.0, 24.0, 31.0)
    data = encoded(two_halves(), exif=exif, comment=b"a telltale comment")
    assert b"telltale maker" in data
    found = ready(data).data
    assert b"telltale" not in found
    made = Image.open(io.BytesIO(found))
    assert dict(made.getexif()) == {}
    assert {"exif", "icc_profile", "comment"}.isdisjoint(made.info)


def test_what_is_clear_becomes_white_and_sixteen_bits_keep_their_shade():
    assert near(kept(encoded(Image.new("RGBA", (8, 8), (0, 0, 0, 0)), "PNG")).getpixel((4, 4)), (255,) * 3)
    grey = Image.new("I;16", (8, 8), 32768)
    assert near(kept(encoded(grey, "PNG")).convert("RGB").getpixel((4, 4)), (128,) * 3)


def test_a_profile_that_is_no_profile_does_no_harm():
    assert near(kept(encoded(two_halves(), icc_profile=b"nonsense")).getpixel((10, 40)), RED)
    srgb = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    assert near(kept(encoded(two_halves(), icc_profile=srgb)).getpixel((10, 40)), RED)


def png_of_size(width, height):
    """A PNG that says it is of a size, with no pixels to show for it: PNG specification, 11.2.2."""
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    pixels = zlib.compress(b"\0" * 1000)
    parts = ((b"IHDR", head), (b"IDAT", pixels), (b"IEND", b""))
    chunks = [
        struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))
        for name, body in parts
    ]
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunks)


@pytest.mark.parametrize("side", [9_100, 12_000, 60_000, 2_000_000_000])
def test_a_bomb_of_pixels_is_refused_before_it_goes_off(side):
    with pytest.raises(BadFileError, match=r"^bomb\.png has more pixels|^bomb\.png is no picture"):
        ready(png_of_size(side, side), "bomb.png")


@pytest.mark.parametrize("share", [0.2, 0.5, 0.9])
@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP"])
def test_a_picture_that_was_cut_off_is_refused(form, share):
    noisy = Image.effect_noise((160, 120), 90).convert("RGB")
    data = encoded(noisy, form)
    with pytest.raises(BadFileError, match=r"^plant\.jpg is (cut off or damaged|no picture)"):
        ready(data[: int(len(data) * share)])


@pytest.mark.parametrize(
    "data",
    [b"", b"\0" * 40, b"GIF89a", b"<svg xmlns='http://www.w3.org/2000/svg'/>", b"%!PS-Adobe-3.0 EPSF-3.0\n"],
    ids=["empty", "zeros", "head only", "drawing", "program"],
)
def test_what_is_no_picture_is_refused_whatever_its_name(data):
    with pytest.raises(BadFileError, match=r"^plant\.jpg is .*needed"):
        ready(data)


def test_a_picture_of_another_form_than_its_name_says_is_taken_for_what_it_is():
    assert ready(encoded(two_halves(), "PNG"), "plant.jpg").width == 120


BASES = [encoded(two_halves((40, 30)), form) for form in ("JPEG", "PNG", "WEBP", "GIF", "BMP")]


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.sampled_from(BASES), st.data())
def test_a_mutated_picture_is_taken_or_refused_with_a_sentence(base, data):
    body = bytearray(base)
    for _ in range(data.draw(st.integers(1, 6))):
        body[data.draw(st.integers(0, len(body) - 1))] = data.draw(st.integers(0, 255))
    try:
        found, told = ready(bytes(body)), "plant.jpg "
    except BadFileError as error:
        found, told = None, str(error)
    assert told.startswith("plant.jpg ")
    assert found is None or max(found.width, found.height) <= LONGEST_SIDE


def test_a_file_that_cannot_be_a_picture_is_refused_by_its_size_alone(tmp_path):
    path = tmp_path / "film.jpg"
    with path.open("wb") as stream:
        stream.truncate(LARGEST_BYTES + 1)
    with pytest.raises(BadFileError, match=r"film\.jpg has 64 MB; pictures of up to 64 MB are taken"):
        ready_file(path, lambda _: None, lambda: False)


@pytest.mark.parametrize("name", ["x" * 10_000 + ".jpg", "no such.jpg", "nul\0.jpg", "."])
def test_a_name_that_is_no_file_is_told_in_one_short_sentence(tmp_path, name):
    with pytest.raises(BadFileError) as told:
        ready_file(tmp_path / name, lambda _: None, lambda: False)
    assert len(str(told.value)) < 250
    assert str(told.value).count("\n") == 0


def test_the_work_can_be_called_off_and_tells_how_far_it_is():
    told = []
    ready(encoded(two_halves()), told=told)
    assert told == sorted(told)
    assert len(told) >= 3
    with pytest.raises(Cancelled):
        ready(encoded(two_halves()), stop=lambda: True)


@pytest.fixture
def store(tmp_path):
    return PictureStore(folder_beside(tmp_path / "season.greenroom"))


def fact_of(file, sha256):
    return PictureKept(day=DAY, picture="p", file=file, sha256=sha256, width=3, height=2)


def test_a_picture_is_kept_beside_the_ledger_under_its_own_digest(store, tmp_path):
    one = store.keep(b"picture", 3, 2)
    assert store.folder == tmp_path / "season.greenroom pictures"
    assert one.file == f"{hashlib.sha256(b'picture').hexdigest()}.jpg"
    assert store.find(fact_of(one.file, one.sha256)).data == b"picture"
    assert store.keep(b"picture", 3, 2) == one
    assert [path.name for path in store.folder.iterdir()] == [one.file]


def test_a_missing_and_a_changed_file_are_said_in_one_sentence(store):
    one = store.keep(b"picture", 3, 2)
    (store.folder / one.file).write_bytes(b"other")
    assert "was changed or is damaged" in store.find(fact_of(one.file, one.sha256)).trouble
    store.keep(b"picture", 3, 2)
    assert store.find(fact_of(one.file, one.sha256)).trouble == ""
    (store.folder / one.file).unlink()
    assert "is missing" in store.find(fact_of(one.file, one.sha256)).trouble


@pytest.mark.parametrize(
    "name",
    ["C:secret.jpg", "a.jpg:stream", ".hidden", "tab\t.jpg", "x" * 10_000, "nul\0.jpg", "what?.jpg"],
)
def test_a_fact_with_a_name_made_to_escape_opens_nothing(store, name):
    """The ledger refuses folders in a name; these it would keep, from another hand."""
    store.keep(b"picture", 3, 2)
    assert not plain_name(name)
    assert "it is not opened" in store.find(fact_of(name, "0" * 64)).trouble


@pytest.mark.skipif(os.name != "posix", reason="links need rights elsewhere")
def test_a_link_out_of_the_folder_is_not_followed(store, tmp_path):
    secret = tmp_path / "secret.jpg"
    secret.write_bytes(b"secret")
    store.keep(b"picture", 3, 2)
    (store.folder / "link.jpg").symlink_to(secret)
    found = store.find(fact_of("link.jpg", hashlib.sha256(b"secret").hexdigest()))
    assert found.data == b""
    assert "missing" in found.trouble


def test_a_write_that_breaks_off_leaves_no_picture_and_no_half_of_one(store, monkeypatch):
    def full(_handle):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(BadFileError, match="No space left on device"):
        store.keep(b"picture", 3, 2)
    assert list(store.folder.iterdir()) == []


def test_only_old_files_of_its_own_that_no_fact_names_are_swept(store):
    named, stray = store.keep(b"named", 3, 2), store.keep(b"stray", 3, 2)
    half = store.folder / f".{'0' * 32}.part"
    own = store.folder / "my own picture.jpg"
    for path in (half, own):
        path.write_bytes(b"x")
    now = own.stat().st_mtime
    assert store.sweep({named.file}, now=now + 60) == []
    assert sorted(store.sweep({named.file}, now=now + 90_000)) == sorted((half.name, stray.file))
    assert {path.name for path in store.folder.iterdir()} == {named.file, own.name}


def test_sweeping_where_there_is_no_folder_does_nothing(store):
    assert store.sweep(()) == []
