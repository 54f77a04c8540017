"""Problems and findings: one shape, a stable name, the gravest first."""

from __future__ import annotations

import pytest

from boxwright.problems import (
    Count,
    Finding,
    MissingFace,
    Problem,
    Refused,
    Severity,
    Where,
    evidence_json,
    gravest_first,
    refuse,
)


def finding(severity: Severity, line: int = 1, path: str = "wind") -> Finding:
    problem = Problem.of(
        "lock.cannot-show", Where("game.toml", ("locks", path), line), word="STORM"
    )
    return Finding(problem, severity, "computed", Count(1, 2))


def test_a_place_reads_as_editors_read_it() -> None:
    assert str(Where("game.toml", (), 63, 1)) == "game.toml:63:1"
    assert str(Where("game.toml")) == "game.toml"


def test_a_comment_added_above_does_not_rename_a_finding() -> None:
    assert finding("stop", line=1).id == finding("stop", line=9).id


def test_findings_about_different_things_have_different_names() -> None:
    assert finding("stop").id != finding("stop", path="count").id
    assert len(finding("stop").id) == 8


def test_the_gravest_stands_first_and_equals_keep_their_order() -> None:
    found = [finding("note"), finding("stop", path="a"), finding("fix"), finding("stop", path="b")]
    order = gravest_first(found)
    assert [f.severity for f in order] == ["stop", "stop", "fix", "note"]
    assert [f.problem.where.path[1] for f in order[:2]] == ["a", "b"]


def test_evidence_names_its_type_in_json() -> None:
    assert evidence_json(MissingFace("W1", 5, "M", ("A", "B"))) == {
        "type": "missing-face",
        "tag": "W1",
        "position": 5,
        "face": "M",
        "has": ("A", "B"),
    }


def test_a_refusal_carries_its_problems() -> None:
    problem = Problem.of("a.b", Where("game.toml", (), 3))
    with pytest.raises(Refused, match=r"game\.toml:3: a\.b") as refused:
        refuse(problem)
    assert refused.value.problems == (problem,)


def test_a_refusal_without_a_problem_is_our_own_mistake() -> None:
    with pytest.raises(ValueError, match="needs a problem"):
        Refused([])
