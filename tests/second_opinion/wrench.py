"""A second implementation of wrench settings, adapters and restated torques.

    python tests/second_opinion/wrench.py target/debug/examples/wrench

The adapter is worked out from moments with vectors in the plane instead of from the published factor: the hand pulls
square to the line from nut to grip, the wrench feels the moment about its square. Restating goes through the clamp load.
Compares every number to 1e-9 relative; exits with 1 on any difference.
"""

import argparse
import math
import random
import subprocess
import sys

import numpy as np

RELATIVE = 1e-9


def shown_by_wrench(at_nut, wrench, adapter, angle):
    """The hand pulls square to the wrench; the nut feels the pull at the grip about its own middle."""
    if wrench is None:
        return at_nut
    nut = np.array([0.0, 0.0])
    square = nut + adapter * np.array([1.0, 0.0])
    direction = np.array([math.cos(math.radians(angle)), math.sin(math.radians(angle))])
    grip = square + wrench * direction
    pull = np.array([-direction[1], direction[0]])
    moment = lambda about: float((grip - about)[0] * pull[1] - (grip - about)[1] * pull[0])
    return at_nut * moment(square) / moment(nut)


def set_line(draw):
    torque = 10 ** draw.uniform(-1, 3)
    run_on = torque * draw.uniform(0, 0.3) + 1e-5 if draw.random() < 0.5 else None
    adapted = draw.random() < 0.7
    wrench = draw.uniform(100, 900) if adapted else None
    adapter = draw.uniform(0.05, 1.05) * wrench if adapted else None
    angle = draw.uniform(-5, 185) if adapted else None
    greatest = torque * 10 ** draw.uniform(-0.3, 1.0)
    graduation = greatest * draw.uniform(0.002, 0.06)
    return "set", torque, run_on, wrench, adapter, angle, greatest, graduation


def set_answer(torque, run_on, wrench, adapter, angle, greatest, graduation):
    if wrench is not None:
        left = wrench + adapter * math.cos(math.radians(angle))
        if adapter > wrench or not 0 <= angle <= 180 or left < wrench / 2:
            return None
    setting = shown_by_wrench(torque + (run_on or 0.0), wrench, adapter, angle)
    rounded = math.floor(setting / graduation + 0.5) * graduation
    share, found = setting / greatest, []
    if setting > greatest or rounded > greatest:
        found.append("wrench-above-full-scale")
    if share < 0.2:
        found.append("wrench-below-a-fifth")
    if graduation > 0.1 * setting:
        found.append("wrench-coarse-graduation")
    if 0.2 <= share < 0.3 or 0.8 < share <= 1.0:
        found.append("wrench-outside-best-range")
    stopped = {"wrench-above-full-scale", "wrench-below-a-fifth"} & set(found)
    error = 0.06 if greatest <= 10 else 0.04
    numbers = [setting, math.nan if stopped else rounded, rounded * (1 - error), rounded * (1 + error)]
    return numbers, found


def restate_line(draw):
    return "restate", 10 ** draw.uniform(-2, 4), draw.uniform(0.04, 0.61), draw.uniform(0.04, 0.61), draw.uniform(1, 60)


def restate_answer(torque, k1, k2, diameter):
    if not (0.05 <= k1 <= 0.6 and 0.05 <= k2 <= 0.6):
        return None
    load = torque / (k1 * diameter / 1000)
    return [k2 * diameter / 1000 * load, load], []


def turn_line(draw):
    return "turn", draw.uniform(0.2, 6), draw.uniform(-10, 1200)


def turn_answer(pitch, degrees):
    return ([pitch * math.radians(degrees) / math.tau], []) if 1 <= degrees <= 1080 else None


KINDS = {"set": (set_line, set_answer), "restate": (restate_line, restate_answer), "turn": (turn_line, turn_answer)}


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("answers", help="the built example `wrench` of clampbook-engine")
    parser.add_argument("--lines", type=int, default=30_000)
    parser.add_argument("--seed", type=int, default=random.SystemRandom().randrange(2**32))
    options = parser.parse_args()
    print(f"wrenches: {options.lines} lines, seed {options.seed}", flush=True)
    draw = random.Random(options.seed)
    asked = [KINDS[draw.choice(list(KINDS))][0](draw) for _ in range(options.lines)]
    text = "".join(",".join("" if v is None else str(v) for v in line) + "\n" for line in asked)
    done = subprocess.run([options.answers], input=text, capture_output=True, text=True, check=True)
    answered = done.stdout.splitlines()
    if len(answered) != len(asked):
        sys.exit(f"{len(answered)} answers to {len(asked)} lines")
    wrong = faults = 0
    for line, ours in zip(asked, answered):
        expected = KINDS[line[0]][1](*line[1:])
        if expected is None or ours == "error":
            faults += 1
            same = expected is None and ours == "error"
        else:
            numbers, found = expected
            fields = ours.split(",")
            theirs = [float(f) for f in fields[: len(numbers)]]
            same = np.allclose(theirs, numbers, rtol=RELATIVE, atol=0, equal_nan=True)
            same = same and (line[0] != "set" or fields[len(numbers)].split() == found)
        if not same:
            wrong += 1
            if wrong <= 20:
                print(f"{line}: {ours}, expected {expected}")
    print(f"{len(asked) - faults} answers and {faults} faults compared, {wrong} differences")
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
