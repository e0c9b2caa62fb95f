"""Boxes in a panel, on a grid, as an outside solver sees them: CP-SAT of PyPI `ortools`.

Perron and Didier's constraint solver, its two-dimensional no-overlap constraint. Boxes and panel
have whole sides and there is no gap.
"""

from dataclasses import dataclass

from ortools.sat.python import cp_model


@dataclass(frozen=True, slots=True)
class Boxes:
    """Boxes of whole sides, mm, in a panel of whole sides."""

    width: int
    height: int
    sides: tuple[tuple[int, int], ...]


class Grid:
    """Boxes on a grid as a model for CP-SAT: corners are whole numbers."""

    def __init__(self, boxes: Boxes, *, ordered: bool) -> None:
        self.boxes = boxes
        self.model = cp_model.CpModel()
        self.x = [
            self.model.new_int_var(0, boxes.width - w, f"x{i}")
            for i, (w, _) in enumerate(boxes.sides)
        ]
        self.y = [
            self.model.new_int_var(0, boxes.height - h, f"y{i}")
            for i, (_, h) in enumerate(boxes.sides)
        ]
        self.across = [
            self.model.new_fixed_size_interval_var(x, w, "")
            for x, (w, _) in zip(self.x, boxes.sides, strict=True)
        ]
        self.down = [
            self.model.new_fixed_size_interval_var(y, h, "")
            for y, (_, h) in zip(self.y, boxes.sides, strict=True)
        ]
        if ordered:
            for later in range(1, len(boxes.sides)):
                for earlier in range(later):
                    self._in_order(earlier, later)

    def _in_order(self, i: int, j: int) -> None:
        """J below i, or right of it and no higher; wholly left of i, it is below all before it."""
        (wi, hi), (wj, _) = self.boxes.sides[i], self.boxes.sides[j]
        x, y, model = self.x, self.y, self.model
        below, beside, left = (model.new_bool_var("") for _ in range(3))
        model.add_bool_or(below, beside)
        model.add(y[j] >= y[i] + hi).only_enforce_if(below)
        # Centres 0.8 of the joint half-widths apart, times ten.
        model.add(10 * x[j] + 5 * wj - 10 * x[i] - 5 * wi >= 4 * (wi + wj)).only_enforce_if(beside)
        model.add(y[j] >= y[i]).only_enforce_if(beside)
        model.add(x[j] + wj >= x[i] + 1).only_enforce_if(~left)
        for before in range(j):
            h = self.boxes.sides[before][1]
            model.add(y[j] >= y[before] + h).only_enforce_if(left)

    def goes_in(self) -> bool:
        """Whether there is a layout on the grid."""
        self.model.add_no_overlap_2d(self.across, self.down)
        return self._solved() is not None

    def tallest_figure(self) -> int:
        """The tallest figure of aspect 1:3 and whole width that some layout leaves clear."""
        most = min(self.boxes.width, self.boxes.height // 3)
        wide = self.model.new_int_var(0, most, "figure")
        left = self.model.new_int_var(0, self.boxes.width, "left")
        right = self.model.new_int_var(0, self.boxes.width, "right")
        top = self.model.new_int_var(0, self.boxes.height, "top")
        tall = self.model.new_int_var(0, self.boxes.height, "tall")
        self.model.add(tall == 3 * wide)
        across = self.model.new_interval_var(left, wide, right, "")
        down = self.model.new_interval_var(top, tall, self.boxes.height, "")
        self.model.add_no_overlap_2d([*self.across, across], [*self.down, down])
        self.model.maximize(wide)
        solver = self._solved()
        return 3 * solver.value(wide) if solver is not None else 0

    def _solved(self) -> cp_model.CpSolver | None:
        """The solver with its layout, or None when it proves that there is none."""
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 1
        status = solver.solve(self.model)
        assert status in (cp_model.OPTIMAL, cp_model.FEASIBLE, cp_model.INFEASIBLE)
        return None if status == cp_model.INFEASIBLE else solver
