"""What a photo tells of its maker is taken out of its file, no pixel is changed; Pillow is the judge."""

import io
import random

import numpy as np
import pytest
from PIL import Image, ImageOps, PngImagePlugin

from bench.drawing.photo import bare, read_picture
from tests.fakes.scans import painted_halves

SECRETS = (b"Leica", b"SN-4711", b"Anna", b"on holiday", b"<x:xmpmeta", b"48.137")


def exif_of(orientation=6):
    exif = Image.Exif()
    exif[0x010F], exif[0x0131], exif[0x013B], exif[0x0112] = "Leica", "Anna's app", "Anna", orientation
    exif[0x011A], exif[0x011B], exif[0x0128] = 300.0, 300.0, 2
    exif[0x8825] = {1: "N", 2: (48.0, 8.0, 13.7), 3: "E", 4: (11.0, 34.0, 31.2), 29: "2026:05:04"}
    exif[0x8769] = {0xA431: "SN-4711", 0x9003: "2026:05:04 09:00:00", 0x927C: b"Leica note SN-4711"}
    return exif


def photo(kind, **how):
    file = io.BytesIO()
    image = painted_halves((64, 40))
    image.putpixel((3, 4), (9, 200, 77))
    if kind == "PNG":
        info = PngImagePlugin.PngInfo()
        info.add_text("Author", "Anna")
        info.add_text("Comment", "on holiday 48.137", zip=True)
        info.add_itxt("XML:com.adobe.xmp", "<x:xmpmeta>Anna</x:xmpmeta>")
        how["pnginfo"] = info
    if kind == "JPEG":
        how["comment"] = b"on holiday"
    image.save(file, kind, exif=exif_of(), xmp=b"<x:xmpmeta>Anna</x:xmpmeta>", **how)
    return file.getvalue() + b"SN-4711 behind its end"


CASES = [
    ("JPEG", {}), ("JPEG", {"progressive": True}), ("JPEG", {"icc_profile": b"a profile" * 9}), ("PNG", {}),
    ("WEBP", {}), ("WEBP", {"lossless": True}),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "how"), CASES)
def test_nothing_is_left_that_tells_of_its_maker(kind, how):
    data = bare(photo(kind, **how))
    assert [secret for secret in SECRETS if secret in data] == []
    image = Image.open(io.BytesIO(data))
    assert image.getexif().get_ifd(0x8825) == {}
    assert image.getexif().get_ifd(0x8769) == {}
    assert set(image.getexif()) <= {0x0112, 0x011A, 0x011B, 0x0128}
    assert image.info.get("comment") is None
    assert image.info.get("xmp") is None
    assert getattr(image, "text", {}) == {}


@pytest.mark.parametrize(("kind", "how"), CASES)
def test_the_picture_is_the_same_and_as_upright_as_it_was(kind, how):
    data = photo(kind, **how)
    before, after = Image.open(io.BytesIO(data)), Image.open(io.BytesIO(bare(data)))
    assert after.info.get("icc_profile") == before.info.get("icc_profile")
    assert after.getexif()[0x0112] == 6
    assert np.array_equal(np.asarray(before), np.asarray(after))
    assert ImageOps.exif_transpose(after).size == (40, 64)
    read, again = read_picture(data, "a"), read_picture(bare(data), "a")
    assert np.array_equal(read.pixels, again.pixels)
    assert read.mm_per_px == again.mm_per_px
    assert (kind == "JPEG") == (again.mm_per_px is not None)


@pytest.mark.parametrize(("kind", "how"), CASES)
def test_taken_out_twice_is_taken_out_once(kind, how):
    data = bare(photo(kind, **how))
    assert bare(data) == data


def test_a_preview_within_goes_too():
    """The thumbnail shows what the picture showed before it was cropped."""
    file = io.BytesIO()
    exif = exif_of()
    painted_halves((64, 40)).save(file, "JPEG", exif=exif.tobytes() + b"\xff\xd8 a preview of more \xff\xd9")
    assert b"a preview of more" in file.getvalue()
    assert b"a preview of more" not in bare(file.getvalue())


def test_what_is_no_picture_comes_back_as_it_is():
    for data in (b"", b"hello", b"\xff\xd8", b"\x89PNG\r\n\x1a\n", b"RIFF\0\0\0\0WEBP", b"<svg/>"):
        assert bare(data)[:4] == data[:4]


def test_a_broken_file_ends_no_other_way():
    rng = random.Random(3)
    for kind, how in CASES:
        good = photo(kind, **how)
        for _ in range(300):
            data = bytearray(good)
            for _ in range(rng.randint(1, 6)):
                data[rng.randrange(len(data))] = rng.randrange(256)
            bare(bytes(data[: rng.randint(4, len(data))]))
