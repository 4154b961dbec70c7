"""A second implementation of the torque answer, written from the standards and not from our code.

    python tests/second_opinion/second_opinion.py target/debug/examples/answers

Makes random joints from its own reading of data/*.csv, computes each answer with its own formulae
(numpy, scipy, pint), asks the `answers` example of clampbook-engine the same, and compares every
number to 1e-9 relative. Exits with 1 on any difference. The seed is printed; --seed repeats a run.
"""

import argparse
import csv
import math
import pathlib
import random
import subprocess
import sys
from fractions import Fraction

import numpy as np
import pint
from scipy import constants, optimize

UNITS = pint.UnitRegistry()
KSI = UNITS.Quantity(1.0, "ksi").to("MPa").magnitude
INCH = constants.inch / constants.milli
DATA = pathlib.Path(__file__).resolve().parents[2] / "data"
RELATIVE = 1e-9
NUMBERS = [
    "torque", "clamp_load", "nut_factor", "stress_area", "proof_load", "yield_load",
    "tensile_load", "least", "greatest", "share_of_error", "low_nut_factor", "high_nut_factor",
    "low_torque", "high_torque",
]


def table(name):
    with open(DATA / name, newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def inches(size):
    if size.startswith("#"):
        return float(Fraction(60 + 13 * int(size[1:]), 1000))
    return float(sum(Fraction(part) for part in size.split("-")))


def threads():
    """ASME B1.1 for inch threads, ISO 898-1 for metric ones."""
    for row in table("threads_unified.csv"):
        d, n = inches(row["size"]), float(row["threads_per_inch"])
        area = math.pi / 4 * (d - 0.9743 / n) ** 2 * INCH**2
        yield {
            "said": f"{row['size']}-{row['threads_per_inch']} {row['series']}",
            "system": "inch", "size": d, "d": d * INCH, "p": INCH / n, "area": area,
        }
    for row in table("threads_metric.csv"):
        d, p = float(row["diameter_mm"]), float(row["pitch_mm"])
        mean = float(np.mean([d - 0.649519 * p, d - 1.226869 * p]))
        yield {
            "said": f"M{row['diameter_mm']}x{row['pitch_mm']}",
            "system": "metric", "size": d, "d": d, "p": p, "area": math.pi * mean**2 / 4,
        }


def strength(rows, thread):
    """The row whose sizes hold the thread; `>16` begins above 16."""
    for row in rows:
        low, high = row["size_min"], float(row["size_max"])
        above = thread["size"] > float(low[1:]) if low[0] == ">" else thread["size"] >= float(low)
        if row["system"] == thread["system"] and above and thread["size"] <= high:
            unit = KSI if row["stress_unit"] == "ksi" else 1.0
            stress = lambda column: float(row[column]) * unit if row[column] else math.nan
            return stress("proof"), stress("yield"), stress("tensile")
    return None


def combined_share(thread, load, torque, yield_stress):
    """Tension and twist against yield: friction by root finding, von Mises from the stress tensor."""
    d, p = thread["d"], thread["p"]
    d2 = d - 0.649519 * p
    at_thread = lambda mu: load * (p / (2 * math.pi) + mu * d2 / (2 * math.cos(math.radians(30))))
    surplus = lambda mu: at_thread(mu) + load * mu * 1.25 * d / 2 - torque * 1e3
    twist = torque * 1e3
    if surplus(0.0) < 0:
        twist = at_thread(optimize.brentq(surplus, 0.0, 2.0, xtol=1e-16, rtol=1e-15))
    d0 = 2 * math.sqrt(thread["area"] / math.pi)
    tension, shear = load / thread["area"], twist / (math.pi * d0**3 / 12)
    tensor = np.array([[tension, shear, 0], [shear, 0, 0], [0, 0, 0]])
    deviator = tensor - np.trace(tensor) / 3 * np.eye(3)
    return math.sqrt(1.5 * np.sum(deviator * deviator)) / yield_stress


def findings(thread, stresses, nominal, share, torque, greatest):
    proof, yield_stress, tensile = stresses
    working = (proof if not math.isnan(proof) else 0.85 * yield_stress) * thread["area"]
    found = {}
    if share >= 0.9:
        found["nominal-against-proof"] = ("Stop" if share > 1 else "Caution", share)
    if greatest > tensile * thread["area"]:
        found["greatest-against-tensile"] = ("Stop", greatest / (tensile * thread["area"]))
    if greatest > working:
        found["greatest-against-proof"] = ("Caution", greatest / working)
    if not math.isnan(yield_stress):
        combined = combined_share(thread, nominal, torque, yield_stress)
        if combined > 1:
            found["combined-against-yield"] = ("Caution", combined)
    return found


def answer(joint):
    """`error,<field>` for the first fault, else what decided, the numbers and the findings."""
    thread, condition = joint["thread"], joint["condition"]
    stresses = strength(joint["grade_rows"], thread)
    share, load, k = joint["share"], joint["load"], joint["k"]
    # Structural grades are tightened by their own rules, and letter grades have neither proof nor yield.
    if stresses is None or joint["grade_rows"][0]["use"]:
        return "grade"
    if condition is None and k is None:
        return "condition"
    if k is not None and not 0.05 <= k <= 0.60:
        return "nut_factor"
    proof, yield_stress, tensile = stresses
    area = thread["area"]
    if load is not None and (share is not None or not 1e-3 <= load <= tensile * area):
        return "clamp_load_n"
    if load is None and share is not None and not 0.05 <= share <= 1:
        return "proof_share"

    working = (proof if not math.isnan(proof) else 0.85 * yield_stress) * area
    if load is not None:
        governed, nominal, part = "wanted-clamp-load", load, load / working
    else:
        part = 0.75 if share is None else share
        governed = "yield-of-bolt" if math.isnan(proof) else "proof-of-bolt"
        nominal = part * working
    own = [float(condition[c]) for c in ("nut_factor", "low_nut_factor", "high_nut_factor")] if condition else [k] * 3
    used = own[0] if k is None else k
    torque = lambda factor: factor * nominal * (thread["d"] * constants.milli)
    error = 0.25 if condition and condition["lubricated"] == "yes" else 0.35
    greatest = (1 + error) * nominal
    numbers = [
        torque(used), nominal, used, area, proof * area, yield_stress * area, tensile * area,
        (1 - error) * nominal, greatest, error, own[1], own[2], torque(own[1]), torque(own[2]),
    ]
    return governed, numbers, findings(thread, stresses, nominal, part, torque(used), greatest)


def grades_at(grades, thread):
    if "grades" not in thread:
        thread["grades"] = [g for g in grades.values() if strength(g, thread)]
    return thread["grades"]


def random_joint(draw, catalogue):
    all_threads, grades, conditions = catalogue
    thread = draw.choice(all_threads)
    # Mostly a grade that exists at this size, sometimes any.
    any_grade = draw.random() < 0.05
    if not any_grade:
        thread = draw.choice([t for t in all_threads if grades_at(grades, t)])
    rows = draw.choice(list(grades.values()) if any_grade else grades_at(grades, thread))
    target = draw.random()
    strongest = 1000 * thread["area"]
    return {
        "thread": thread,
        "grade_rows": rows,
        "condition": draw.choice(conditions) if draw.random() < 0.95 else None,
        "share": draw.uniform(0.03, 1.03) if target < 0.6 else None,
        "load": draw.uniform(0.0, strongest) if 0.58 < target < 0.9 else None,
        "k": draw.uniform(0.04, 0.61) if draw.random() < 0.4 else None,
    }


def line(joint):
    number = lambda value: "" if value is None else repr(value)
    condition = joint["condition"]["name"] if joint["condition"] else ""
    grade = joint["grade_rows"][0]
    return ",".join([
        joint["thread"]["said"], f"{grade['standard']} {grade['name']}", condition,
        number(joint["share"]), number(joint["load"]), number(joint["k"]),
    ])


def differences(joint, ours):
    """What the engine says otherwise than we do."""
    expected, fields = answer(joint), ours.split(",")
    if isinstance(expected, str) or fields[0] == "error":
        said = fields[1] if fields[0] == "error" else "an answer"
        return [] if said == expected else [f"expected a fault in {expected}, got {said}"]
    governed, numbers, found = expected
    wrong = [] if fields[0] == governed else [f"governed by {fields[0]}, expected {governed}"]
    theirs = np.array([float(f) for f in fields[1:15]])
    same = np.isclose(theirs, np.array(numbers), rtol=RELATIVE, atol=0.0, equal_nan=True)
    wrong += [f"{n}: {t!r}, expected {e!r}" for n, t, e, s in zip(NUMBERS, theirs, numbers, same) if not s]
    reported = {}
    for item in fields[15].split():
        name, severity, share = item.split("=")
        reported[name] = (severity, float(share))
    if reported.keys() != found.keys():
        return wrong + [f"findings {sorted(reported)}, expected {sorted(found)}"]
    for name, (severity, share) in found.items():
        if reported[name][0] != severity or not math.isclose(reported[name][1], share, rel_tol=RELATIVE):
            wrong.append(f"{name}: {reported[name]}, expected {(severity, share)}")
    return wrong


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("answers", help="the built example `answers` of clampbook-engine")
    parser.add_argument("--joints", type=int, default=100_000)
    parser.add_argument("--seed", type=int, default=random.SystemRandom().randrange(2**32))
    options = parser.parse_args()
    print(f"second opinion: {options.joints} joints, seed {options.seed}", flush=True)

    grades = {}
    for row in table("grades.csv"):
        grades.setdefault(row["id"], []).append(row)
    catalogue = list(threads()), grades, table("conditions.csv")
    draw = random.Random(options.seed)
    joints = [random_joint(draw, catalogue) for _ in range(options.joints)]

    asked = "".join(line(joint) + "\n" for joint in joints)
    done = subprocess.run([options.answers], input=asked, capture_output=True, text=True, check=True)
    answered = done.stdout.splitlines()
    if len(answered) != len(joints):
        sys.exit(f"{len(answered)} answers to {len(joints)} questions")

    wrong = 0
    for joint, ours in zip(joints, answered):
        for difference in differences(joint, ours):
            wrong += 1
            if wrong <= 20:
                print(f"{line(joint)}: {difference}")
    faults = sum(ours.startswith("error,") for ours in answered)
    print(f"{len(joints) - faults} answers and {faults} faults compared, {wrong} differences")
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
