"""How long a plan takes, against CP-SAT on the same bakes.

    python3 tests/oracle/plan_speed.py [COUNT]

Bakes of one to three formulas and 20 to 90 tasks, drawn from seeds, a third of them under pressure.
CP-SAT has one thread, then as many as it likes; only its search is timed, not its start. Both must come to
the same end, and ours in two seconds, and some have to be impossible. run.py asks this of a hundred bakes; by how much one is quicker is
printed and not held, because it tells about the machine as well.
"""

import json
import sys
from itertools import count as naturals, islice
from pathlib import Path
from random import Random
from statistics import median
from time import perf_counter

from bakes import bake
from plans import differs, model_of, solved
from run import ask

PRESSURES = (0.1, 0.3, 0.6)
TASKS = range(20, 91)
LONGEST_MS = 2000
FILES = Path(__file__).resolve().parents[1] / "reference" / "plans"
# Of so many bakes at least one can't be had, for it is to be told of those as well.
IMPOSSIBLE = 20


def timed(problem, workers):
    model, _, _ = model_of(problem)
    start = perf_counter()
    found = solved(model, workers)
    return found, perf_counter() - start


def bakes():
    """All that have so many tasks; of one formula not every one has."""
    for nth in naturals():
        drawn = bake(Random(f"speed {nth}"), 1 + nth % 3, PRESSURES[nth // 3 % 3])
        if len(drawn["tasks"]) in TASKS:
            yield drawn


def told_otherwise():
    """How many of the bakes that `native` holds against their told ends have another one by CP-SAT."""
    wrong = 0
    for file in sorted(FILES.glob("*.json")):
        problem = json.loads(file.read_text())
        theirs, _ = timed(problem, 1)
        if theirs != (problem["status"], problem["optimum"]):
            wrong += 1
            print(f"{file.name}: CP-SAT says {theirs}")
    return wrong


def compare(count):
    """Prints the times of that many bakes; how many of them come to another end, or take too long; all, if too few are
    impossible."""
    wrong = told_otherwise()
    drawn = list(islice(bakes(), count))
    answers = ask([{"topic": "plan", "inputs": problem} for problem in drawn])
    ours, one, many = [], [], []
    for nth, (problem, answer) in enumerate(zip(drawn, answers)):
        theirs, seconds = timed(problem, 1)
        found = differs(problem, answer, theirs)
        if found:
            wrong += 1
            print(f"bake {nth}: {found}")
        ours.append(answer["ms"])
        one.append(1e3 * seconds)
        many.append(1e3 * timed(problem, 0)[1])
    sizes = [len(problem["tasks"]) for problem in drawn]
    impossible = sum(answer["status"] == "infeasible" for answer in answers)
    print(f"{count} bakes of {min(sizes)} to {max(sizes)} tasks, {impossible} of them impossible")
    for name, times in (("ours", ours), ("CP-SAT, one thread", one), ("CP-SAT, as it likes", many)):
        print(f"{name}: median {median(times):.2f} ms, longest {max(times):.0f} ms")
    ratio = median(theirs / own for own, theirs in zip(ours, one))
    likes = median(theirs / own for own, theirs in zip(ours, many))
    print(f"in the median {ratio:.0f} times quicker than one thread, {likes:.0f} times than many")
    slow = sum(ms > LONGEST_MS for ms in ours)
    print(f"{slow} of ours took more than 2 s; {wrong} differ")
    if impossible < count // IMPOSSIBLE:
        print("too few are impossible, so that little was asked of what contradicts itself")
        return count
    return wrong + slow


def main():
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 150
    return 1 if compare(count) else 0


if __name__ == "__main__":
    sys.exit(main())
