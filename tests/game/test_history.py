"""Every change can be taken back and made again, whoever made it and whatever happened between."""

from __future__ import annotations

import subprocess
import sys
import textwrap
from collections.abc import Mapping
from pathlib import Path

import pytest

from boxwright.game import history_store
from boxwright.game.history import History, Moment, tag_of
from boxwright.game.owned import manifest
from boxwright.problems import Message, Refused, say

GAME = "game.toml"
WHAT = say("history.nothing", name="a change", parts=("one", say("history.lost", names=("x",))))


def files(folder: Path) -> dict[str, bytes]:
    return {name: (folder / name).read_bytes() for name in manifest(folder)}


def refused(moment: object) -> str:
    assert callable(moment)
    with pytest.raises(Refused) as caught:
        moment()
    return caught.value.problems[0].code


def change(history: History, data: bytes, name: str = GAME) -> Moment:
    return history.change(history.now().tag, WHAT, {name: data})


def test_a_change_is_written_undone_and_redone(sample: Path) -> None:
    history, before = History(sample), files(sample)
    first = history.now()
    assert (first.undo, first.redo) == (None, None)
    second = history.change(first.tag, WHAT, {GAME: b"x = 1\n", "content/new.csv": b"a\n"})
    after = files(sample)
    assert after == {**before, GAME: b"x = 1\n", "content/new.csv": b"a\n"}
    assert (second.undo, second.redo) == (WHAT, None)
    third = history.undo(second.tag)
    assert files(sample) == before
    assert third == Moment(first.tag, None, WHAT)
    assert history.redo(third.tag) == second
    assert files(sample) == after


def test_a_removed_file_comes_back(sample: Path) -> None:
    history, before = History(sample), files(sample)
    moment = history.change(history.now().tag, WHAT, {"content/crew.csv": None})
    assert not (sample / "content/crew.csv").exists()
    history.undo(moment.tag)
    assert files(sample) == before


def test_it_outlasts_the_process(sample: Path) -> None:
    before = files(sample)
    change(History(sample), b"x = 1\n")
    moment = History(sample).now()
    assert moment.undo == WHAT
    History(sample).undo(moment.tag)
    assert files(sample) == before


def test_the_tag_follows_from_the_files_alone(sample: Path) -> None:
    history = History(sample)
    first = tag_of(sample)
    assert history.now().tag == first
    assert change(history, b"x = 1\n").tag == tag_of(sample) != first
    (sample / "out").mkdir()
    (sample / "out/sheet.pdf").write_bytes(b"x")
    (sample / "editions").mkdir()
    (sample / "editions/current.json").write_bytes(b"x")
    assert history.now().tag == tag_of(sample) != first


def test_a_change_for_another_state_is_refused(sample: Path) -> None:
    history = History(sample)
    old = history.now().tag
    change(history, b"x = 1\n")
    before = files(sample)
    assert refused(lambda: history.change(old, WHAT, {GAME: b"y"})) == "edit.changed-meanwhile"
    assert refused(lambda: history.undo(old)) == "edit.changed-meanwhile"
    assert files(sample) == before


def test_a_change_that_nobody_here_has_seen_is_not_written_over(sample: Path) -> None:
    history = History(sample)
    tag = history.now().tag
    (sample / GAME).write_bytes(b"theirs = 1\n")
    assert refused(lambda: history.change(tag, WHAT, {GAME: b"y"})) == "edit.changed-meanwhile"
    assert (sample / GAME).read_bytes() == b"theirs = 1\n"


def test_what_an_editor_changed_can_be_undone_and_redone(sample: Path) -> None:
    history, before = History(sample), files(sample)
    history.now()
    (sample / GAME).write_bytes(b"= no toml [\n")
    (sample / "content/crew.csv").unlink()
    (sample / "content/more.csv").write_bytes(b"a,b\n")
    outside = files(sample)
    moment = history.now()
    assert moment.undo is not None
    assert moment.undo.id == "history.outside"
    names = moment.undo.args["names"]
    assert isinstance(names, tuple)
    assert set(names) == {GAME, "content/crew.csv", "content/more.csv"}
    moment = history.undo(moment.tag)
    assert files(sample) == before
    history.redo(moment.tag)
    assert files(sample) == outside


def test_what_changed_while_nothing_ran_is_noticed(sample: Path) -> None:
    change(History(sample), b"x = 1\n")
    (sample / GAME).write_bytes(b"x = 2\n")
    history = History(sample)
    history.undo(history.now().tag)
    assert (sample / GAME).read_bytes() == b"x = 1\n"
    history.undo(history.now().tag)
    assert (sample / GAME).read_bytes() != b"x = 1\n"


def test_a_change_after_undo_drops_what_could_be_redone(sample: Path) -> None:
    history = History(sample)
    moment = history.undo(change(history, b"x = 1\n").tag)
    assert moment.redo is not None
    assert change(history, b"x = 2\n").redo is None
    assert refused(lambda: history.redo(history.now().tag)) == "history.nothing"


def test_there_is_an_end_to_undoing(sample: Path) -> None:
    history = History(sample)
    assert refused(lambda: history.undo(history.now().tag)) == "history.nothing"


def test_what_changes_nothing_is_no_change(sample: Path) -> None:
    history = History(sample)
    assert change(history, (sample / GAME).read_bytes()).undo is None


@pytest.mark.parametrize(
    "name", ["../x", "out/x", "x.toml", "content", "content/../x", "content/.x", "/x", "editions/x"]
)
def test_no_other_file_is_written(sample: Path, name: str) -> None:
    history = History(sample)
    with pytest.raises(ValueError, match="no files of a game"):
        change(history, b"x", name)


def test_a_folder_that_is_a_link_is_not_written_through(sample: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (sample / "pictures").rmdir()
    (sample / "pictures").symlink_to(tmp_path / "elsewhere")
    assert refused(lambda: change(History(sample), b"x", "pictures/a.png")) == "edit.unwritable"
    assert list((tmp_path / "elsewhere").iterdir()) == []


# What is cut short.

CUT = """
    import os, sys
    from pathlib import Path
    from boxwright.game.history import History
    from boxwright.problems import say

    left, whole = [int(sys.argv[2])], {name}
    def dies(*args, **more):
        left[0] -= 1
        if left[0] < 0:
            os._exit(9)
        return whole(*args, **more)
    history = History(Path(sys.argv[1]))
    tag = history.now().tag
    if sys.argv[3] == "undo":
        tag = history.change(tag, say("x.y"), {files})
    {name} = dies
    history.{do}
"""
FILES = '{"game.toml": b"x = 1", "content/crew.csv": None, "content/a.csv": b"a", "kit.toml": b"k"}'


def cut(folder: Path, what: str, name: str, steps: int) -> int:
    do = "undo(tag.tag)" if what == "undo" else f"change(tag, say('x.y'), {FILES})"
    code = textwrap.dedent(CUT).replace("{name}", name).replace("{files}", FILES)
    command = [sys.executable, "-c", code.replace("{do}", do), str(folder), str(steps), what]
    return subprocess.run(command, check=False).returncode


@pytest.mark.parametrize("name", ["os.fsync", "os.replace"])
@pytest.mark.parametrize("what", ["change", "undo"])
def test_a_process_that_dies_in_between_changes_all_or_nothing(
    sample: Path, tmp_path: Path, what: str, name: str
) -> None:
    before = files(sample)
    died = 0
    for steps in range(40):
        code = cut(sample, what, name, steps)
        history = History(sample)
        moment = history.now()
        if code == 0:
            break
        died += 1
        while moment.undo is not None:
            assert moment.undo.id == "x.y"
            moment = history.undo(moment.tag)
        assert files(sample) == before
        assert not [one.name for one in sample.rglob(".*.*") if ".history" not in one.parts]
    else:
        pytest.fail("it never came to its end")
    assert died >= 3


def test_a_file_changed_after_the_end_of_the_process_is_left_as_it_is(sample: Path) -> None:
    before = files(sample)
    steps = next(n for n in range(20) if cut_in_the_middle(sample, n, before))
    assert steps
    (sample / "content/a.csv").write_bytes(b"theirs")
    moment = History(sample).now()
    assert (sample / "content/a.csv").read_bytes() == b"theirs"
    assert {**files(sample), "content/a.csv": b""} == {**before, "content/a.csv": b""}
    assert moment.undo is not None
    assert moment.undo.id == "history.outside"


def cut_in_the_middle(folder: Path, steps: int, before: Mapping[str, bytes]) -> bool:
    """Whether a change that dies after so many steps leaves some files changed, others not."""
    cut(folder, "change", "os.fsync", steps)
    if files(folder).get(GAME) == b"x = 1" != files(folder).get("kit.toml"):
        return True
    History(folder).now()
    return False


def test_a_line_cut_short_is_taken_off(sample: Path) -> None:
    history = History(sample)
    change(history, b"x = 1\n")
    log = sample / ".history/log.jsonl"
    whole = log.read_bytes()
    log.write_bytes(whole + b'{"do":"cha')
    moment = History(sample).now()
    assert moment.undo == WHAT
    assert log.read_bytes() == whole
    assert change(History(sample), b"x = 2\n").undo == WHAT


def test_a_log_that_makes_no_sense_is_put_aside(sample: Path) -> None:
    change(History(sample), b"x = 1\n")
    log = sample / ".history/log.jsonl"
    log.write_bytes(b"nonsense\n" + log.read_bytes())
    assert History(sample).now().undo is None
    assert (sample / ".history/log.spoilt.jsonl").read_bytes().startswith(b"nonsense")
    assert change(History(sample), b"x = 2\n").undo == WHAT


def test_bytes_that_are_gone_are_told(sample: Path) -> None:
    history = History(sample)
    moment = change(history, b"x = 1\n")
    for one in (sample / ".history/blobs").iterdir():
        one.unlink()
    assert refused(lambda: history.undo(moment.tag)) == "history.lost"
    assert (sample / GAME).read_bytes() == b"x = 1\n"


def test_a_disk_that_fails_half_way_leaves_all_as_it_was(
    sample: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    history, before = History(sample), files(sample)
    tag = history.now().tag
    with monkeypatch.context() as patch:
        real = history_store.Store.bytes_of

        def fails(self: history_store.Store, digest: str) -> bytes:
            data = real(self, digest)
            if data == b"k":
                raise OSError(28, "No space left on device")
            return data

        patch.setattr(history_store.Store, "bytes_of", fails)
        new: Mapping[str, bytes | None] = {GAME: b"x", "content/crew.csv": None, "kit.toml": b"k"}
        assert refused(lambda: history.change(tag, WHAT, new)) == "edit.unwritable"
    assert files(sample) == before
    assert history.now() == Moment(tag, None, None)


# Room.


def test_the_oldest_entries_go_where_there_are_too_many(
    sample: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(history_store, "MOST_ENTRIES", 3)
    history = History(sample)
    for number in range(6):
        change(history, b"x = %d\n" % number)
    for _ in range(3):
        history.undo(history.now().tag)
    assert (sample / GAME).read_bytes() == b"x = 2\n"
    assert history.now().undo is None
    again = History(sample)
    assert again.redo(again.now().tag).undo == WHAT
    assert (sample / GAME).read_bytes() == b"x = 3\n"


def test_old_bytes_go_where_they_are_too_many(
    sample: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(history_store, "MOST_BYTES", 10_000)
    history = History(sample)
    for number in range(6):
        change(history, bytes([number]) * 4000, "content/a.csv")
    kept = [one.stat().st_size for one in (sample / ".history/blobs").iterdir()]
    assert kept.count(4000) == 3
    assert history.now().undo == WHAT


def test_a_log_of_many_undos_is_shortened_and_means_the_same(
    sample: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(history_store, "MOST_LINES", 20)
    history = History(sample)
    moment = change(history, b"x = 1\n")
    moment = change(history, b"x = 2\n")
    for _ in range(20):
        moment = history.redo(history.undo(moment.tag).tag)
    moment = history.undo(moment.tag)
    assert (sample / ".history/log.jsonl").read_bytes().count(b"\n") <= 24
    assert History(sample).now() == moment
    assert moment.undo == moment.redo == WHAT


def test_two_at_once_do_not_mix(sample: Path) -> None:
    one, two = History(sample), History(sample)
    tag = two.now().tag
    change(one, b"x = 1\n")
    assert refused(lambda: two.change(tag, WHAT, {GAME: b"x = 2\n"})) == "edit.changed-meanwhile"
    assert two.now() == one.now()
    two.undo(two.now().tag)
    assert one.now().redo == WHAT


def test_a_message_comes_back_as_it_was(sample: Path) -> None:
    change(History(sample), b"x = 1\n")
    undo = History(sample).now().undo
    assert undo == WHAT
    assert isinstance(undo, Message)
    assert isinstance(undo.args["parts"], tuple)
