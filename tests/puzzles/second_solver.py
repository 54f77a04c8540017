"""Hidden pictures by CP-SAT: a second solver that shares nothing with ours.

Each line is an automaton over its squares, as in the usual model of the problem.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

Runs = Sequence[int]


def transitions(runs: Runs) -> tuple[list[tuple[int, int, int]], int]:
    """Return the moves (state, square, next state) of a line's automaton, and its last state."""
    moves = [(0, 0, 0)]
    state = 0
    wanted = [run for run in runs if run]
    for index, run in enumerate(wanted):
        for _ in range(run):
            moves.append((state, 1, state + 1))
            state += 1
        if index < len(wanted) - 1:
            moves += [(state, 0, state + 1), (state + 1, 0, state + 1)]
            state += 1
    if wanted:
        moves.append((state, 0, state))
    return moves, state


class Model:
    """The picture as variables; solutions can be asked for and then forbidden."""

    def __init__(self, rows: Sequence[Runs], columns: Sequence[Runs]) -> None:
        from ortools.sat.python import cp_model

        self.cp = cp_model
        self.model = cp_model.CpModel()
        self.squares = [[self.model.new_bool_var("") for _ in columns] for _ in rows]
        for runs, line in [
            *zip(rows, self.squares, strict=True),
            *zip(columns, zip(*self.squares, strict=True), strict=True),
        ]:
            moves, last = transitions(runs)
            self.model.add_automaton(list(line), 0, [last], moves)

    def next(self) -> tuple[str, ...] | None:
        """Return a picture that was not returned before, or None if there is none left."""
        solver = self.cp.CpSolver()
        solver.parameters.num_workers = 1
        status = solver.solve(self.model)
        assert status in (self.cp.OPTIMAL, self.cp.FEASIBLE, self.cp.INFEASIBLE)
        if status == self.cp.INFEASIBLE:
            return None
        found = [[int(solver.value(square)) for square in row] for row in self.squares]
        self._forbid(found)
        return tuple("".join(".#"[value] for value in row) for row in found)

    def _forbid(self, found: list[list[int]]) -> None:
        pairs: list[tuple[Any, int]] = [
            (square, value)
            for row, values in zip(self.squares, found, strict=True)
            for square, value in zip(row, values, strict=True)
        ]
        self.model.add_bool_or([square.negated() if value else square for square, value in pairs])
