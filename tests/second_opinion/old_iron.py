"""A second implementation of British threads, insert holes and the overlap of look-alikes.

    python tests/second_opinion/old_iron.py target/debug/examples/old_iron

Reads the same tables but works the dimensions out from the fundamental triangle of each form: its height H from the
flank angle, less what is cut or rounded off, instead of from the standards' ready-made multiples of the pitch. Those
multiples are rounded in the standards, so diameters agree to 2e-6 of the pitch, areas to what follows from that.
"""

import argparse
import csv
import math
import re
import subprocess
import sys
from pathlib import Path

DATA = Path(__file__).resolve().parents[2] / "data"
ANGLES = {"BSW": 55.0, "BSF": 55.0, "BA": 47.5, "BSC": 60.0}


def depth(series, pitch):
    """Depth of the thread: H less a sixth at crest and root (Whitworth); BA and cycle as their standards say."""
    height = pitch / (2.0 * math.tan(math.radians(ANGLES[series] / 2.0)))
    if series in ("BSW", "BSF"):
        return height * 2.0 / 3.0
    # BA: 0.6 p. Cycle: H less twice the rounding of radius p/6.
    return 0.6 * pitch if series == "BA" else height - 2.0 * pitch / 6.0


def inches(size):
    if size.startswith("#"):
        return 0.060 + 0.013 * int(size[1:])
    whole, _, part = size.rpartition("-")
    top, _, bottom = part.partition("/")
    return float(whole or 0) + (int(top) / int(bottom) if bottom else float(top))


def name(row_id):
    """The name of a row as the program knows it: neither stroke nor point."""
    return re.sub("[_.]", "-", row_id)


def read():
    """id -> series or None for 60 degrees, whether it is metric, diameter, pitch."""
    threads = {}
    for row in csv.DictReader(open(DATA / "threads_british.csv")):
        if row["series"] == "BA":
            size = float(row["diameter_mm"]), float(row["pitch_mm"])
        else:
            size = inches(row["size"]) * 25.4, 25.4 / float(row["threads_per_inch"])
        threads[row["id"]] = row["series"], False, *size
    for row in csv.DictReader(open(DATA / "threads_unified.csv")):
        threads[row["id"]] = None, False, inches(row["size"]) * 25.4, 25.4 / float(row["threads_per_inch"])
    for row in csv.DictReader(open(DATA / "threads_metric.csv")):
        threads[row["id"]] = None, True, float(row["diameter_mm"]), float(row["pitch_mm"])
    return threads


def dimensions(series, metric, d, p):
    if series:
        h = depth(series, p)
        d2, d3 = d - h, d - 2.0 * h
        return [d2, d3, d3, math.pi / 16.0 * (d2 + d3) ** 2]
    height = math.sqrt(3.0) / 2.0 * p
    d2, d3, d1 = d - 0.75 * height, d - 17.0 / 12.0 * height, d - 1.25 * height
    # ASME takes the mean of d2 and d - 1.5 H for the area, ISO of d2 and d3.
    area = math.pi / 16.0 * (d2 + (d3 if metric else d - 1.5 * height)) ** 2
    return [d2, d3, d1, area, d + 1.5 * height, d2 + 1.5 * height, d1 + 1.5 * height, 1.0 + 1.5 * height / d]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    program = parser.parse_args().program
    threads = read()
    questions, expected, tolerances = [], [], []
    for row_id, (series, metric, d, p) in threads.items():
        questions.append(f"thread,{name(row_id)}")
        ours = dimensions(series, metric, d, p)
        expected.append(ours)
        # The cycle depth is printed as 0.5327, the area constant as 0.9743: four figures.
        rough = 1e-4 if series == "BSC" else 3e-5 if not series and not metric else 3e-6
        tolerances.append([rough * p if i != 3 else rough * p * 2.0 * d for i in range(len(ours))])
    for row in csv.DictReader(open(DATA / "look_alikes.csv")):
        screw, nut = threads[row["external"]], threads[row["internal"]]
        bore = dimensions(*nut)[2]
        questions.append(f"overlap,{name(row['external'])},{name(row['internal'])}")
        expected.append([(screw[2] - bore) / (nut[2] - bore)])
        tolerances.append([1e-4])
    questions.append("thread,nothing")
    run = subprocess.run([program], input="\n".join(questions) + "\n", capture_output=True, text=True, check=True)
    answers = run.stdout.split()
    wrong = 0 if answers.pop() == "error" else 1
    for question, said, values, allowed in zip(questions, answers, expected, tolerances, strict=False):
        numbers = [float(n) for n in said.split(",")] if said != "error" else []
        off = len(numbers) != len(values) or any(abs(a - b) > t for a, b, t in zip(numbers, values, allowed))
        if off:
            wrong += 1
            print(f"{question}: {numbers} against {values}")
    print(f"old iron: {len(expected)} threads and pairs compared, {wrong} wrong")
    sys.exit(1 if wrong or len(answers) != len(expected) else 0)


if __name__ == "__main__":
    main()
