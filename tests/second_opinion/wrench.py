"""A second implementation of wrench settings, adapters, the choice of a wrench and restated torques.

    python tests/second_opinion/wrench.py target/debug/examples/wrench

The adapter is worked out from moments with vectors in the plane instead of from the published factor: the hand pulls
square to the line from nut to grip, the wrench feels the moment about its square. Scales are read in decimals of their own
unit, and restating goes through the clamp load.
"""

import math
from decimal import ROUND_HALF_UP, Decimal

import numpy as np

import compare
from published import FOOT_POUND, NEWTON_METRES, TORQUES, beside

# What stops a tool, what is a caution, what a note (ISO 6789-1, US Army TM 1-1500-204-23-9).
STOPS = {"wrench-known-bad", "wrench-above-full-scale", "wrench-below-a-fifth", "wrench-below-lowest-mark"}
CAUTIONS = {"wrench-overdue", "wrench-calibration-unknown", "wrench-coarse-graduation"}
CALIBRATIONS = {"in date": None, "overdue": "wrench-overdue", "bad": "wrench-known-bad", "unknown": "wrench-calibration-unknown"}


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


def a_tool(draw, torque):
    maximum = torque * 10 ** draw.uniform(-0.3, 1.0)
    return {
        "maximum": maximum,
        "graduation": maximum * draw.uniform(0.002, 0.06),
        "minimum": maximum * draw.uniform(0.05, 0.5) if draw.random() < 0.4 else None,
        "deviation": draw.uniform(0.003, 0.099) if draw.random() < 0.3 else None,
        "calibration": draw.choice(list(CALIBRATIONS)),
    }


def told(tool):
    return ":".join(map(compare.said, tool.values()))


def judged(tool, setting):
    """Numbers and findings; a finding's place in its list is by what is looked at, so they are compared as sets."""
    rounded = math.floor(setting / tool["graduation"] + 0.5) * tool["graduation"]
    share, found = setting / tool["maximum"], {CALIBRATIONS[tool["calibration"]]} - {None}
    if max(setting, rounded) > tool["maximum"]:
        found.add("wrench-above-full-scale")
    if share < 0.2:
        found.add("wrench-below-a-fifth")
    if min(setting, rounded) < (tool["minimum"] or 0.0):
        found.add("wrench-below-lowest-mark")
    if tool["graduation"] > 0.1 * setting:
        found.add("wrench-coarse-graduation")
    if 0.2 <= share < 0.3 or 0.8 < share <= 1.0:
        found.add("wrench-outside-best-range")
    error = tool["deviation"] or (0.06 if tool["maximum"] <= 10 else 0.04)
    shown = math.nan if found & STOPS else rounded
    return [shown, rounded * (1 - error), rounded * (1 + error), rounded / setting - 1, share], found


def judged_agree(ours, expected):
    if expected is None or ours == "error":
        return expected is None and ours == "error"
    numbers, found = ours.rsplit(",", 1)
    return compare.numbers_agree(numbers, expected[0]) and set(found.split()) == expected[1]


def set_question(draw):
    torque = 10 ** draw.uniform(-1, 3)
    prevailing_torque = torque * draw.uniform(0, 0.3) + 1e-5 if draw.random() < 0.5 else None
    wrench = adapter = angle = None
    usable = True
    if draw.random() < 0.7:
        wrench = draw.uniform(100, 900)
        adapter, angle = draw.uniform(0.05, 1.05) * wrench, draw.uniform(-5, 185)
        left = wrench + adapter * math.cos(math.radians(angle))
        usable = adapter <= wrench and 0 <= angle <= 180 and left >= wrench / 2
    tool = a_tool(draw, torque)
    asked = compare.line("set", torque, prevailing_torque, wrench, adapter, angle, told(tool))
    if not usable:
        return asked, None, judged_agree
    setting = shown_by_wrench(torque + (prevailing_torque or 0.0), wrench, adapter, angle)
    numbers, found = judged(tool, setting)
    return asked, ([setting, *numbers], found), judged_agree


def choose_question(draw):
    """Of those without a stop the one with the least serious objection, nearest the middle of 30 to 80 % of its scale."""
    torque = 10 ** draw.uniform(0, 3)
    tools = [a_tool(draw, torque) for _ in range(draw.randint(1, 6))]
    ranks = []
    for index, tool in enumerate(tools):
        _, found = judged(tool, torque)
        if not found & STOPS:
            worst = 2 if found & CAUTIONS else 1 if found else 0
            ranks.append((worst, abs(torque / tool["maximum"] - 0.55), tool["graduation"], index))
    return compare.line("choose", torque, *map(told, tools)), str(min(ranks)[3]) if ranks else "none", str.__eq__


def read_question(draw):
    """The nearest mark, in decimals: a scale of 0.05 shows two of them."""
    symbol = draw.choice(TORQUES)[0]
    step = draw.choice(["0.05", "0.1", "0.2", "0.25", "0.5", "1", "2", "2.5", "5", "10"])
    torque = 10 ** draw.uniform(-0.5, 3)
    steps = (Decimal(torque / NEWTON_METRES[symbol]) / Decimal(step)).quantize(Decimal(1), rounding=ROUND_HALF_UP)
    brackets = f" ({beside(torque, symbol)})" if torque < 20 * FOOT_POUND else ""
    return compare.line("read", torque, f"{step} {symbol}"), f"{steps * Decimal(step):f} {symbol}{brackets}", str.__eq__


def restate_question(draw):
    torque, k1, k2, d = 10 ** draw.uniform(-2, 4), draw.uniform(0.04, 0.61), draw.uniform(0.04, 0.61), draw.uniform(1, 60)
    load = torque / (k1 * d / 1000)
    known = 0.05 <= k1 <= 0.6 and 0.05 <= k2 <= 0.6
    return compare.line("restate", torque, k1, k2, d), [k2 * d / 1000 * load, load] if known else None, compare.numbers_agree


def turn_question(draw):
    pitch, degrees = draw.uniform(0.2, 6), draw.uniform(-10, 1200)
    way = [pitch * math.radians(degrees) / math.tau] if 1 <= degrees <= 1080 else None
    return compare.line("turn", pitch, degrees), way, compare.numbers_agree


def questions(draw):
    while True:
        yield draw.choice([set_question, set_question, choose_question, read_question, restate_question, turn_question])(draw)


if __name__ == "__main__":
    compare.main("wrenches", questions, 30_000)
