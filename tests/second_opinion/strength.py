"""A second implementation of long form, limits of size, stripping, stretch, slots and lengths.

    python tests/second_opinion/strength.py target/debug/examples/strength

Written from the standards and not from our code: cones are integrated, slots are counted out, loads at yield are found
by root finding, and the closed form of the friction band is held against a Monte-Carlo draw. Every number must agree to
1e-9 relative, integrated ones to 1e-7. Exits with 1 on any difference.
"""

import argparse
import math
import random
import subprocess
import sys

import numpy as np
from scipy import integrate, optimize

from second_opinion import INCH, inches, strength as strength_at, table

# Standards of bolts that machine joints are computed for.
STANDARDS = ("SAE J429", "ISO 898-1", "ISO 3506-1", "ASTM F593")
RELATIVE = 1e-9
INTEGRATED = 1e-7
R40 = [
    100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280, 300,
    315, 335, 355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950,
]
PREFERRED = [n * 10**decade for decade in (-1, 0, 1) for n in R40]
METRIC_LENGTHS = [
    2, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150,
    160, 180, 200, 220, 240, 260, 280, 300, 320, 340,
]
INCH_LENGTHS = sorted({n / 8 for n in range(2, 9)} | {n / 4 for n in range(4, 25)} | {n / 2 for n in range(12, 41)})


def threads():
    hexes = {(row["system"], row["size"]): row for row in table("across_flats.csv")}
    for row in table("threads_unified.csv"):
        d, n = inches(row["size"]), float(row["threads_per_inch"])
        yield thread(
            f"{row['size']}-{row['threads_per_inch']} {row['series']}", "inch", d, d * INCH, INCH / n, row["series"],
            math.pi / 4 * (d - 0.9743 / n) ** 2 * INCH**2, hexes.get(("inch", row["size"])), INCH,
        )
    for row in table("threads_metric.csv"):
        d, p = float(row["diameter_mm"]), float(row["pitch_mm"])
        area = math.pi / 4 * (d - (0.649519 + 1.226869) / 2 * p) ** 2
        yield thread(
            f"M{row['diameter_mm']}x{row['pitch_mm']}", "metric", d, d, p, row["series"], area,
            hexes.get(("metric", row["diameter_mm"])), 1.0,
        )


def thread(said, system, size, d, p, series, area, part, unit):
    found = {"said": said, "system": system, "size": size, "d": d, "p": p, "series": series, "area": area}
    if part:
        found["hex"] = {key: float(part[key]) * unit for key in ("bearing_diameter", "nut_height", "clearance_hole")}
    return found


# Long form: forces on the thread flank and on the seat, resolved.

def arms(t, mt, mb, mean, cone):
    helix = t["p"] / (2 * math.pi)
    flank = mt / math.cos(math.radians(30)) * (t["d"] - 0.649519 * t["p"]) / 2
    seat = mb * mean / 2 / (math.sin(math.radians(cone)) if cone else 1.0)
    return helix, flank, seat


def mises(load, twist, area, divisor):
    d0 = math.sqrt(4 * area / math.pi)
    tension, shear = load / area, twist / (math.pi * d0**3 / divisor)
    first, second = np.linalg.eigvalsh([[tension, shear], [shear, 0.0]])
    return math.sqrt(first**2 - first * second + second**2)


def long_form(q):
    t, (proof, yields, tensile) = q["thread"], q["stress"]
    mean = q["seat"] or (t["hex"]["bearing_diameter"] + t["hex"]["clearance_hole"]) / 2
    parts = arms(t, q["mt"], q["mb"], mean, q["cone"])
    working = proof if not math.isnan(proof) else 0.85 * yields
    if q["load"]:
        load = q["load"]
    elif q["yield"]:
        over = lambda f: mises(f, f * (parts[0] + parts[1]), t["area"], 12) / (q["yield"] * yields) - 1
        load = optimize.brentq(over, 1e-3, 2 * yields * t["area"], xtol=1e-12, rtol=1e-14)
    else:
        load = (q["proof"] or 0.75) * working * t["area"]
    twist = load * (parts[0] + parts[1])
    total = load * sum(parts) / 1000
    d2 = t["d"] - 0.649519 * t["p"]
    slope = math.atan(t["p"] / (math.pi * d2))
    grip = math.atan(q["mt"] / math.cos(math.radians(30)))
    loosen = load * (math.tan(grip - slope) * d2 / 2 + parts[2]) / 1000
    numbers = [total, load, *(load * a / 1000 for a in parts), loosen, total * 1000 / load / t["d"]]
    numbers += [mises(load, twist, t["area"], 12), mises(load, twist, t["area"], 16)]
    if q["low"]:
        ends = [sum(arms(t, mu, mu, mean, q["cone"])) for mu in (q["low"], q["high"])]
        numbers += [load * ends[0] / 1000, load * ends[1] / 1000, total * 1000 / ends[1], total * 1000 / ends[0]]
        monte_carlo(q, t, mean, total, numbers[-2:])
    return numbers


def monte_carlo(q, t, mean, total, band):
    """Draws frictions between their ends: no clamp load leaves the closed form's band, some come close to its ends."""
    mt, mb = q["draws"].uniform(q["low"], q["high"], (2, 20_000))
    loads = total * 1000 / sum(arms(t, mt, mb, mean, q["cone"]))
    if loads.min() < band[0] * (1 - 1e-9) or loads.max() > band[1] * (1 + 1e-9):
        sys.exit(f"{t['said']}: a drawn clamp load leaves the band")
    width = band[1] - band[0]
    if loads.min() > band[0] + 0.2 * width or loads.max() < band[1] - 0.2 * width:
        sys.exit(f"{t['said']}: the band is wider than anything drawn")


# Limits of size.

def unified_limits(t, close):
    d, p = t["d"] / INCH, t["p"] / INCH
    engaged = d if t["series"] in ("UNC", "UNF", "UN") else 9 * p
    tolerance = 0.0015 * d ** (1 / 3) + 0.0015 * engaged**0.5 + 0.015 * p ** (2 / 3)
    allowance = 0.0 if close else 0.3 * tolerance
    outer = tolerance * (0.75 if close else 1.0)
    inner = tolerance * (0.975 if close else 1.3)
    by_size = 0.05 * p ** (2 / 3) + 0.03 * p / d - 0.002
    if close:
        floor = 0.23 * p - 1.5 * p * p if 1 / p > 12.5 else 0.12 * p
        minor = min(max(by_size, floor), 0.394 * p)
    elif d < 0.2499:
        minor = min(max(by_size, 0.25 * p - 0.4 * p * p), 0.394 * p)
    else:
        minor = 0.25 * p - 0.4 * p * p
    d2, d1 = d - 0.649519 * p, d - 1.082532 * p
    values = [
        d - allowance - 0.06 * p ** (2 / 3), d - allowance, d2 - allowance - outer, d2 - allowance,
        d2, d2 + inner, d1, d1 + minor,
    ]
    return [v * INCH for v in values]


def rounded(value):
    """The nearest R40 number, the greater of two that are as near."""
    return min(reversed(PREFERRED), key=lambda n: abs(n - value))


def metric_limits(t):
    d, p = t["d"], t["p"]
    ends = [0.99, 1.4, 2.8, 5.6, 11.2, 22.4, 45, 90, 180, 355]
    low, high = next((a, b) for a, b in zip(ends, ends[1:]) if d <= b)
    pitch = rounded(90 * p**0.4 * math.sqrt(low * high) ** 0.1)
    inner = PREFERRED[PREFERRED.index(pitch) + 5]
    major = rounded(180 * p ** (2 / 3) - 3.15 / math.sqrt(p))
    minor = rounded(433 * p - 190 * p**1.22 if p < 1 else 230 * p**0.7)
    gap = math.floor(15 + 11 * p + 0.5)
    d2, d1 = d - 0.649519 * p, d - 1.082532 * p
    mm = lambda um: um / 1000
    return [
        d - mm(gap) - mm(major), d - mm(gap), d2 - mm(gap) - mm(pitch), d2 - mm(gap),
        d2, d2 + mm(inner), d1, d1 + mm(minor),
    ]


def limits(t, close=False):
    return unified_limits(t, close) if t["system"] == "inch" else metric_limits(t)


# Stripping, engagement, faces.

def joint(q):
    t, metals = q["thread"], q["metals"]
    tensile = q["stress"][2]
    major, _, pitch, _, _, inner_pitch, _, inner_minor = limits(t)
    flank = math.tan(math.radians(30))
    # Each ridge sheared off is as thick as the thread is at that cylinder.
    outside = math.pi * inner_minor * (t["p"] / 2 + (pitch - inner_minor) * flank) / t["p"]
    inside = math.pi * major * (t["p"] / 2 + (major - inner_pitch) * flank) / t["p"]
    breaking = tensile * t["area"]
    wanted = breaking / (outside * tensile / 2)
    engaged = length(q)[2]
    bears = [outside * engaged * tensile / 2, math.nan]
    trade = math.nan
    if q["tapped"]:
        bears[1] = inside * engaged * float(metals[q["tapped"][0]]["shear"])
        metal = metals[q["tapped"][0]]
        wanted = max(wanted, breaking / (inside * float(metal["shear"])))
        trade = float(metal["trade_engagement"]) * t["d"]
    equal = 2 * t["area"] / (0.5 * math.pi * (t["d"] - 0.64952 * t["p"]))
    proof, yields, _ = q["stress"]
    load = 0.75 * (proof if not math.isnan(proof) else 0.85 * yields) * t["area"]
    ring = math.pi * ((t["hex"]["bearing_diameter"] / 2) ** 2 - (t["hex"]["clearance_hole"] / 2) ** 2)
    faces = [load / ring] * (1 if q["tapped"] else 2)
    return [wanted, trade, equal, outside, inside, *bears, *faces]


# Stretch.

def springs(q):
    metals = q["metals"]
    layers = [(mm, float(metals[metal]["modulus"])) for metal, mm in q["layers"]]
    if q["tapped"]:
        metal, depth = q["tapped"]
        layers.append((min(depth, q["thread"]["d"]) / 2, float(metals[metal]["modulus"])))
    return layers


def pressed(layers, d, start):
    """Compliance of the clamped parts: the cone from each end integrated down to the middle."""
    half = sum(mm for mm, _ in layers) / 2
    slope = math.tan(math.radians(30))
    ring = lambda x: math.pi / 4 * ((start + 2 * slope * x) ** 2 - d * d)
    compliance = 0.0
    for order in (layers, layers[::-1]):
        passed = 0.0
        for mm, modulus in order:
            end = min(passed + mm, half)
            if end > passed:
                part, _ = integrate.quad(lambda x: 1 / ring(x), passed, end, epsabs=0, epsrel=1e-12)
                compliance += part / modulus
            passed = end
    return compliance


def thread_length(t, bolt):
    if t["system"] == "inch":
        b = 2 * t["d"] + (0.25 if bolt <= 6 * INCH else 0.5) * INCH
    else:
        b = 2 * t["d"] + (6 if bolt <= 125 else 12 if bolt <= 200 else 25)
    return min(b, bolt)


def stretch(q):
    t, bolt = q["thread"], q["bolt"]
    grip = sum(mm for _, mm in q["layers"])
    body = min(bolt - thread_length(t, bolt), grip)
    whole, core = math.pi / 4 * t["d"] ** 2, math.pi / 4 * (t["d"] - 1.226869 * t["p"]) ** 2
    steel = 205_000
    held = (0.33, float(q["metals"][q["tapped"][0]]["modulus"])) if q["tapped"] else (0.4, steel)
    bolt_gives = sum([
        0.5 * t["d"] / (steel * whole), body / (steel * whole), (grip - body) / (steel * core),
        0.5 * t["d"] / (steel * core), held[0] * t["d"] / (held[1] * whole),
    ])
    layers = springs(q)
    members_give = pressed(layers, t["d"], t["hex"]["bearing_diameter"])
    proof, yields, _ = q["stress"]
    load = 0.75 * (proof if not math.isnan(proof) else 0.85 * yields) * t["area"]
    together = bolt_gives + members_give
    settled = (3 + 2 * 3 + 2 * (len(layers) - 1)) / 1000
    return [
        1 / bolt_gives, 1 / members_give, members_give / together, load * together / t["p"] * 360, load * bolt_gives,
        settled / together,
    ]


# Lengths and slots.

def length(q):
    t, bolt = q["thread"], q["bolt"]
    grip = sum(mm for _, mm in q["layers"])
    reach = bolt - grip
    if q["tapped"]:
        metal, depth = q["tapped"]
        needed, most, room = grip + float(q["metals"][metal]["trade_engagement"]) * t["d"], grip + depth - t["p"], depth
    else:
        needed, most, room = grip + t["hex"]["nut_height"] + t["p"], math.inf, t["hex"]["nut_height"]
    stock = [n * INCH for n in INCH_LENGTHS] if t["system"] == "inch" else METRIC_LENGTHS
    standard = next((n for n in stock if n >= needed - 1e-9 * (t["system"] == "inch")), math.nan)
    threaded = bolt - thread_length(t, bolt)
    bottoms = bool(q["tapped"]) and reach > 0 and reach > q["tapped"][1] - t["p"]
    return [
        needed, standard if standard <= most else math.nan, max(min(reach, room), 0.0),
        max(threaded - 5 * t["p"], 0.0), threaded, float(bottoms),
    ]


def slots(count, holes):
    """Turns the nut and notes where some hole sees a slot; the longest way from one to the next."""
    seen = sorted({(slot * 360 / count - hole * 90) % 360 for slot in range(count) for hole in range(holes)})
    return [max((b - a) % 360 or 360 for a, b in zip(seen, seen[1:] + seen[:1]))]


def washers(slot, window, step, p):
    turn = p / 360
    return [(slot - window) * turn, slot * turn, (step - slot) * turn, (step - slot + window) * turn]


# Questions.

def random_question(draw, numpy_draw, catalogue):
    all_threads, grades, metals = catalogue
    kind = draw.choice(["long", "limits", "joint", "stretch", "length", "slots", "washers"])
    number = lambda value: "" if value is None else repr(value)
    if kind == "slots":
        count, holes = draw.choice([4, 6, 8, 10, 12]), draw.choice([1, 2])
        return f"slots,{count},{holes}", slots(count, holes), RELATIVE
    if kind == "washers":
        step = draw.choice([30.0, 45.0, 60.0])
        slot = draw.uniform(1.0, step)
        window, p = draw.uniform(0.0, slot), draw.uniform(0.5, 4.0)
        return f"washers,{slot!r},{window!r},{step!r},{p!r}", washers(slot, window, step, p), RELATIVE
    if kind == "limits":
        t = draw.choice(all_threads)
        close = t["system"] == "inch" and draw.random() < 0.5
        return f"limits,{t['said']},{'close' if close else ''}", limits(t, close), RELATIVE
    while True:
        t = draw.choice([t for t in all_threads if "hex" in t])
        rows = draw.choice(list(grades.values()))
        stress = strength_at(rows, t)
        if stress and not math.isnan(stress[1]):
            break
    grade = f"{rows[0]['standard']} {rows[0]['name']}"
    if kind == "long":
        low, high = sorted(draw.uniform(0.03, 0.5) for _ in range(2))
        band = draw.random() < 0.3
        aim = draw.choice(["proof", "yield", "load", None])
        q = {
            "thread": t, "stress": stress, "mt": draw.uniform(low, high), "mb": draw.uniform(low, high),
            "low": low if band else None, "high": high if band else None,
            "seat": t["d"] * draw.uniform(1.1, 2.0) if draw.random() < 0.5 else None,
            "cone": draw.uniform(12.0, 75.0) if draw.random() < 0.3 else None,
            "proof": draw.uniform(0.06, 0.99) if aim == "proof" else None,
            "yield": draw.uniform(0.06, 0.99) if aim == "yield" else None,
            "load": draw.uniform(0.1, 0.9) * stress[2] * t["area"] if aim == "load" else None,
            "draws": numpy_draw,
        }
        keys = ("mt", "mb", "low", "high", "seat", "cone", "proof", "yield", "load")
        return ",".join(["long", t["said"], grade, *(number(q[k]) for k in keys)]), long_form(q), RELATIVE
    layers = [(draw.choice(list(metals)), draw.uniform(2.0, 40.0)) for _ in range(draw.randint(1, 5))]
    grip = sum(mm for _, mm in layers)
    tapped = (draw.choice(list(metals)), draw.uniform(0.6, 3.0) * t["d"]) if draw.random() < 0.5 else None
    q = {
        "thread": t, "stress": stress, "metals": metals, "layers": layers, "tapped": tapped,
        "bolt": grip + draw.uniform(0.3, 3.5) * t["d"],
    }
    stack = ";".join(f"{metal}:{mm!r}" for metal, mm in layers)
    far = f"{tapped[0]}:{tapped[1]!r}" if tapped else ""
    if kind == "length":
        return f"length,{t['said']},{stack},{far},{q['bolt']!r}", length(q), RELATIVE
    asked = f"{kind},{t['said']},{grade},{stack},{far},{q['bolt']!r}"
    return (asked, joint(q), RELATIVE) if kind == "joint" else (asked, stretch(q), INTEGRATED)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("answers", help="the built example `strength` of clampbook-engine")
    parser.add_argument("--questions", type=int, default=20_000)
    parser.add_argument("--seed", type=int, default=random.SystemRandom().randrange(2**32))
    options = parser.parse_args()
    print(f"second opinion on strength: {options.questions} questions, seed {options.seed}", flush=True)

    grades = {}
    for row in table("grades.csv"):
        if row["standard"] in STANDARDS:
            grades.setdefault(row["id"], []).append(row)
    metals = {row["name"]: row for row in table("parent_metals.csv")}
    catalogue = list(threads()), grades, metals
    draw, numpy_draw = random.Random(options.seed), np.random.default_rng(options.seed)
    questions = [random_question(draw, numpy_draw, catalogue) for _ in range(options.questions)]

    asked = "".join(line + "\n" for line, _, _ in questions)
    done = subprocess.run([options.answers], input=asked, capture_output=True, text=True, check=True)
    answered = done.stdout.splitlines()
    wrong = abs(len(answered) - len(questions))
    for (line, expected, tolerance), ours in zip(questions, answered):
        theirs = [] if ours.startswith("error") else [float(n) for n in ours.split(",")]
        same = len(theirs) == len(expected) and np.allclose(
            theirs, expected, rtol=tolerance, atol=1e-9, equal_nan=True
        )
        if not same:
            wrong += 1
            if wrong <= 20:
                print(f"{line}\n  ours {ours}\n  expected {expected}")
    print(f"{len(questions)} answers compared, {wrong} differences")
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
