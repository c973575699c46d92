"""Checks the model against general-purpose libraries.

    python3 tests/oracle/run.py

Needs the packages of requirements.txt and cargo. Every topic draws its cases
from a seed of its own, asks the Rust program `oracle` all of them at once and
compares, on all cores. Prints a line a topic, then `N passed, N failed`, counting cases;
leaves with 1 when a case fails or a topic has too few.
"""

import json
import os
import subprocess
import sys
from concurrent.futures import ProcessPoolExecutor
from math import isfinite
from pathlib import Path
from random import Random

# The matrices are small: threads would only wait for each other.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import cooling
import frozen
import calendars
import heat
import kitchen
import ovens
import plans
import proofs
import recipes

TOPICS = [
    *calendars.TOPICS,
    *heat.TOPICS,
    *cooling.TOPICS,
    *proofs.TOPICS,
    *kitchen.TOPICS,
    *frozen.TOPICS,
    *ovens.TOPICS,
    *plans.TOPICS,
    *recipes.TOPICS,
]
FEWEST = 300
# So many bakes are timed against CP-SAT.
SPEEDS = 100


def ask(questions):
    """The model's answers, in order."""
    program = subprocess.run(
        ["cargo", "run", "--profile", "oracle", "-q", "-p", "checks", "--bin", "oracle"],
        cwd=Path(__file__).resolve().parents[2],
        input=json.dumps(questions),
        stdout=subprocess.PIPE,
        text=True,
        check=True,
    )
    return json.loads(program.stdout)


def error_of(case):
    """By how much the model's answer to a case is off; asked in several processes, for the libraries take their time."""
    nth, inputs, answer = case
    try:
        return TOPICS[nth].check(inputs, answer)
    except Exception as wrong:
        raise RuntimeError(f"{TOPICS[nth].name}: {json.dumps(inputs)}") from wrong


def main():
    asked = []
    for topic in TOPICS:
        random = Random(topic.name)
        asked.append((topic, [topic.case(random) for _ in range(topic.cases)]))
    answers = iter(
        ask([{"topic": topic.topic, "inputs": inputs} for topic, cases in asked for inputs in cases])
    )

    passed = failed = 0
    processes = ProcessPoolExecutor()
    for nth, (topic, cases) in enumerate(asked):
        worst, at = 0.0, None
        every = [(nth, inputs, next(answers)) for inputs in cases]
        for inputs, error in zip(cases, processes.map(error_of, every, chunksize=10)):
            # Also true of what is not a number.
            if not error <= topic.tolerance:
                failed += 1
            else:
                passed += 1
            if not isfinite(error) or error > worst:
                worst, at = error, inputs
        print(f"{topic.name}: {len(cases)} cases, worst relative error {worst:.1e}"
              f" (allowed {topic.tolerance:.0e})", flush=True)
        if not worst <= topic.tolerance:
            print(f"  worst case: {json.dumps(at)}")
        if len(cases) < FEWEST:
            print(f"  too few cases: {FEWEST} are wanted")
            failed += 1
    processes.shutdown()
    # Only here, because it asks this module in turn.
    import plan_speed

    wrong = plan_speed.compare(SPEEDS)
    passed += SPEEDS - wrong
    failed += wrong
    print(f"{passed} passed, {failed} failed")
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    sys.exit(main())
