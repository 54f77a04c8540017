"""docs/locks.md tells of every mechanism and of everything that an entry gives."""

from __future__ import annotations

import re
from pathlib import Path

from boxwright.game.mechanisms import MECHANISMS, Mechanism, device_of, entry, parse_lock, read_code
from boxwright.problems import Where

PAGE = Path(__file__).parents[3] / "docs" / "locks.md"
HERE = Where("docs/locks.md")
OWN_BUSINESS = {"positions", "part", "wrong_length", "missing", "lengths", "near_said", "sizes"}


def rows() -> list[list[str]]:
    lines = PAGE.read_text("utf-8").splitlines()
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines if "|" in line]


def test_every_mechanism_has_a_row_whose_examples_work() -> None:
    found = {row[0]: row for row in rows() if row[0] in MECHANISMS}
    assert list(found) == list(MECHANISMS)
    for name, (_, codes, _, short) in found.items():
        device = device_of(parse_lock(short.strip("`"), HERE), HERE)
        assert device.mechanism == name
        written = re.findall(r"`([^`]+)`", codes)[:1]
        for code in written:
            read = entry(device).read(device, code, HERE)
            assert isinstance(read, tuple)
            assert entry(device).write(device, read) == code
            assert name == "direction" or read_code(device, code, HERE) == read


def test_every_call_of_an_entry_is_told() -> None:
    told = {name for row in rows() if len(row) == 2 for name in re.findall(r"`(\w+)`", row[0])}
    calls = {
        name
        for name, value in vars(Mechanism).items()
        if callable(value) and not name.startswith("_")
    }
    assert told <= calls
    assert calls - told <= OWN_BUSINESS | {"in_search"}
