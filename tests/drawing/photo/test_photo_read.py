"""A picture of any usual kind becomes plain upright pixels; what cannot be one is told in one line."""

import io
import struct
import zlib

import numpy as np
import pytest
from PIL import Image

from bench.drawing.faults import DrawingEmpty, DrawingFault
from bench.drawing.photo import faults as f
from bench.drawing.photo import read_picture

RGB = np.kron(
    np.array([[[200, 30, 20], [20, 180, 40]], [[30, 40, 190], [240, 220, 60]]], np.uint8),
    np.ones((16, 24, 1), np.uint8),
)  # 32 rows, 48 columns, four flat colours


def saved(image: Image.Image, kind: str = "PNG", **how) -> bytes:
    out = io.BytesIO()
    image.save(out, kind, **how)
    return out.getvalue()


def head_of_png(width: int, height: int) -> bytes:
    """Return a PNG that claims a size and holds hardly anything."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(b"0"))
        + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_lossless_pixels_come_through_as_they_are(kind):
    picture = read_picture(saved(Image.fromarray(RGB), kind, lossless=True), "study")
    assert np.array_equal(picture.pixels, RGB)


def test_a_jpeg_comes_through_but_for_its_own_loss():
    picture = read_picture(saved(Image.fromarray(RGB), "JPEG", quality=95, subsampling=0), "study.jpg")
    assert np.abs(picture.pixels.astype(int) - RGB)[4:12, 4:20].max() <= 4


# EXIF 2.3 (CIPA DC-008), tag 0x0112: what is the 0th row and the 0th column of the picture as seen
@pytest.mark.parametrize(
    ("mark", "seen"),
    [
        (1, RGB),
        (2, RGB[:, ::-1]),
        (3, RGB[::-1, ::-1]),
        (4, RGB[::-1]),
        (5, RGB.transpose(1, 0, 2)),
        (6, np.rot90(RGB, -1)),
        (7, RGB[::-1, ::-1].transpose(1, 0, 2)),
        (8, np.rot90(RGB, 1)),
    ],
)
def test_the_orientation_mark_is_followed(mark, seen):
    exif = Image.Exif()
    exif[0x0112] = mark
    assert np.array_equal(read_picture(saved(Image.fromarray(RGB), exif=exif), "study").pixels, seen)


def test_transparent_pixels_lie_over_white():
    alpha = np.full((32, 48, 1), 255, np.uint8)
    alpha[:, :24] = 0
    pixels = read_picture(saved(Image.fromarray(np.concatenate([RGB, alpha], axis=2))), "study").pixels
    assert (pixels[:, :24] == 255).all()
    assert np.array_equal(pixels[:, 24:], RGB[:, 24:])


def test_a_palette_keeps_its_colours():
    image = Image.fromarray(RGB).convert("P", palette=Image.Palette.ADAPTIVE)
    assert np.array_equal(read_picture(saved(image), "study").pixels, RGB)


@pytest.mark.parametrize("bits", [8, 16])
def test_greys_of_8_and_16_bits_are_the_same_greys(bits):
    grey = np.repeat(np.arange(0, 256, 8, dtype=np.uint8)[:, None], 20, axis=1)
    data = grey if bits == 8 else grey.astype(np.uint16) * 257
    pixels = read_picture(saved(Image.fromarray(data)), "scan").pixels
    assert np.array_equal(pixels, np.repeat(grey[..., None], 3, axis=2))


def test_cmyk_keeps_its_colours_roughly():
    data = saved(Image.fromarray(RGB).convert("CMYK"), "JPEG", quality=95)
    assert np.abs(read_picture(data, "print.jpg").pixels.astype(int) - RGB)[4:12, 4:20].max() <= 12


def test_a_scanner_says_how_large_a_pixel_is_and_a_camera_does_not():
    """300 pixels to the inch of 25.4 mm; 72 is what files carry that nobody measured (common practice)."""
    assert read_picture(saved(Image.fromarray(RGB), dpi=(300, 300)), "a").mm_per_px == pytest.approx(
        25.4 / 300, rel=1e-3
    )
    assert read_picture(saved(Image.fromarray(RGB), dpi=(72, 72)), "a").mm_per_px is None
    assert read_picture(saved(Image.fromarray(RGB), dpi=(300, 600)), "a").mm_per_px is None
    assert read_picture(saved(Image.fromarray(RGB)), "a").mm_per_px is None


@pytest.mark.parametrize(
    ("data", "kind"),
    [
        (b"", DrawingEmpty),
        (b"lemons on a cloth", f.NotAPicture),
        (b"<svg/>", f.NotAPicture),
        (saved(Image.fromarray(RGB), "GIF"), f.NotAPicture),
        (saved(Image.new("RGB", (1, 1))), f.PictureTooSmall),
        (head_of_png(60_000, 10), f.PictureTooSmall),
        (head_of_png(8_000, 6_251), f.PictureTooLarge),
        (head_of_png(12_000, 10_000), f.PictureTooLarge),
        (head_of_png(1_000_000, 1_000_000), f.PictureTooLarge),
        (head_of_png(100, 100), f.PictureBroken),
        (saved(Image.fromarray(RGB), "JPEG")[:-200], f.PictureBroken),
        (saved(Image.fromarray(RGB), "WEBP", lossless=True)[:-20], f.PictureBroken),
    ],
)
def test_what_is_no_fit_picture_is_told_in_one_line(data, kind):
    with pytest.raises(DrawingFault) as caught:
        read_picture(data, "lemons.png")
    fault = caught.value
    assert type(fault) is kind
    assert fault.where == "lemons.png"
    assert fault.todo
    assert len(str(fault)) < 300


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "WEBP"])
def test_a_file_cut_anywhere_with_a_byte_changed_is_read_or_told(kind):
    rng = np.random.default_rng(4)
    whole = saved(Image.fromarray(RGB), kind)
    outcomes = set()
    for _ in range(200):
        data = bytearray(whole[: rng.integers(1, len(whole) + 1)])
        data[rng.integers(len(data))] = rng.integers(256)
        try:
            outcomes.add(read_picture(bytes(data), "x").pixels.dtype.name)
        except DrawingFault as fault:
            outcomes.add(fault.where)
    assert "x" in outcomes
    assert outcomes <= {"x", "uint8"}
