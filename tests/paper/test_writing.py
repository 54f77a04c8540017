"""Files that belong together are all written, or the folder stays as it was."""

from __future__ import annotations

import errno
from pathlib import Path

import pytest

from boxwright.paper.writing import write_together
from boxwright.problems import Refused


def held(folder: Path) -> dict[str, bytes]:
    """Return what the files of a folder hold, hidden ones too."""
    return {one.name: one.read_bytes() for one in folder.iterdir() if one.is_file()}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    write_together(tmp_path / "out", {"a.pdf": b"old a", "b.pdf": b"old b", "c.pdf": b"old c"})
    return tmp_path / "out"


def test_a_missing_folder_is_made_with_all_above_it(tmp_path: Path) -> None:
    write_together(tmp_path / "x" / "y", {"a.pdf": b"a"})
    assert held(tmp_path / "x" / "y") == {"a.pdf": b"a"}


def test_nothing_but_the_files_is_left_behind(folder: Path) -> None:
    write_together(folder, {"a.pdf": b"new a"}, ["c.pdf", "never-there.pdf"])
    assert held(folder) == {"a.pdf": b"new a", "b.pdf": b"old b"}
    assert {one.name for one in folder.iterdir()} == {"a.pdf", "b.pdf"}


def test_a_folder_in_the_place_of_a_file_leaves_all_as_it_was(folder: Path) -> None:
    (folder / "b.pdf").unlink()
    (folder / "b.pdf").mkdir()
    with pytest.raises(Refused) as refused:
        write_together(folder, {"a.pdf": b"new a", "b.pdf": b"new b"}, ["c.pdf"])
    (problem,) = refused.value.problems
    assert problem.code == "printout.unwritable"
    assert problem.where.file == str(folder / "b.pdf")
    assert held(folder) == {"a.pdf": b"old a", "c.pdf": b"old c"}
    assert {one.name for one in folder.iterdir()} == {"a.pdf", "b.pdf", "c.pdf"}


@pytest.mark.parametrize("stuck", ["a.pdf", "b.pdf", "c.pdf"])
def test_a_file_that_another_program_holds_leaves_all_as_it_was(
    folder: Path, monkeypatch: pytest.MonkeyPatch, stuck: str
) -> None:
    replace = Path.replace

    def held_fast(self: Path, target: Path) -> Path:
        if self == folder / stuck:
            raise PermissionError(errno.EACCES, "Permission denied", str(self), None, str(target))
        return replace(self, target)

    monkeypatch.setattr(Path, "replace", held_fast)
    with pytest.raises(Refused) as refused:
        write_together(folder, {"a.pdf": b"new a", "b.pdf": b"new b"}, ["c.pdf"])
    assert refused.value.problems[0].where.file == str(folder / stuck)
    assert held(folder) == {"a.pdf": b"old a", "b.pdf": b"old b", "c.pdf": b"old c"}


def test_a_full_disk_leaves_all_as_it_was(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write = Path.write_bytes

    def full(self: Path, data: bytes) -> int:
        if self.name == "b.pdf":
            raise OSError(errno.ENOSPC, "No space left on device", str(self))
        return write(self, data)

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(Refused) as refused:
        write_together(folder, {"a.pdf": b"new a", "b.pdf": b"new b"})
    assert refused.value.problems[0].where.file == str(folder / "b.pdf")
    assert held(folder) == {"a.pdf": b"old a", "b.pdf": b"old b", "c.pdf": b"old c"}


def test_a_file_in_the_place_of_the_folder_is_told(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("mine", encoding="utf-8")
    with pytest.raises(Refused) as refused:
        write_together(tmp_path / "out", {"a.pdf": b"a"})
    assert refused.value.problems[0].code == "printout.no-folder"
    assert (tmp_path / "out").read_text(encoding="utf-8") == "mine"


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("mine", encoding="utf-8")
    with pytest.raises(Refused) as refused:
        write_together(tmp_path / "file" / "out", {"a.pdf": b"a"})
    assert refused.value.problems[0].where.file.startswith(str(tmp_path / "file"))


def test_a_folder_that_may_not_be_written_is_told_by_its_own_name(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def barred(path: str, *_: object) -> None:
        raise PermissionError(errno.EACCES, "Permission denied", path)

    monkeypatch.setattr("tempfile._os.mkdir", barred)
    with pytest.raises(Refused) as refused:
        write_together(folder, {"a.pdf": b"new a"})
    assert refused.value.problems[0].where.file == str(folder)
    assert held(folder) == {"a.pdf": b"old a", "b.pdf": b"old b", "c.pdf": b"old c"}
