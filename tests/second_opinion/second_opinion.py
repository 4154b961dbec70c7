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
    "tensile_load", "nut_proof_load", "minimum", "maximum", "relative_scatter", "low_nut_factor", "high_nut_factor",
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
            "system": "inch", "series": row["series"], "size": d, "d": d * INCH, "p": INCH / n, "area": area,
        }
    for row in table("threads_metric.csv"):
        d, p = float(row["diameter_mm"]), float(row["pitch_mm"])
        mean = float(np.mean([d - 0.649519 * p, d - 1.226869 * p]))
        yield {
            "said": f"M{row['diameter_mm']}x{row['pitch_mm']}",
            "system": "metric", "series": row["series"], "size": d, "d": d, "p": p, "area": math.pi * mean**2 / 4,
        }


def strength(rows, thread):
    """Proof, yield and tensile stress of the row whose sizes hold the thread."""
    row = row_at(rows, thread)
    if row is None:
        return None
    unit = KSI if row["stress_unit"] == "ksi" else 1.0
    stress = lambda column: float(row[column]) * unit if row[column] else math.nan
    return stress("proof"), stress("yield"), stress("tensile")


def row_at(rows, thread):
    """The row whose sizes hold the thread; `>16` begins above 16."""
    for row in rows:
        low, high = row["size_min"], float(row["size_max"])
        above = thread["size"] > float(low[1:]) if low[0] == ">" else thread["size"] >= float(low)
        if row["system"] == thread["system"] and above and thread["size"] <= high:
            return row
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


def plated_hardness(joint):
    """Minimum hardness of an electroplated part that needs baking, 39 HRC and more; nothing for other parts."""
    row = row_at(joint["grade_rows"], joint["thread"])
    plated = joint["lubrication"] and joint["lubrication"]["electroplated"] == "yes"
    if not plated or not row["hardness"].startswith("HRC "):
        return None
    minimum = float(row["hardness"][4:].split("-")[0])
    return minimum if minimum >= 39 else None


def nut_row(joint):
    """The row of the nut that holds at this size and series."""
    thread = joint["thread"]
    for row in joint["nut_rows"]:
        low, high = row["size_min"], inches(row["size_max"]) if thread["system"] == "inch" else float(row["size_max"])
        minimum = inches(low.lstrip(">")) if thread["system"] == "inch" else float(low.lstrip(">"))
        above = thread["size"] > minimum if low[0] == ">" else thread["size"] >= minimum
        fits = row["system"] == thread["system"] and thread["series"] in row["threads"].split()
        if fits and above and thread["size"] <= high:
            return row
    return None


def exceeds(load, limit):
    """More than the last binary digit above the limit."""
    return load > limit * (1 + 1e-12)


def nut_findings(joint, nominal, maximum, working):
    """Proof load of the nut, and what it bears too little of."""
    if not joint["nut_rows"]:
        return math.nan, {}
    row, area = nut_row(joint), joint["thread"]["area"]
    proof = float(row["proof"]) * (KSI if row["stress_unit"] == "ksi" else 1.0) * area
    found = {}
    if exceeds(nominal, proof):
        found["nut-against-target"] = ("Stop", nominal / proof)
    elif exceeds(maximum, proof):
        found["nut-against-maximum"] = ("Caution", maximum / proof)
    if exceeds(working, proof):
        found["nut-weaker-than-bolt"] = ("Caution", working / proof)
    if joint["grade_rows"][0]["id"] not in row["mates"].split():
        found["nut-not-made-for-bolt"] = ("Caution", working / proof)
    return proof, found


def findings(thread, stresses, nominal, share, torque, maximum):
    proof, yield_stress, tensile = stresses
    working = (proof if not math.isnan(proof) else 0.85 * yield_stress) * thread["area"]
    found = {}
    if share >= 0.9:
        found["nominal-against-proof"] = ("Stop" if exceeds(share, 1) else "Caution", share)
    if exceeds(maximum, tensile * thread["area"]):
        found["maximum-against-tensile"] = ("Stop", maximum / (tensile * thread["area"]))
    if exceeds(maximum, working):
        found["maximum-against-proof"] = ("Caution", maximum / working)
    if not math.isnan(yield_stress):
        combined = combined_share(thread, nominal, torque, yield_stress)
        if exceeds(combined, 1):
            found["combined-against-yield"] = ("Caution", combined)
    return found


def answer(joint):
    """`error,<field>` for the first fault, else what decided, the numbers and the findings."""
    thread, lubrication = joint["thread"], joint["lubrication"]
    stresses = strength(joint["grade_rows"], thread)
    share, load, k = joint["share"], joint["load"], joint["k"]
    # Structural grades are tightened by their own rules, and letter grades have neither proof nor yield.
    if stresses is None or joint["grade_rows"][0]["use"]:
        return "grade"
    if lubrication is None and k is None:
        return "lubrication"
    if k is not None and not 0.05 <= k <= 0.60:
        return "nut_factor"
    if joint["nut_rows"] and nut_row(joint) is None:
        return "nut_grade"
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
    own = [float(lubrication[c]) for c in ("nut_factor", "low_nut_factor", "high_nut_factor")] if lubrication else [k] * 3
    used = own[0] if k is None else k
    torque = lambda factor: factor * nominal * (thread["d"] * constants.milli)
    error = 0.25 if lubrication and lubrication["lubricated"] == "yes" else 0.35
    maximum = (1 + error) * nominal
    nut_proof, found = nut_findings(joint, nominal, maximum, working)
    hardness = plated_hardness(joint)
    if hardness is not None and not joint["baked"]:
        found["plated-hard-unbaked"] = ("Stop", hardness / 39)
    numbers = [
        torque(used), nominal, used, area, proof * area, yield_stress * area, tensile * area, nut_proof,
        (1 - error) * nominal, maximum, error, own[1], own[2], torque(own[1]), torque(own[2]),
    ]
    return governed, numbers, found | findings(thread, stresses, nominal, part, torque(used), maximum)


def grades_at(grades, thread):
    if "grades" not in thread:
        thread["grades"] = [g for g in grades.values() if strength(g, thread)]
    return thread["grades"]


def random_nut(draw, nuts, thread):
    """Mostly a nut that exists at this size, sometimes any."""
    known = [rows for rows in nuts.values() if nut_row({"thread": thread, "nut_rows": rows})]
    if not known:
        return []
    return draw.choice(known) if draw.random() < 0.95 else draw.choice(list(nuts.values()))


def random_joint(draw, catalogue):
    all_threads, grades, lubrications, nuts = catalogue
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
        "lubrication": draw.choice(lubrications) if draw.random() < 0.95 else None,
        "share": draw.uniform(0.03, 1.03) if target < 0.6 else None,
        "load": draw.uniform(0.0, strongest) if 0.58 < target < 0.9 else None,
        "k": draw.uniform(0.04, 0.61) if draw.random() < 0.4 else None,
        "nut_rows": random_nut(draw, nuts, thread) if draw.random() < 0.5 else [],
        "baked": draw.random() < 0.3,
    }


def line(joint):
    number = lambda value: "" if value is None else repr(value)
    lubrication = joint["lubrication"]["name"] if joint["lubrication"] else ""
    grade = joint["grade_rows"][0]
    nut = f"{joint['nut_rows'][0]['standard']} {joint['nut_rows'][0]['name']}" if joint["nut_rows"] else ""
    return ",".join([
        joint["thread"]["said"], f"{grade['standard']} {grade['name']}", lubrication,
        number(joint["share"]), number(joint["load"]), number(joint["k"]), nut, "baked" if joint["baked"] else "",
    ])


def differences(joint, ours):
    """What the engine says otherwise than we do."""
    expected, fields = answer(joint), ours.split(",")
    if isinstance(expected, str) or fields[0] == "error":
        said = fields[1] if fields[0] == "error" else "an answer"
        return [] if said == expected else [f"expected a fault in {expected}, got {said}"]
    governed, numbers, found = expected
    wrong = [] if fields[0] == governed else [f"governed by {fields[0]}, expected {governed}"]
    theirs = np.array([float(f) for f in fields[1:16]])
    same = np.isclose(theirs, np.array(numbers), rtol=RELATIVE, atol=0.0, equal_nan=True)
    wrong += [f"{n}: {t!r}, expected {e!r}" for n, t, e, s in zip(NUMBERS, theirs, numbers, same) if not s]
    reported = {}
    for item in fields[16].split():
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
    nuts = {}
    for row in table("nuts.csv"):
        nuts.setdefault(row["id"], []).append(row)
    catalogue = list(threads()), grades, table("lubrications.csv"), nuts
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
