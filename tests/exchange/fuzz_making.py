"""How inputs are damaged: bits, cuts, splices, huge and repeated lines, encodings, numbers, nested JSON.

Every choice is made by a ``random.Random``, so hypothesis, a plain generator and a fuzzer's bytes can each
stand behind it.
"""

import json
import re
from random import Random

NUMBER = re.compile(rb"-?\d+(?:[.,]\d+)?")
ODD_NUMBERS = (
    *(b"0", b"-0", b"-1", b"1e999", b"-1e999", b"NaN", b"inf", b"1e-320", b"0x10", b"1_000", b"\xd9\xa3"),
    *(b"99999999999999999999999999", b"2147483648", b"9" * 5000, b"9999-12-31", b"0000-00-00", b"2023-02-29"),
    *(b"1,5", b"1.000,5", b"+5", b"5%", b"-9999", b"31/12/9999", b"1/1/1", b"12:60", b"24:00"),
)
STRAY = (
    *(
        b"\x00",
        b'"',
        b"''",
        b",",
        b";",
        b"\t",
        b"|",
        b"\r",
        b"\n",
        b"\r\n",
        b"\x1a",
        b"\xff",
        b"\xc3",
        b"\x0b",
    ),
    *(b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff", b"\xed\xa0\x80", b"\xf4\x90\x80\x80", b"\xc0\xae"),
    *("\u202e".encode(), "\u2028".encode(), "e\u0301".encode(), "\ufeff".encode(), "\u0665".encode()),
    *(b"=1+1", b"@SUM(A1)", b"<b>x</b>", b"%s%n", b"../../x", b"$(x)", b"' OR 1=1 --", b"{", b"[", b"\\"),
)
ODD_VALUES = (
    *(None, True, False, 0, -1, 2**31, 2**63, 10**40, 1.5, -1e308, 1e308, 5e-324, "", " ", "\x00", "\ud800"),
    *("\u202e", "x" * 10_000, "0001-01-01", "9999-12-31", "9999-12-31T23:59:59-14:00", "2027-02-29", "NaN"),
    *([], {}, [[]], [None], {"": None}, "1", "true", "nul", "2027-03-12T08:00:00Z", "../../x", "<b>x</b>"),
)
ODD_DAYS = (
    "0001-01-01",
    "1799-12-31",
    "1800-01-01",
    "1969-12-31",
    "2024-02-29",
    "2200-12-31",
    "2201-01-01",
    "9999-12-31",
    "2025-04-21",
)
ODD_HOURS = (
    "0001-06-01T00:00:00Z",
    "1800-01-01T12:00:00Z",
    "2200-12-31T23:59:59Z",
    "2025-04-20T06:00:00+14:00",
)
ODD_SIZES = (-1, 0, 1, 7, 99, 100, 1000, 2**31 - 1, 0.05, 1e-9, 21.5, 1440)
DAY, HOUR = re.compile(r"\d{4}-\d\d-\d\d"), re.compile(r"\d{4}-\d\d-\d\dT.*")
ENCODINGS = ("utf-16", "utf-16-le", "utf-16-be", "utf-32", "utf-8-sig", "latin-1", "cp437", "utf-7")
LONGEST = 2_000_000
MOST_REPEATS = 400


def damaged(rng: Random, bases: list[bytes]) -> bytes:
    """Return one of ``bases`` damaged at one to four places."""
    data = rng.choice(bases)
    for _ in range(rng.randint(1, 4)):
        data = rng.choice(WAYS)(rng, data, bases)[:LONGEST]
    return data


def damaged_json(rng: Random, table: object) -> object:
    """Return JSON's values changed, taken out, doubled or nested at one to three places; in place."""
    for _ in range(rng.randint(1, 3)):
        table = _damage_value(rng, table)
    return table


def _damage_value(rng: Random, table: object) -> object:
    holder, key = _place(rng, table)
    if holder is None:
        return rng.choice(ODD_VALUES)
    way = rng.randrange(5)
    if way == 0:
        del holder[key]
    elif way == 1 and isinstance(holder, list):
        holder.insert(key, json.loads(json.dumps(holder[key])))
    elif way == 2 and isinstance(holder, dict):
        holder[rng.choice(("", "id", "more", "x" * 500, "\u202e"))] = holder[key]
    elif way == 3:
        for _ in range(rng.choice((1, 3, 40))):
            holder[key] = [holder[key]] if rng.random() < 0.5 else {"a": holder[key]}
    else:
        other, there = _place(rng, table)
        like = _like(holder[key]) if rng.random() < 0.6 else ODD_VALUES
        holder[key] = rng.choice(like) if rng.random() < 0.8 or other is None else _copy(other[there])
    return table


def _like(value: object) -> tuple:
    """Return odd values of the form that a value has, so that they get past the first look."""
    if isinstance(value, str) and DAY.fullmatch(value):
        return ODD_DAYS
    if isinstance(value, str) and HOUR.fullmatch(value):
        return ODD_HOURS
    return ODD_SIZES if isinstance(value, int | float) and not isinstance(value, bool) else ODD_VALUES


def _copy(value: object) -> object:
    return json.loads(json.dumps(value))


def _place(rng: Random, table: object):
    """Return a list or object within a value, and a place in it; None if it has none."""
    holder, key = None, None
    here = table
    while isinstance(here, list | dict) and here:
        holder, key = here, rng.choice(list(here)) if isinstance(here, dict) else rng.randrange(len(here))
        here = holder[key]
        if rng.random() < 0.15:
            break
    return holder, key


def _span(rng: Random, data: bytes) -> tuple[int, int]:
    start = rng.randint(0, len(data))
    return start, min(len(data), start + rng.choice((0, 1, 2, 8, 80, 700)))


def _flip(rng: Random, data: bytes, _bases) -> bytes:
    body = bytearray(data)
    for _ in range(rng.choice((1, 1, 3, 20)) if body else 0):
        body[rng.randrange(len(body))] ^= 1 << rng.randrange(8)
    return bytes(body)


def _put(rng: Random, data: bytes, _bases) -> bytes:
    start, end = _span(rng, data)
    return data[:start] + rng.choice(STRAY) + data[end:]


def _drop(rng: Random, data: bytes, _bases) -> bytes:
    start, end = _span(rng, data)
    return data[:start] + data[end:]


def _cut(rng: Random, data: bytes, _bases) -> bytes:
    return data[: rng.randint(0, len(data))]


def _splice(rng: Random, data: bytes, bases) -> bytes:
    other = rng.choice(bases)
    return data[: rng.randint(0, len(data))] + other[rng.randint(0, len(other)) :]


def _repeat(rng: Random, data: bytes, _bases) -> bytes:
    start, end = _span(rng, data)
    return data[:start] + data[start:end] * rng.choice((2, 3, MOST_REPEATS)) + data[end:]


def _number(rng: Random, data: bytes, _bases) -> bytes:
    found = list(NUMBER.finditer(data[:20_000]))
    if not found:
        return data
    one = rng.choice(found)
    return data[: one.start()] + rng.choice(ODD_NUMBERS) + data[one.end() :]


def _line(rng: Random, data: bytes, bases) -> bytes:
    lines = data.splitlines(keepends=True)
    if not lines:
        return data
    at, way = rng.randrange(len(lines)), rng.randrange(5)
    if way == 0:
        lines[at] *= rng.choice((2, MOST_REPEATS))
    elif way == 1:
        lines[at] = lines[at].rstrip(b"\r\n") * rng.choice((10, 1000)) + b"\n"
    elif way == 2:
        lines.insert(at, rng.choice(rng.choice(bases).splitlines(keepends=True) or [b"\n"]))
    elif way == 3:
        other = rng.randrange(len(lines))
        lines[at], lines[other] = lines[other], lines[at]
    else:
        del lines[at]
    return b"".join(lines)


def _huge(rng: Random, data: bytes, _bases) -> bytes:
    start, end = _span(rng, data)
    return data[:start] + rng.choice(STRAY) * rng.choice((500, 40_000)) + data[end:]


def _encode(rng: Random, data: bytes, _bases) -> bytes:
    text = data.decode("utf-8", "replace")
    return text.encode(rng.choice(ENCODINGS), "replace")


def _ends(rng: Random, data: bytes, _bases) -> bytes:
    return data.replace(b"\n", rng.choice((b"\r", b"\r\n", b"\n\n", b"\x85", b"")))


WAYS = (
    _flip,
    _flip,
    _put,
    _put,
    _drop,
    _cut,
    _splice,
    _repeat,
    _number,
    _number,
    _line,
    _line,
    _huge,
    _encode,
    _ends,
)
