"""A second implementation of what a stack says: lengths, threads with and without insert, faces, room for the head.

Torque and limits of size come from the second implementations of these.
"""

import math

from second_opinion import INCH, table
from second_opinion import answer as torque_answer
from strength import INCH_LENGTHS, METRIC_LENGTHS, limits, thread_length

METALS = {row["name"]: row for row in table("parent_metals.csv")}
HEXES = {(row["system"], row["size"]): row for row in table("across_flats.csv")}
SINE_60 = math.sqrt(0.75)


def hexagon(t):
    """The row of the thread's hexagon, lengths in mm."""
    size = t["said"].split(" ")[0].rsplit("-", 1)[0] if t["system"] == "inch" else t["said"][1:].split("x")[0]
    row = HEXES[t["system"], size]
    unit = INCH if row["system"] == "inch" else 1.0
    return {key: float(row[key] or "nan") * (1.0 if key == "castle_slots" else unit) for key in (
        "across_flats", "head_height", "bearing_diameter", "nut_height", "clearance_hole", "castle_slots")}


class Findings(dict):
    """id -> [(severity, value over limit)], an id may come once for each face."""

    def add(self, key, severity, share):
        self.setdefault(key, []).append((severity, share))


def measures(q):
    """What was said, else what the standards give."""
    part = hexagon(q["thread"])
    tapped = q["tapped"]
    grip = sum(layer[1] for layer in q["layers"])
    bolt = q["bolt"]
    return {
        "grip": grip,
        "bearing": q["bearing"] or part["bearing_diameter"],
        "hole": q["hole"] or part["clearance_hole"],
        "nut": 0.0 if tapped else q["nut"] or part["nut_height"],
        "threaded": q["threaded"] or (thread_length(q["thread"], bolt) if bolt else None),
        "head": (q["head_height"] or part["head_height"], q["head_diameter"] or part["across_flats"] / SINE_60),
    }


def fit(q, m, found):
    """Lengths: what the stack needs, what the bolt at hand does in it."""
    t, p = q["thread"], q["thread"]["p"]
    longest = math.nan
    if q["tapped"]:
        needed = m["grip"] + float(METALS[q["tapped"]]["trade_engagement"]) * t["d"]
        if q["blind"]:
            longest = m["grip"] + q["depth"] - p
    else:
        needed = m["grip"] + m["nut"] + p
    stock = [n * INCH for n in INCH_LENGTHS] if t["system"] == "inch" else METRIC_LENGTHS
    standard = next((n for n in stock if n >= needed - 1e-9), math.nan)
    if standard > longest:
        standard = math.nan
    if q["room"] is not None and m["head"][0] > q["room"]:
        found.add("head-room", "Stop", m["head"][0] / q["room"])
    if q["space"] is not None and m["head"][1] > q["space"]:
        found.add("head-space", "Stop", m["head"][1] / q["space"])
    head = [m["grip"], needed, longest, standard]
    if not q["bolt"]:
        return head + [math.nan] * 5, None if q["tapped"] else m["nut"]
    reach = q["bolt"] - m["grip"]
    engaged = min(max(reach, 0.0), q["depth"] if q["tapped"] else m["nut"])
    full = q["bolt"] - m["threaded"]
    body = max(full - 5 * p, 0.0)
    out = math.nan if q["tapped"] else reach - m["nut"]
    judge_lengths(q, m, reach, out, full, body, found)
    return head + [engaged, reach, out, body, full], engaged


def judge_lengths(q, m, reach, out, full, body, found):
    p, bolt = q["thread"]["p"], q["bolt"]
    if reach <= 0:
        return found.add("too-short", "Stop", m["grip"] / bolt)
    if q["tapped"] and q["blind"]:
        usable = q["depth"] - p
        if reach > usable:
            found.add("bottoming", "Stop", reach / usable if usable > 0 else 2.0)
    if full > m["grip"]:
        found.add("run-out", "Stop", full / m["grip"])
    if out < 0:
        found.add("nut-not-filled", "Stop", (m["grip"] + m["nut"]) / bolt)
    elif out < p:
        found.add("protrusion", "Caution", (m["grip"] + m["nut"] + p) / bolt)
    if q["shear_plane"] is not None and q["shear_plane"] > body:
        found.add("thread-in-shear-plane", "Caution", q["shear_plane"] / max(body, p))


def too_much(found, loads, bears, stop, caution, severities):
    """What is aimed at breaks the first, what scatter may bring the second."""
    share = [load / bears if bears > 0 else 2.0 for load in loads]
    if share[0] > 1:
        found.add(stop, severities[0], share[0])
    elif share[1] > 1:
        found.add(caution, severities[1], share[1])


def tightened(q):
    joint = {
        "thread": q["thread"], "grade_rows": q["grade"], "lubrication": q["lubrication"], "share": None, "load": None, "k": None,
        "nut_rows": [], "baked": False,
    }
    _, numbers, found = torque_answer(joint)
    return numbers, found


def torque_findings(found):
    mine = Findings()
    for key, (severity, share) in found.items():
        mine.add(key, severity, share)
    return mine


def stacked(q):
    t, m = q["thread"], measures(q)
    if m["hole"] >= m["bearing"] or (q["threaded"] and q["bolt"] and q["threaded"] > q["bolt"]):
        return None
    numbers, torque_found = tightened(q)
    load, maximum = numbers[1], numbers[9]
    found = torque_findings(torque_found)
    lengths, available = fit(q, m, found)

    proof, yields, tensile = q["stress"]
    major, _, pitch, _, _, inner_pitch, _, inner_minor = limits(t, q["fit"] == "close")
    flank = 1 / math.sqrt(3)
    outside = math.pi * inner_minor * (0.5 + (pitch - inner_minor) / t["p"] * flank)
    inside = math.pi * major * (0.5 + (major - inner_pitch) / t["p"] * flank)
    breaking = tensile * t["area"]
    shears = {"bolt-thread": outside * tensile / 2}
    trade = math.nan
    if q["tapped"]:
        # With an insert the metal shears along the wider hole: the circumference grows as the diameter does.
        wider = (t["d"] + 1.299038 * t["p"]) / t["d"] if q["insert"] else 1.0
        shears["tapped-thread"] = inside * wider * (q["shear"] or float(METALS[q["tapped"]]["shear"]))
        trade = float(METALS[q["tapped"]]["trade_engagement"]) * t["d"]
    wanted = max(breaking / per_mm for per_mm in shears.values())
    equal = 4 * t["area"] / (math.pi * (t["d"] - 0.64952 * t["p"]))
    partners = {"bolt-proof": (proof if not math.isnan(proof) else 0.85 * yields) * t["area"]}
    if available is not None:
        for key, per_mm in shears.items():
            partners[key] = per_mm * available
            too_much(found, (load, maximum), partners[key], f"{key}-strips", f"{key}-may-strip", ("Stop", "Caution"))
        if q["tapped"] and 0 < available < wanted:
            found.add("engagement-by-strength", "Caution", wanted / available)
        if q["tapped"] and 0 < available < trade:
            found.add("engagement-by-trade", "Caution", trade / available)
    faces = pressures(q, m, load, maximum, found)
    return lengths, [wanted, trade, equal, outside, inside], partners, faces, found


def pressures(q, m, load, maximum, found):
    faces = []
    ends = [q["layers"]] if q["tapped"] else [q["layers"], q["layers"][::-1]]
    for layers in ends:
        presses = m["bearing"]
        for metal, _, outer in layers:
            ring = math.pi * ((presses / 2) ** 2 - (m["hole"] / 2) ** 2)
            loads = load / ring, maximum / ring
            faces += loads
            allowed = float(METALS[metal]["bearing"])
            too_much(found, loads, allowed, "bearing-pressure", "bearing-pressure-at-maximum", ("Caution", "Note"))
            # A washer hands the load on over its own width.
            if outer is None or outer <= m["hole"]:
                break
            presses = outer
    return faces
