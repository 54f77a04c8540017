"""Pictures are printed only where they are whole, small enough, and do nothing."""

from __future__ import annotations

import struct
import zlib
from pathlib import Path

import pytest
from PIL import Image

from boxwright.game import pictures
from boxwright.game.folder import Folder, read_game
from boxwright.game.pictures import read_pictures

SVG = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink">{}</svg>'


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "pictures").mkdir()
    return tmp_path


def codes(folder: Path) -> list[str]:
    return [one.code for one in read_pictures(folder)[1]]


def write_svg(folder: Path, inside: str) -> None:
    (folder / "pictures" / "a.svg").write_text(SVG.format(inside), encoding="utf-8")


@pytest.mark.parametrize(
    ("name", "sort"), [("a.png", "png"), ("b.JPG", "jpeg"), ("c.jpeg", "jpeg")]
)
def test_a_sound_picture_is_found_by_its_name(folder: Path, name: str, sort: str) -> None:
    Image.new("RGB", (4, 3)).save(folder / "pictures" / name, sort)
    found, problems = read_pictures(folder)
    assert problems == []
    assert found[name].format == sort


@pytest.mark.parametrize(
    "inside",
    [
        '<path d="M0 0h9" fill="url(#g)"/>',
        '<defs><linearGradient id="g"/></defs><use xlink:href="#g"/>',
        "<style>.a { fill: red }</style><text>onload = url, =1+1</text>",
        '<image href="data:image/png;base64,iVBORw0KGgo="/>',
        "<title>{}</title>",
    ],
)
def test_a_plain_drawing_is_found(folder: Path, inside: str) -> None:
    write_svg(folder, inside.replace("{}", "x"))
    assert codes(folder) == []


@pytest.mark.parametrize(
    "inside",
    [
        "<script>alert(1)</script>",
        "<SCRIPT/>",
        '<g onload="x()"/>',
        '<g ONCLICK="x()"/>',
        "<foreignObject/>",
        '<a href="https://example.org"/>',
        '<image xlink:href="file:///a.png"/>',
        '<image href="b.png"/>',
        '<image href="data:image/svg+xml;base64,AAAA"/>',
        '<a href="javascript:x()"/>',
        '<path fill="url(https://example.org/a.svg#b)"/>',
        '<path style="fill: url( other.svg#b )"/>',
        "<style>@import 'a.css';</style>",
        "<style>g { background: url(a.png) }</style>",
        '<animate attributeName="href"/>',
        '<set attributeName="onload" to="x()"/>',
    ],
)
def test_a_drawing_that_acts_or_reaches_out_is_refused(folder: Path, inside: str) -> None:
    write_svg(folder, inside)
    assert codes(folder) == ["picture.svg-unsafe"]


@pytest.mark.parametrize(
    "text",
    [
        '<!DOCTYPE svg [<!ENTITY a "b">]>' + SVG.format("&a;"),
        '<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///a">]>' + SVG.format("&a;"),
        '<!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]>' + SVG.format("&b;"),
    ],
)
def test_a_drawing_with_entities_is_refused(folder: Path, text: str) -> None:
    (folder / "pictures" / "a.svg").write_text(text)
    assert codes(folder) == ["picture.svg-entity"]


def test_the_usual_document_type_is_no_fault(folder: Path) -> None:
    kind = '<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/svg11.dtd">'
    (folder / "pictures" / "a.svg").write_text(kind + SVG.format("<g/>"))
    assert codes(folder) == []


def test_a_style_sheet_from_elsewhere_is_refused(folder: Path) -> None:
    start = '<?xml-stylesheet href="https://example.org/a.css"?>'
    (folder / "pictures" / "a.svg").write_text(start + SVG.format("<g/>"))
    assert codes(folder) == ["picture.svg-unsafe"]


@pytest.mark.parametrize("text", ["", "<svg", "plain", "<html/>", "\x00\x01", "<svg>&nbsp;</svg>"])
def test_a_broken_drawing_is_told(folder: Path, text: str) -> None:
    (folder / "pictures" / "a.svg").write_text(text)
    assert codes(folder) == ["picture.broken"]


def test_a_drawing_of_very_many_shapes_is_refused(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(pictures, "MOST_ELEMENTS", 10)
    write_svg(folder, "<g/>" * 11)
    assert codes(folder) == ["picture.too-many-shapes"]


@pytest.mark.parametrize("data", [b"", b"\x89PNG\r\n\x1a\n", b"GIF89a", b"\xff\xd8\xff", b"text"])
@pytest.mark.parametrize("name", ["a.png", "a.jpg"])
def test_a_broken_picture_is_told(folder: Path, name: str, data: bytes) -> None:
    (folder / "pictures" / name).write_bytes(data)
    assert codes(folder) == ["picture.broken"]


def test_a_picture_cut_short_is_told(folder: Path) -> None:
    path = folder / "pictures" / "a.png"
    Image.effect_noise((64, 64), 50).save(path)
    path.write_bytes(path.read_bytes()[:-400])
    assert codes(folder) == ["picture.broken"]


def test_one_format_under_the_name_of_another_is_told(folder: Path) -> None:
    Image.new("RGB", (4, 3)).save(folder / "pictures" / "a.png", "jpeg")
    assert codes(folder) == ["picture.broken"]


@pytest.mark.parametrize("side", [6_400, 60_000])
def test_a_picture_of_very_many_dots_is_refused_before_it_fills_the_memory(
    folder: Path, side: int
) -> None:
    def chunk(kind: bytes, data: bytes) -> bytes:
        check = struct.pack(">I", zlib.crc32(kind + data))
        return struct.pack(">I", len(data)) + kind + data + check

    head = struct.pack(">IIBBBBB", side, side, 8, 0, 0, 0, 0)
    data = b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", b"") + chunk(b"IEND", b"")
    (folder / "pictures" / "a.png").write_bytes(data)
    assert codes(folder) == ["picture.too-many-pixels"]


def test_a_very_heavy_file_is_refused(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pictures, "MOST_BYTES", 10)
    Image.new("RGB", (4, 3)).save(folder / "pictures" / "a.png")
    assert codes(folder) == ["picture.too-heavy"]


def test_another_format_is_told(folder: Path) -> None:
    (folder / "pictures" / "photo.heic").write_bytes(b"x")
    assert codes(folder) == ["picture.no-picture"]


@pytest.mark.parametrize("name", [".hidden", "README.md", "Thumbs.db", "credits.txt"])
def test_what_only_lies_beside_is_passed_over(folder: Path, name: str) -> None:
    (folder / "pictures" / name).write_text("x")
    assert read_pictures(folder) == ({}, [])


def test_a_picture_that_links_out_of_the_folder_is_refused(folder: Path, tmp_path: Path) -> None:
    Image.new("RGB", (4, 3)).save(tmp_path / "secret.png")
    (folder / "pictures" / "a.png").symlink_to(tmp_path / "secret.png")
    assert codes(folder) == ["folder.outside"]


def test_faults_of_pictures_come_with_those_of_the_game(sample: Path) -> None:
    (sample / "pictures" / "a.png").write_bytes(b"")
    outcome = read_game(sample)
    assert not isinstance(outcome, Folder)
    assert [(one.code, one.where.file) for one in outcome] == [("picture.broken", "pictures/a.png")]
