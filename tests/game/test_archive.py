"""A game packed and taken in is the same game; what a zip must not do, it does not do."""

from __future__ import annotations

import io
import stat
import struct
import zipfile
from collections.abc import Mapping
from pathlib import Path

import pytest
from PIL import Image, PngImagePlugin

from boxwright.game import archive
from boxwright.game.archive import Taken, pack, unpack
from boxwright.game.owned import manifest, tag_of
from boxwright.game.safe_pictures import encode_anew

GAME = b'format = 1\n[game]\nid = "lamp"\ntitle = "The lamp"\nages = [9, 11]\n'
SVG = b"<svg xmlns='http://www.w3.org/2000/svg'/>"


def zipped(files: Mapping[str, bytes], **about: int) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as file:
        for name, data in files.items():
            info = zipfile.ZipInfo(name)
            info.filename = name
            info.external_attr = about.get("mode", stat.S_IFREG | 0o644) << 16
            info.compress_type = zipfile.ZIP_DEFLATED
            file.writestr(info, data)
    return out.getvalue()


def taken(data: bytes, into: Path) -> Taken:
    found = unpack(data, into, "game.zip")
    assert isinstance(found, Taken), [one.code for one in found]
    return found


def refused(data: bytes, into: Path) -> str:
    """Return why a zip is not taken in; nothing is there that was not."""
    (into / "mine").mkdir(parents=True, exist_ok=True)
    around = sorted(into.parent.rglob("*"))
    found = unpack(data, into, "game.zip")
    assert not isinstance(found, Taken)
    assert sorted(into.parent.rglob("*")) == around
    assert found[0].where.file == "game.zip"
    return found[0].code


def add_pictures(folder: Path) -> None:
    """Put pictures of each sort into a game, as the studio takes them in."""
    dots = Image.effect_noise((60, 40), 80)
    for name in ("a.png", "b.jpg"):
        dots.save(folder / "pictures" / name)
    (folder / "pictures/c.svg").write_bytes(SVG)
    assert encode_anew(folder) == ()


def test_a_game_goes_out_and_comes_in_as_it_was(sample: Path, tmp_path: Path) -> None:
    (sample / "content/deep").mkdir()
    (sample / "content/deep/a.csv").write_bytes(b"a,b\n")
    add_pictures(sample)
    found = taken(pack(sample), tmp_path / "games")
    assert found == Taken("paper-mill", ())
    assert manifest(tmp_path / "games/paper-mill") == manifest(sample)
    assert tag_of(tmp_path / "games/paper-mill") == tag_of(sample)


def test_pictures_lose_what_does_not_draw(tmp_path: Path) -> None:
    notes = PngImagePlugin.PngInfo()
    notes.add_text("Comment", "taken at home")
    out = io.BytesIO()
    Image.new("L", (9, 9)).save(out, "PNG", pnginfo=notes)
    drawing = SVG.replace(b"/>", b"><!-- taken at home --></svg>")
    pictures = {"pictures/a.png": out.getvalue(), "pictures/deep/b.svg": drawing}
    taken(zipped({"game.toml": GAME, "pictures/note.txt": b"x", **pictures}), tmp_path)
    for name, before in pictures.items():
        assert b"taken at home" in before
        assert b"taken at home" not in (tmp_path / "lamp" / name).read_bytes()
    assert (tmp_path / "lamp/pictures/note.txt").read_bytes() == b"x"


def test_a_bad_picture_bars_the_way_under_its_name(tmp_path: Path) -> None:
    acts = SVG.replace(b"/>", b"><script/></svg>")
    bad = {"pictures/a.svg": acts, "pictures/b.png": b"no", "pictures/c.gif": b"GIF"}
    found = unpack(zipped({"game.toml": GAME, "pictures/d.svg": SVG, **bad}), tmp_path)
    assert not isinstance(found, Taken)
    codes = ["picture.svg-unsafe", "picture.broken", "picture.no-picture"]
    assert [(one.where.file, one.code) for one in found] == [*zip(bad, codes, strict=True)]
    assert [*tmp_path.iterdir()] == []


def test_the_same_game_gives_the_same_bytes(sample: Path, tmp_path: Path) -> None:
    data = pack(sample)
    taken(data, tmp_path / "games")
    assert pack(tmp_path / "games/paper-mill") == data


def test_only_the_games_own_files_go_out(sample: Path) -> None:
    for name in ("editions/x.json", "out/x.pdf", ".history/log.jsonl", "notes.txt"):
        (sample / name).parent.mkdir(exist_ok=True)
        (sample / name).write_bytes(b"x")
    with zipfile.ZipFile(io.BytesIO(pack(sample))) as file:
        assert set(file.namelist()) == set(manifest(sample))


def test_only_the_games_own_files_come_in(tmp_path: Path) -> None:
    more = {"editions/current.json": b"x", "x.sh": b"x", ".hidden/x": b"x", "content/.x": b"x"}
    taken(zipped({"game.toml": GAME, "content/a.csv": b"a", **more}), tmp_path)
    names = {one.relative_to(tmp_path).as_posix() for one in tmp_path.rglob("*") if one.is_file()}
    assert names == {"lamp/game.toml", "lamp/content/a.csv"}


def test_the_game_may_lie_in_one_folder_of_the_zip(tmp_path: Path) -> None:
    files = {"My game/game.toml": GAME, "My game/content/a.csv": b"a", "__MACOSX/._x": b"x"}
    assert taken(zipped(files), tmp_path).name == "lamp"
    assert (tmp_path / "lamp/content/a.csv").read_bytes() == b"a"


def test_a_second_game_of_that_name_gets_a_number(tmp_path: Path) -> None:
    data = zipped({"game.toml": GAME})
    assert [taken(data, tmp_path).name for _ in range(3)] == ["lamp", "lamp-2", "lamp-3"]


@pytest.mark.parametrize("id", ["../x", "con", "a/b", "", "table"])
def test_an_odd_id_names_no_odd_folder(tmp_path: Path, id: str) -> None:
    name = taken(zipped({"game.toml": GAME.replace(b"lamp", id.encode(), 1)}), tmp_path).name
    assert [one.name for one in tmp_path.iterdir()] == [name]
    assert name not in (id, "con")


def test_a_game_with_faults_is_taken_in_and_they_are_told(tmp_path: Path) -> None:
    found = taken(zipped({"game.toml": GAME.replace(b"[9, 11]", b"[11, 9]")}), tmp_path)
    assert [one.code for one in found.faults] == ["game.range-order"]
    found = taken(zipped({"Lamps/game.toml": b"= no toml"}), tmp_path)
    assert found.name == "lamps"
    assert found.faults


@pytest.mark.parametrize(
    "name",
    ["../x.csv", "content/../../x.csv", "/x.csv", "C:/x.csv", "content/C:x.csv", "c\\x.csv",
     "..\\x.csv", "content//x.csv", "content/con", "content/NUL.csv", "content/aux .csv",
     "content/x.csv.", "content/x.csv ", "content/a\x01b", "content/a?", "./x.csv", "con/x",
     "content/.. /x", "content/" + "x" * 200],
)  # fmt: skip
def test_names_that_lead_elsewhere_are_refused(tmp_path: Path, name: str) -> None:
    data = zipped({"game.toml": GAME, name: b"x"})
    assert refused(data, tmp_path / "games") == "archive.name"


def test_a_name_with_a_nought_in_it_is_refused(tmp_path: Path) -> None:
    data = zipped({"game.toml": GAME, "content/a.csvX.exe": b"x"})
    assert refused(data.replace(b"a.csvX.exe", b"a.csv\0.exe"), tmp_path / "g") == "archive.name"


@pytest.mark.parametrize(
    ("one", "two"), [("a.csv", "A.csv"), ("ä.csv", "a\u0308.csv"), ("ß.csv", "SS.csv")]
)
def test_names_that_are_one_somewhere_are_refused(tmp_path: Path, one: str, two: str) -> None:
    data = zipped({"game.toml": GAME, f"content/{one}": b"x", f"content/{two}": b"y"})
    assert refused(data, tmp_path / "games") == "archive.twice"


@pytest.mark.parametrize("mode", [stat.S_IFLNK, stat.S_IFIFO, stat.S_IFCHR, stat.S_IFBLK])
def test_links_and_devices_are_refused(tmp_path: Path, mode: int) -> None:
    data = zipped({"game.toml": GAME, "content/x.csv": b"/etc/passwd"}, mode=mode | 0o777)
    assert refused(data, tmp_path / "games") == "archive.link"


def test_a_password_is_told(tmp_path: Path) -> None:
    data = bytearray(zipped({"game.toml": GAME}))
    for sign, at in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        data[data.index(sign) + at] |= 1
    assert refused(bytes(data), tmp_path / "games") == "archive.encrypted"


def test_there_is_an_end_to_size_and_number(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    bomb = zipped({"game.toml": GAME, "content/x.csv": b"\0" * 5_000_000})
    assert refused(bomb, tmp_path / "games") == "archive.bomb"
    many = zipped({"game.toml": GAME} | {f"content/{n}.csv": b"" for n in range(500)})
    assert refused(many, tmp_path / "games") == "archive.too-many"
    monkeypatch.setattr(archive, "MOST_UNPACKED", 1000)
    large = zipped({"game.toml": GAME, "content/x.csv": bytes(range(256)) * 4})
    assert refused(large, tmp_path / "games") == "archive.too-much"
    monkeypatch.setattr(archive, "MOST_BYTES", 100)
    assert refused(large, tmp_path / "games") == "archive.too-large"


def test_a_file_gives_no_more_than_its_entry_says(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(archive, "MOST_UNPACKED", 1000)
    data = bytearray(zipped({"game.toml": GAME, "content/x.csv": bytes(range(256)) * 40}))
    size = struct.pack("<L", 256 * 40)
    assert data.count(size) == 2
    data = bytearray(bytes(data).replace(size, struct.pack("<L", 10)))
    assert refused(bytes(data), tmp_path / "games") == "archive.broken"


@pytest.mark.parametrize(
    "files",
    [{}, {"kit.toml": b""}, {"a/b/game.toml": GAME}, {"a/game.toml": GAME, "b/game.toml": GAME}],
)
def test_without_a_game_there_is_nothing_to_take_in(
    tmp_path: Path, files: dict[str, bytes]
) -> None:
    assert refused(zipped(files), tmp_path / "games") == "archive.no-game"


def test_what_is_no_zip_is_told(tmp_path: Path) -> None:
    whole = zipped({"game.toml": GAME, "content/x.csv": bytes(range(256))})
    at = whole.index(b"content/x.csv") + 30
    spoilt = whole[:at] + b"xxxx" + whole[at + 4 :]
    for data in (b"", b"PK", b"<html>", whole[:-30], spoilt):
        assert refused(data, tmp_path / "games") == "archive.broken"


def test_bytes_that_cannot_be_unpacked_are_told(tmp_path: Path) -> None:
    """Each byte of the packed part in turn: some stop the unpacking, some spoil its sum."""
    whole = zipped({"game.toml": GAME, "content/x.csv": bytes(range(256))})
    start = whole.index(b"content/x.csv") + len("content/x.csv")
    for at in range(start, start + 40):
        spoilt = whole[:at] + bytes([whole[at] ^ 0xFF]) + whole[at + 1 :]
        assert refused(spoilt, tmp_path / "games") == "archive.broken"


def test_a_file_in_the_way_of_a_folder_changes_nothing(tmp_path: Path) -> None:
    data = zipped({"game.toml": GAME, "content/a": b"x", "content/a/b.csv": b"y"})
    assert refused(data, tmp_path / "games") == "edit.unwritable"
