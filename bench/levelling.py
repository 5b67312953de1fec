"""How near levelled plans come to the best known, on 16 networks of PSPLIB.

Run: python -m bench.levelling [seconds of effort ...]

Kolisch and Sprecher (1997), European Journal of Operational Research 96:205-216: 30, 60 and
120 activities, four resources, mostly hard ones. Best known makespans and lower bounds are
those of `fixtures/published/psplib/best_known.json`. "serial" is the answer at once; the
others are searches of so much deterministic time (of the solver's own count, so that the
answer is the same on every machine; on the clock each takes what stands in brackets).
Every schedule is held against links and capacities by the checker before it counts. Gap is
(makespan - best known) / best known; the reference is the mean gap of plain serial schedule
generation with the minimum latest finish, and of the solver alone with one worker after 1 s
and 5 s, measured on the same files.
"""

import json
import sys
from collections import defaultdict
from time import perf_counter

from schedules.engine.levelling import broken, level
from tests.published.psplib_reader import FOLDER, problem

EFFORTS = (0.35, 1.5)
REFERENCE = {"j30": (15.0, 0.9, 0.2), "j60": (19.9, 7.0, 3.5), "j120": (17.2, 10.3, 9.3)}


def main(efforts: tuple[float, ...]) -> None:
    known = json.loads((FOLDER / "best_known.json").read_text())["instances"]
    gaps: dict[str, list[list[float]]] = defaultdict(list)
    print(f"{'':10} {'best':>5} {'bound':>6}  serial" + "".join(f"  {e} effort" for e in efforts))
    for row in known:
        network, hands = problem(row["instance"])
        best, told, line = row["best_known"], [], []
        for effort in (0.0, *efforts):
            begun = perf_counter()
            found = level(network, hands, data_date=0, effort=effort)
            took = perf_counter() - begun
            assert not broken(found.network, hands, found.plan, data_date=0)
            told.append(f"{found.date} ≥{found.bound} ({took:.1f} s)")
            line.append(100 * (found.date - best) / best)
        gaps[row["set"]].append(line)
        print(f"{row['instance']:10} {best:5} {row['lower_bound']:6}  {'  '.join(told)}")
    for name, lines in gaps.items():
        means = [sum(column) / len(column) for column in zip(*lines, strict=True)]
        shown = ", ".join(f"{mean:.1f}" for mean in means)
        print(f"{name}: mean gap % {shown}; reference {REFERENCE[name]}")


if __name__ == "__main__":
    main(tuple(float(word) for word in sys.argv[1:]) or EFFORTS)
