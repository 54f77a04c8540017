"""A picture that somebody brings keeps what is drawn, and nothing else."""

from __future__ import annotations

import base64
import io
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import fromstring

import pytest
from PIL import Image, PngImagePlugin

from boxwright.game import pictures
from boxwright.game.pictures import read_pictures
from boxwright.game.safe_pictures import safe_picture
from boxwright.problems import Problem

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
SECRET = b"taken at home"


def svg(inner: str, more: str = 'viewBox="0 0 9 9"') -> bytes:
    return f"{HEAD}{more}>{inner}</svg>".encode()


def saved(image: Image.Image, form: str, **more: Any) -> bytes:
    out = io.BytesIO()
    image.save(out, form, **more)
    return out.getvalue()


def safe(name: str, data: bytes) -> bytes:
    found = safe_picture(name, data)
    assert not isinstance(found, Problem), found.code
    assert safe_picture(name, found) == found
    return found


def fault(name: str, data: bytes) -> str:
    found = safe_picture(name, data)
    assert isinstance(found, Problem), found
    assert found.where.path == ("data",)
    return found.code


def opened(data: bytes) -> Image.Image:
    image = Image.open(io.BytesIO(data))
    image.load()
    return image


# Dots.


def test_a_png_keeps_its_dots_and_loses_its_notes() -> None:
    image = Image.effect_noise((20, 30), 50)
    notes = PngImagePlugin.PngInfo()
    notes.add_text("Comment", SECRET.decode())
    data = saved(image, "PNG", pnginfo=notes)
    assert SECRET in data
    after = safe("a.png", data)
    assert SECRET not in after
    assert opened(after).tobytes() == image.tobytes()


def test_a_photo_is_set_upright_and_loses_where_it_was_taken() -> None:
    image = Image.new("RGB", (40, 20), "white")
    image.paste((0, 0, 0), (0, 0, 20, 20))
    exif = image.getexif()
    exif[0x0112], exif[0x010E] = 6, SECRET.decode()
    data = saved(image, "JPEG", exif=exif, comment=SECRET)
    after = safe("a.jpg", data)
    assert SECRET not in after
    turned = opened(after).convert("L")
    assert turned.size == (20, 40)
    assert dict(opened(after).getexif()) == {}
    assert turned.getpixel((10, 5)) < 40 < 200 < turned.getpixel((10, 35))  # type: ignore[operator]


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGB", "RGBA", "I;16"])
def test_each_sort_of_png_stays_what_it_looks_like(mode: str) -> None:
    image = Image.linear_gradient("L").resize((16, 16)).convert("L")
    image = image.convert("RGB").convert(mode) if mode != "I;16" else Image.new(mode, (9, 9), 700)
    after = opened(safe("a.png", saved(image, "PNG")))
    assert after.convert("RGBA").tobytes() == image.convert("RGBA").tobytes()


def test_a_see_through_colour_stays_so() -> None:
    image = Image.new("RGB", (4, 4), (9, 8, 7))
    after = opened(safe("a.png", saved(image, "PNG", transparency=(9, 8, 7))))
    assert after.convert("RGBA").getpixel((0, 0)) == (9, 8, 7, 0)


@pytest.mark.parametrize("mode", ["L", "RGB", "CMYK"])
def test_a_photo_that_was_encoded_here_loses_no_more(mode: str) -> None:
    image = Image.effect_noise((70, 50), 90).convert(mode)
    for first in (saved(image, "JPEG", quality=40), saved(image, "JPEG", progressive=True)):
        after = safe("a.jpg", first)
        assert after != first
        assert safe("a.jpg", after) == after


def test_what_hides_in_a_photo_goes_wherever_it_hides() -> None:
    ours = safe("a.jpg", saved(Image.effect_noise((70, 50), 90), "JPEG"))
    note = b"\xff\xfe\x00\x0f" + SECRET
    hiding = (ours[:2] + note + ours[2:], ours[:-2] + note + ours[-2:], ours + SECRET)
    for data in hiding:
        assert SECRET not in safe("a.jpg", data)


def test_print_colours_become_screen_colours() -> None:
    after = opened(safe("a.jpeg", saved(Image.new("CMYK", (9, 9), (0, 255, 255, 0)), "JPEG")))
    assert after.mode == "RGB"


@pytest.mark.parametrize("name", ["a.png", "a.jpg"])
def test_what_is_no_picture_is_told(name: str) -> None:
    whole = saved(Image.effect_noise((50, 50), 50), "PNG" if name == "a.png" else "JPEG")
    assert fault(name, b"") == "picture.broken"
    assert fault(name, b"<script>") == "picture.broken"
    assert fault(name, whole[:-60]) == "picture.broken"
    assert fault(name, saved(Image.new("L", (9, 9)), "GIF")) == "picture.broken"
    assert fault("a.gif", whole) == "picture.no-picture"


def test_there_is_an_end_to_bytes_and_dots(monkeypatch: pytest.MonkeyPatch) -> None:
    assert fault("a.png", b"x" * 21_000_000) == "picture.too-heavy"
    huge = saved(Image.new("1", (20_000, 10_000)), "PNG")
    assert len(huge) < 100_000
    assert fault("a.png", huge) == "picture.too-many-pixels"
    monkeypatch.setattr(pictures, "MOST_PIXELS", 100)
    assert fault("a.png", saved(Image.new("1", (11, 10)), "PNG")) == "picture.too-many-pixels"


# Drawings.


def test_a_drawing_keeps_what_draws() -> None:
    after = safe(
        "a.svg",
        svg(
            '<linearGradient id="g"><stop offset="1" stop-color="red"/></linearGradient>'
            '<g transform="scale(2)" style="fill: url(#g); -inkscape-note: x; stroke:#000">'
            '<path d="M0 0L9 9"/></g><use xlink:href="#g"/><text x="1">ä<tspan>b</tspan>c</text>'
        ),
    ).decode()
    for kept in ('viewBox="0 0 9 9"', 'offset="1"', 'stop-color="red"', 'transform="scale(2)"',
                 'style="fill:url(#g);stroke:#000"', 'd="M0 0L9 9"', 'xlink:href="#g"',
                 ">ä<tspan>b</tspan>c</text>"):  # fmt: skip
        assert kept in after
    assert "inkscape" not in after


def test_notes_of_programs_are_left_out() -> None:
    after = safe(
        "a.svg",
        svg(
            '<metadata>taken at home</metadata><i:note xmlns:i="urn:i">taken at home</i:note>'
            "<text>a<filter>taken at home</filter>b</text><!-- taken at home -->"
            '<rect width="1" data-x="taken at home" i:x="taken at home" xmlns:i="urn:i"/>'
        ),
    )
    assert SECRET not in after
    assert b">ab</text>" in after
    assert fromstring(after).tag == "{http://www.w3.org/2000/svg}svg"


def test_a_picture_in_a_drawing_is_encoded_anew() -> None:
    notes = PngImagePlugin.PngInfo()
    notes.add_text("Comment", SECRET.decode())
    data = base64.b64encode(saved(Image.new("L", (9, 9)), "PNG", pnginfo=notes)).decode()
    after = safe("a.svg", svg(f'<image href="data:image/png;base64,{data}"/>')).decode()
    inner = base64.b64decode(after.partition("base64,")[2].partition('"')[0])
    assert SECRET not in inner
    assert opened(inner).size == (9, 9)
    assert fault("a.svg", svg('<image href="data:image/png;base64,AAAA"/>')) == "picture.broken"


@pytest.mark.parametrize(
    "inner",
    [
        "<script>1</script>",
        "<foreignObject/>",
        '<rect onclick="x()"/>',
        '<a xlink:href="https://x.example"><rect/></a>',
        '<image href="https://x.example/a.png"/>',
        '<image href="data:image/svg+xml;base64,AAAA"/>',
        '<use href="other.svg#a"/>',
        '<use href="data:image/png;base64,AAAA"/>',
        '<rect style="fill: url(https://x.example/)"/>',
        '<rect style="fill: u\\72l(https://x.example/)"/>',
        "<rect fill=\"url('//x.example')\"/>",
        '<rect mask="url(file:///x)"/>',
        "<style>@import 'x'</style>",
        "<style>@font-face { src: x }</style>",
        "<style>rect { fill: \\75rl(x) }</style>",
        "<animate/>",
        '<set attributeName="href"/>',
    ],
)
def test_what_acts_or_leads_out_is_refused(inner: str) -> None:
    assert fault("a.svg", svg(inner)) == "picture.svg-unsafe"


def test_a_small_drawing_that_never_ends_is_refused() -> None:
    ring = '<g id="a"><use href="#b"/></g><g id="b"><use href="#a"/></g>'
    assert fault("a.svg", svg(ring)) == "picture.too-many-shapes"
    bomb = '<g id="x0"><rect/></g>' + "".join(
        f'<g id="x{n + 1}">' + f'<use href="#x{n}"/>' * 10 + "</g>" for n in range(8)
    )
    assert fault("a.svg", svg(bomb)) == "picture.too-many-shapes"
    fine = '<g id="x0"><rect/></g>' + '<use href="#x0"/>' * 100
    assert safe("a.svg", svg(fine)).count(b"<use") == 100
    deep = "<g>" * 5000 + "</g>" * 5000
    assert fault("a.svg", svg(deep)) in ("picture.too-many-shapes", "picture.broken")


def test_entities_are_refused() -> None:
    data = b'<!DOCTYPE svg [<!ENTITY a "x">]>' + svg("<text>&a;</text>")
    assert fault("a.svg", data) == "picture.svg-entity"


def test_what_comes_out_can_be_used(tmp_path: Path) -> None:
    (tmp_path / "pictures").mkdir()
    pixels = saved(Image.new("RGB", (9, 9)), "PNG")
    drawing = svg("<style>rect { fill: red }</style><rect/>")
    for name, data in (("a.png", pixels), ("b.svg", drawing)):
        (tmp_path / "pictures" / name).write_bytes(safe(name, data))
    found, problems = read_pictures(tmp_path)
    assert (set(found), problems) == ({"a.png", "b.svg"}, [])
