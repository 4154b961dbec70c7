"""A second implementation of units, of what a published torque implies, of slips of its unit, and of used lock nuts.

    python tests/second_opinion/published.py target/debug/examples/published

Units come from pint, decimals from Python's decimal arithmetic, strengths and areas from the second implementation of
torque. A slip of the unit is looked for by reading the same number in every unit.
"""

import math
from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction

import compare
from second_opinion import INCH, UNITS, strength, table
from second_opinion import threads as bolt_threads

# Unit as shown, as pint knows it, and ways to write it.
TORQUES = [
    ("N·m", "newton * meter", ["N·m", "Nm", "N.m", "N m", "newton metres"]),
    ("lbf·ft", "force_pound * foot", ["lbf·ft", "ft-lb", "ft lbs", "lb-ft", "pound-force feet"]),
    ("lbf·in", "force_pound * inch", ["lbf·in", "in-lb", "in lbs", "lb-in", "inch-pounds"]),
    ("kgf·m", "force_kilogram * meter", ["kgf·m", "kg-m", "mkg", "kgf m"]),
]
NEWTON_METRES = {unit[0]: UNITS.Quantity(1.0, unit[1]).to("newton * meter").magnitude for unit in TORQUES}
FOOT_POUND = NEWTON_METRES["lbf·ft"]
BETWEEN = (0.15, 1.2)

LUBRICATIONS = table("lubrications.csv")
THREADS = list(bolt_threads())
GRADES = {}
for grade_row in table("grades.csv"):
    GRADES.setdefault(grade_row["id"], []).append(grade_row)
ROWS = {row["id"]: row for row in table("published_torques.csv")}
TARGETS = {row["id"]: row for row in table("published_targets.csv")}
LOCK_NUTS = table("lock_nuts.csv")


def three_figures(value):
    """Three significant figures without an exponent, of the very number that is stored."""
    exact = Decimal(value)
    place = Decimal(1).scaleb(exact.adjusted() - 2)
    rounded = exact.quantize(place, rounding=ROUND_HALF_EVEN)
    if rounded.adjusted() > exact.adjusted():
        place = place.scaleb(1)
    digits = f"{rounded.quantize(place if place < 1 else Decimal(1)):f}"
    return digits.rstrip("0").rstrip(".") if "." in digits else digits


def beside(torque, unit):
    """The torque in the other unit: the other world's, but inches where feet and inches could be confused."""
    small = torque < 20 * FOOT_POUND
    other = {"N·m": "lbf·in" if small else "lbf·ft", "lbf·ft": "lbf·in" if small else "N·m"}.get(unit, "N·m")
    return f"{three_figures(torque / NEWTON_METRES[other])} {other}"


def shown(torque, unit):
    return f"{three_figures(torque / NEWTON_METRES[unit])} {unit} ({beside(torque, unit)})"


def believable(share):
    return BETWEEN[0] <= share <= BETWEEN[1]


def slip(q):
    """What the number implies as it stands and, if nobody would believe it, in which other units one would."""
    thread, number, unit = q["thread"], q["number"], q["unit"]
    from_k, to = float(q["published"]["nut_factor"]), q["lubrication"]
    load = lambda torque: torque / (from_k * thread["d"] / 1000.0)
    implied = load(number * NEWTON_METRES[unit])
    share, verdict, readings = math.nan, "not checked", []
    if q["grade"]:
        stresses = strength(q["grade"], thread)
        if stresses is None:
            return None
        proof, yields, _ = stresses
        working = (0.85 * yields if math.isnan(proof) else proof) * thread["area"]
        share = implied / working
        if believable(share):
            verdict = "believable"
        elif q["confirmed"]:
            verdict = "confirmed"
        else:
            verdict = "ask"
            for other, factor in NEWTON_METRES.items():
                torque = number * factor
                apart = max(factor / NEWTON_METRES[unit], NEWTON_METRES[unit] / factor)
                if believable(load(torque) / working):
                    readings.append((other, [torque, load(torque) / working, apart]))
    restated = []
    if to and verdict != "ask":
        error = 0.25 if to["lubricated"] == "yes" else 0.35
        ratio = float(to["nut_factor"]) / from_k
        restated = [
            float(to["nut_factor"]) * implied * thread["d"] / 1000.0, ratio, (1 - error) * implied, (1 + error) * implied,
        ]
    # Nobody sets more than a million newton metres.
    if any(torque > 1e6 for torque in [number * NEWTON_METRES[unit], *restated[:1]]):
        return None
    return [implied, share], verdict, readings, restated


def slip_agrees(ours, expected):
    if expected is None or ours == "error":
        return expected is None and ours == "error"
    first, unit, restated = ours.split("|")
    verdict, *read = unit.split(";")
    read = [one.split("=") for one in read if one]
    return (
        compare.numbers_agree(first, expected[0])
        and verdict == expected[1]
        and [symbol for symbol, _ in read] == [symbol for symbol, _ in expected[2]]
        and all(compare.numbers_agree(n, wanted) for (_, n), (_, wanted) in zip(read, expected[2]))
        and (compare.numbers_agree(restated, expected[3]) if expected[3] else restated == "")
    )


def row_numbers(row):
    unit = {"lbf-ft": "lbf·ft", "lbf-in": "lbf·in", "N-m": "N·m"}[row["unit"]]
    return [float(row[end]) * NEWTON_METRES[unit] for end in ("low", "high")]


def target_numbers(row):
    if row["unit"] == "degrees":
        return [float(row["low"])]
    unit = {"lbf": "force_pound", "kip": "kip"}[row["unit"]]
    newtons = lambda text: UNITS.Quantity(float(text), unit).to("newton").magnitude if text else math.nan
    return [newtons(row[end]) for end in ("low", "nominal", "high")]


def lock(thread, kind, measured):
    """Each published minimum value for the size, pitch and kind; how many of them are reached decides."""
    size, pitch = thread["said"].split(" ")[0].rsplit("-", 1) if thread["system"] == "inch" else ("", "")
    minimum = [
        float(row["minimum_lbf_in"]) * NEWTON_METRES["lbf·in"]
        for row in LOCK_NUTS
        if row["size"] == size
        and row["threads_per_inch"] in ("", pitch)
        and (row["nut"] == kind or "any" in (row["nut"], kind))
    ]
    short = sum(measured < one for one in minimum)
    severity = "Note" if not minimum else "" if not short else "Stop" if short == len(minimum) else "Caution"
    return severity, minimum


def lock_agrees(ours, expected):
    severity, minimum = ours.split("|")
    same = compare.numbers_agree(minimum, expected[1]) if expected[1] else minimum == ""
    return severity == expected[0] and same


def a_length(draw):
    kind = draw.choice(["decimal", "fraction", "mixed", "mm"])
    bottom = 2 ** draw.randint(1, 6)
    top, whole = draw.randint(1, bottom - 1), draw.randint(1, 12)
    if kind == "mm":
        value = round(draw.uniform(0.1, 400.0), 3)
        return f"{value} mm", value
    if kind == "decimal":
        value = round(draw.uniform(0.01, 12.0), 4)
        return f"{value} in", value * INCH
    if kind == "fraction":
        return f"{top}/{bottom} in", float(Fraction(top, bottom)) * INCH
    return f"{whole}{draw.choice('- ')}{top}/{bottom} in", float(whole + Fraction(top, bottom)) * INCH


def questions(draw):
    while True:
        kind = draw.choice(["torque", "length", "show", "row", "target", "lock", "lock", "slip", "slip", "slip"])
        unit = draw.choice(TORQUES)
        number = float(f"{10 ** draw.uniform(-1, 3.3):.3g}")
        if kind == "torque":
            # Without a blank the dash belongs to the number: 60 lb-ft, not 60-lb.
            yield compare.line(kind, f"{number} {draw.choice(unit[2])}"), [number * NEWTON_METRES[unit[0]]], compare.numbers_agree
        elif kind == "length":
            said, mm = a_length(draw)
            yield compare.line(kind, said), [mm], compare.numbers_agree
        elif kind == "show":
            torque = 10 ** draw.uniform(-2, 4)
            yield compare.line(kind, torque, unit[0]), shown(torque, unit[0]), str.__eq__
        elif kind in ("row", "target"):
            row_id = draw.choice(list(ROWS if kind == "row" else TARGETS))
            wanted = row_numbers(ROWS[row_id]) if kind == "row" else target_numbers(TARGETS[row_id])
            yield compare.line(kind, row_id), wanted, compare.numbers_agree
        elif kind == "lock":
            known = [t for t in THREADS if t["said"].startswith(tuple(row["size"] + "-" for row in LOCK_NUTS))]
            thread = draw.choice(known if draw.random() < 0.9 else THREADS)
            nut, measured = draw.choice(["all-metal", "insert", "any"]), 10 ** draw.uniform(-1, 1.3)
            yield compare.line(kind, thread["said"], nut, measured), lock(thread, nut, measured), lock_agrees
        else:
            yield a_slip(draw, unit[0])


def a_slip(draw, unit):
    """A torque about right for its grade, then read in a unit that may be another."""
    grade = draw.choice([None, *GRADES.values()])
    thread = draw.choice([t for t in THREADS if not grade or draw.random() < 0.05 or strength(grade, t)] or THREADS)
    published = draw.choice(LUBRICATIONS)
    stresses = strength(grade, thread) if grade else None
    if stresses:
        proof, yields, _ = stresses
        about = 0.75 * (0.85 * yields if math.isnan(proof) else proof) * thread["area"]
        torque = about * draw.uniform(0.1, 1.7) * float(published["nut_factor"]) * thread["d"] / 1000.0
    else:
        torque = 10 ** draw.uniform(0, 3)
    right = draw.choice(list(NEWTON_METRES))
    number = float(f"{torque / NEWTON_METRES[right]:.6g}") * draw.choice([1, 1, 1, 10, 0.1])
    q = {
        "thread": thread, "grade": grade, "number": number, "unit": unit, "published": published,
        "lubrication": draw.choice([None, *LUBRICATIONS]), "confirmed": draw.random() < 0.2,
    }
    asked = compare.line(
        "slip", thread["said"], f"{grade[0]['standard']} {grade[0]['name']}" if grade else "", f"{number:.10f} {unit}",
        published["name"], q["lubrication"]["name"] if q["lubrication"] else "", "confirmed" if q["confirmed"] else "",
    )
    q["number"] = float(f"{number:.10f}")
    if grade and grade[0]["use"]:
        return asked, None, slip_agrees
    return asked, slip(q), slip_agrees


if __name__ == "__main__":
    compare.main("published values", questions, 20_000)
