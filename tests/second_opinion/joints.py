"""A second implementation of whole joints: see stacks.py and springs.py.

    python tests/second_opinion/joints.py target/debug/examples/joints
"""

import math

import compare
from second_opinion import table
from springs import SETTLING, castle, springs
from stacks import METALS, Findings, stacked
from strength import INTEGRATED, STANDARDS, strength_at, threads

LUBRICATIONS = table("lubrications.csv")
THREADS = [t for t in threads() if "hex" in t]
GRADES = {}
for grade_row in table("grades.csv"):
    if grade_row["standard"] in STANDARDS:
        GRADES.setdefault(grade_row["id"], []).append(grade_row)


def numbers_agree(ours, expected, relative):
    theirs = [float(n) for n in ours.split(",") if n]
    return len(theirs) == len(expected) and all(compare.close(a, b, relative) for a, b in zip(theirs, expected))


def findings_agree(ours, expected):
    found = Findings()
    for one in filter(None, ours.split(";")):
        key, severity, share = one.split("=")
        found.add(key, severity, float(share))
    if found.keys() != expected.keys():
        return False
    for key, wanted in expected.items():
        mine = sorted(found[key])
        if len(mine) != len(wanted):
            return False
        if not all(a[0] == b[0] and compare.close(a[1], b[1], INTEGRATED) for a, b in zip(mine, sorted(wanted))):
            return False
    return True


def stacked_agree(ours, expected):
    if expected is None or ours == "error":
        return expected is None and ours == "error"
    lengths, engagement, partners, faces, found = ours.split("|")
    rows = [one.split("=") for one in partners.split(";")]
    bears = [float(load) for _, load in rows]
    return (
        numbers_agree(lengths, expected[0], compare.RELATIVE)
        and numbers_agree(engagement, expected[1], compare.RELATIVE)
        and {key for key, _ in rows} == expected[2].keys()
        and all(compare.close(float(load), expected[2][key]) for key, load in rows)
        and bears == sorted(bears)
        and numbers_agree(faces, expected[3], compare.RELATIVE)
        and findings_agree(found, expected[4])
    )


def springs_agree(ours, expected):
    if expected is None or ours == "error":
        return expected is None and ours == "error"
    numbers, found = ours.split("|")
    return numbers_agree(numbers, expected[0], INTEGRATED) and findings_agree(found, expected[1])


def castle_agrees(ours, expected):
    if expected is None or ours == "error":
        return expected is None and ours == "error"
    numbers, verdict, said, found = ours.split("|")
    return (
        numbers_agree(numbers, expected[0], INTEGRATED)
        and verdict == expected[1]
        and numbers_agree(said, expected[2], INTEGRATED)
        and found.split("=")[0] == expected[3]
    )


KINDS = {"stack": (stacked, stacked_agree), "springs": (springs, springs_agree), "castle": (castle, castle_agrees)}
NAMES = ("tapped", "shear", "depth", "bolt", "threaded", "nut", "bearing", "hole", "head_height", "head_diameter", "room",
         "space", "shear_plane", "fit", "modulus", "plane", "roughness", "slots", "holes", "minimum", "maximum", "prevailing_torque", "to_slot")


def questions(draw):
    maybe = lambda chance, low, high: draw.uniform(low, high) if draw.random() < chance else None
    while True:
        kind = draw.choice(list(KINDS))
        t, grade = draw.choice(THREADS), draw.choice(list(GRADES.values()))
        stress = strength_at(grade, t)
        if not stress or math.isnan(stress[1]):
            continue
        d, metals = t["d"], list(METALS)
        layers = [
            (draw.choice(metals), draw.uniform(1.5, 30.0), maybe(0.4, d, 3 * d)) for _ in range(draw.randint(1, 4))
        ]
        grip = sum(layer[1] for layer in layers)
        tapped = draw.choice(metals) if draw.random() < 0.5 else None
        bolt = grip + draw.uniform(-0.2 if kind == "stack" else 0.05, 3.0) * d
        if kind == "stack" and draw.random() < 0.15:
            bolt = None
        q = {
            "thread": t, "grade": grade, "stress": stress, "lubrication": draw.choice(LUBRICATIONS), "layers": layers,
            "tapped": tapped, "shear": maybe(0.3, 50.0, 600.0) if tapped else None,
            "depth": draw.uniform(0.05, 3.0) * d + 0.1 if tapped else None,
            "blind": bool(tapped) and draw.random() < 0.5, "insert": bool(tapped) and draw.random() < 0.5,
            "bolt": bolt if bolt is None else max(bolt, 0.5), "threaded": maybe(0.2, 0.5 * d, 4 * d), "nut": maybe(0.2, 0.4 * d, 1.5 * d),
            "bearing": maybe(0.2, 1.2 * d, 2.5 * d), "hole": maybe(0.2, 1.01 * d, 1.4 * d),
            "head_height": None, "head_diameter": None, "room": None, "space": None, "shear_plane": None, "fit": None,
            "modulus": None, "plane": None, "roughness": "machined", "slots": None, "holes": None, "minimum": None,
            "maximum": None, "prevailing_torque": None, "to_slot": None,
        }
        if kind == "stack":
            q |= {
                "room": maybe(0.3, 0.3 * d, 1.2 * d), "space": maybe(0.3, 1.2 * d, 2.5 * d),
                "head_height": maybe(0.2, 0.4 * d, d), "head_diameter": maybe(0.2, 1.3 * d, 2.2 * d),
                "shear_plane": maybe(0.4, 0.1, 1.5 * grip), "fit": "close" if t["system"] == "inch" and draw.random() < 0.3 else None,
            }
        else:
            q |= {
                "modulus": maybe(0.3, 60_000.0, 220_000.0), "plane": maybe(0.4, 0.0, 1.0),
                "roughness": draw.choice(list(SETTLING)),
            }
        if kind == "castle":
            per_newton = float(q["lubrication"]["nut_factor"]) * d / 1000
            working = 0.75 * stress[1] * t["area"] * per_newton
            minimum = working * draw.uniform(0.02, 1.6)
            count, holes = draw.choice([None, 4, 6, 8, 10, 12]), draw.choice([None, 1, 2])
            q |= {
                "slots": count, "holes": holes, "minimum": minimum, "prevailing_torque": maybe(0.4, 0.0, 0.2 * minimum),
                "maximum": minimum * draw.uniform(1.0, 1.8) if draw.random() < 0.85 else None,
                "to_slot": maybe(0.7, 0.0, 360 / (count or 6)),
            }
            if q["minimum"] < 0.01:
                continue
        said = [f"thread={t['said']}", f"grade={grade[0]['standard']} {grade[0]['name']}", f"lubrication={q['lubrication']['name']}"]
        said.append("layers=" + ";".join(":".join([metal, repr(mm), compare.said(outer)]) for metal, mm, outer in layers))
        said += [f"{key}={compare.said(q[key])}" for key in NAMES if q[key] is not None]
        said += [f"{key}=yes" for key in ("blind", "insert") if q[key]]
        answer, agrees = KINDS[kind]
        yield ",".join([kind, *said]), answer(q), agrees


if __name__ == "__main__":
    compare.main("whole joints", questions, 12_000)
