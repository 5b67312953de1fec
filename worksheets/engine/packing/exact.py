"""The shortest layout of rectangles in a strip, by constraint programming, within a time limit."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

from worksheets.engine.packing.pieces import CLOSE, Layout, Placed, Rectangle, checked
from worksheets.engine.packing.skyline import fill_gaps

if TYPE_CHECKING:
    from ortools.sat.python import cp_model

Told = Callable[[float, Layout], bool]  # share of the time used, the best so far -> go on?
SECONDS = 15.0
AT_ONCE = 0.35  # of the time: try for the bound itself, which is often within reach


def shortest(
    pieces: Sequence[Rectangle],
    strip: float,
    *,
    unit: float = 1.0,
    seconds: float = SECONDS,
    tell: Told | None = None,
    start: Layout | None = None,
) -> Layout:
    """The shortest layout found, ``proven`` where none is shorter.

    Sizes are rounded up and the strip down to whole ``unit``s, so that what is found always
    fits. ``tell`` hears of every better layout and stops the search by answering False.
    Raises TooWide and ValueError. It searches on one processor, so that the steps are always
    the same; a shorter time only cuts them short.

    >>> shortest([Rectangle(2, 2), Rectangle(2, 2), Rectangle(1, 4)], 3, seconds=5).length
    4.0
    """
    checked(pieces, strip)
    best = start or fill_gaps(pieces, strip)
    if best.proven or not pieces:
        return best
    search = Search(pieces, strip, unit, tell, seconds)
    low = math.ceil(best.bound / unit - CLOSE)
    found = search.within(low, low, best, seconds * AT_ONCE)
    if found.length * (1 - CLOSE) > best.bound and not search.stopped:
        found = search.within(low, math.ceil(best.length / unit), found, seconds * (1 - AT_ONCE))
    return found


class Search:
    """One strip, in whole units; ``within`` may be asked for several lengths."""

    def __init__(
        self,
        pieces: Sequence[Rectangle],
        strip: float,
        unit: float,
        tell: Told | None,
        seconds: float,
    ) -> None:
        self.pieces, self.strip, self.unit = pieces, strip, unit
        self.tell, self.seconds = tell, seconds
        self.widths = [math.ceil(piece.width / unit - CLOSE) for piece in pieces]
        self.heights = [math.ceil(piece.height / unit - CLOSE) for piece in pieces]
        self.across = math.floor(strip / unit + CLOSE)
        self.spent, self.stopped = 0.0, False

    def within(self, low: int, high: int, best: Layout, seconds: float) -> Layout:
        """The best layout of a length from low to high units; ``best`` where there is none."""
        from ortools.sat.python import cp_model

        if max(self.widths, default=0) > self.across:
            return best
        model, xs, ys, length = self.model(low, high)
        solver = cp_model.CpSolver()
        solver.parameters.max_time_in_seconds = seconds
        solver.parameters.random_seed = 7
        solver.parameters.num_workers = 1
        solver.parameters.use_timetabling_in_no_overlap_2d = True
        solver.parameters.use_energetic_reasoning_in_no_overlap_2d = True
        listener = self.listener(xs, ys, length, best)
        status = solver.solve(model, listener)
        self.spent += solver.wall_time
        if status == cp_model.INFEASIBLE:
            return self.beaten(best, high + 1)
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return best
        bound = max(best.bound, low * self.unit)
        if status == cp_model.OPTIMAL:
            bound = max(bound, solver.value(length) * self.unit)
        return self.layout(solver.value, xs, ys, length, best, bound)

    def beaten(self, best: Layout, units: int) -> Layout:
        """Nothing is as short as was asked: the bound rises."""
        bound = min(best.length, units * self.unit)
        proven = best.length <= bound * (1 + CLOSE)
        return Layout(
            strip=best.strip, placed=best.placed, length=best.length, bound=bound, proven=proven
        )

    def model(self, low: int, high: int) -> tuple[cp_model.CpModel, list[Any], list[Any], Any]:
        from ortools.sat.python import cp_model

        model = cp_model.CpModel()
        length = model.new_int_var(low, high, "length")
        xs, ys, across, along = [], [], [], []
        for at, (width, height) in enumerate(zip(self.widths, self.heights, strict=True)):
            xs.append(model.new_int_var(0, self.across - width, f"x{at}"))
            ys.append(model.new_int_var(0, max(0, high - height), f"y{at}"))
            across.append(model.new_fixed_size_interval_var(xs[at], width, f"w{at}"))
            along.append(model.new_fixed_size_interval_var(ys[at], height, f"h{at}"))
            model.add(ys[at] + height <= length)
        model.add_no_overlap_2d(across, along)
        model.add_cumulative(along, self.widths, self.across)
        model.add_cumulative(across, self.heights, length)
        self.in_order(model, xs, ys)
        if low < high:
            model.minimize(length)
        return model, xs, ys, length

    def in_order(self, model: cp_model.CpModel, xs: list[Any], ys: list[Any]) -> None:
        """Equal pieces lie in the order of their list, so that swaps are not tried."""
        seen: dict[tuple[int, int], int] = {}
        for at, size in enumerate(zip(self.widths, self.heights, strict=True)):
            if size in seen:
                before = seen[size]
                step = self.across + 1
                model.add(ys[before] * step + xs[before] < ys[at] * step + xs[at])
            seen[size] = at

    def layout(
        self, value: Callable[[Any], int], xs: list[Any], ys: list[Any], length: Any,
        best: Layout, bound: float,
    ) -> Layout:  # fmt: skip
        found = value(length) * self.unit
        bound = min(bound, best.length)
        if found > best.length * (1 + CLOSE):
            return self.beaten(best, math.floor(bound / self.unit))
        placed = tuple(
            Placed(at, value(x) * self.unit, value(y) * self.unit)
            for at, (x, y) in enumerate(zip(xs, ys, strict=True))
        )
        proven = found <= bound * (1 + CLOSE)
        return Layout(strip=self.strip, placed=placed, length=found, bound=bound, proven=proven)

    def listener(self, xs: list[Any], ys: list[Any], length: Any, best: Layout) -> Any:
        from ortools.sat.python import cp_model

        search = self

        class Listener(cp_model.CpSolverSolutionCallback):
            def on_solution_callback(self) -> None:
                found = search.layout(self.value, xs, ys, length, best, best.bound)
                share = min(1.0, (search.spent + self.wall_time) / search.seconds)
                if search.tell is not None and not search.tell(share, found):
                    search.stopped = True
                    self.stop_search()

        return Listener()
