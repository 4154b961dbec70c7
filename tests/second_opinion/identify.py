"""A second implementation of what a measured thread may be, which gauges tell, and what a spanner is for.

    python tests/second_opinion/identify.py target/debug/examples/identify

A thread fits where the interval that was measured meets the interval of its limits; pitches are exact fractions, and
the threads over which two gauges part by half a thread are counted out one by one.
"""

import re
from fractions import Fraction

import compare
from old_iron import name
from second_opinion import INCH, inches, table
from strength import metric_limits, unified_limits

# Depth of the internal thread in pitches, and the angle between its flanks (BS 84, BS 93, BS 811; ISO 68-1, ASME B1.1).
FORMS = {"BSW": (1.280654, 55.0), "BSF": (1.280654, 55.0), "BA": (1.2, 47.5), "BSC": (1.0654, 60.0)}
SIXTY = (1.082532, 60.0)


def threads():
    for row in table("threads_unified.csv"):
        pitch = Fraction(254, 10) / Fraction(row["threads_per_inch"])
        yield sized(row, "inch", inches(row["size"]) * INCH, pitch, f"{row['threads_per_inch']} threads per inch")
    for row in table("threads_metric.csv"):
        pitch = Fraction(row["pitch_mm"])
        yield sized(row, "metric", float(row["diameter_mm"]), pitch, f"{float(pitch):g} mm")
    for row in table("threads_british.csv"):
        if row["series"] == "BA":
            pitch = Fraction(row["pitch_mm"])
            yield sized(row, "british", float(row["diameter_mm"]), pitch, f"{float(pitch):g} mm")
        else:
            pitch = Fraction(254, 10) / Fraction(row["threads_per_inch"])
            yield sized(row, "british", inches(row["size"]) * INCH, pitch, f"{row['threads_per_inch']} threads per inch")


def sized(row, system, d, pitch, gauge):
    t = {"id": name(row["id"]), "system": system, "series": row["series"], "d": d, "p": float(pitch)}
    depth, angle = FORMS.get(row["series"], SIXTY)
    core = d - depth * t["p"]
    if system == "british":
        # Common practice, since the old standards' classes are rarely known of a part at hand.
        outside, inside = (d - 0.12 * t["p"], d), (core, core + 0.2 * t["p"] + 0.1)
    else:
        limits = unified_limits(t, False) if system == "inch" else metric_limits(t)
        outside, inside = (limits[0], limits[1]), (limits[6], limits[7])
    return t | {"pitch": pitch, "gauge": gauge, "angle": angle, "core": core, "outside": outside, "inside": inside}


THREADS = list(threads())
PAIRS = [(name(row["external"]), name(row["internal"])) for row in table("look_alikes.csv")]


def meet(a, b):
    return max(a[0], b[0]) <= min(a[1], b[1])


def judge(t, q):
    """Verdict, whether only if worn, misfits, and how far the basic size is off."""
    new = t["inside"] if q["internal"] else t["outside"]
    worn = (new[0], new[1] + q["wear"]) if q["internal"] else (new[0] - q["wear"], new[1])
    measured = (q["size"] - q["error"], q["size"] + q["error"])
    misfits = []
    if not meet(measured, worn):
        misfits.append("TooSmall" if measured[1] < worn[0] else "TooLarge")
    if q["pitch"] is not None and abs(q["pitch"] - t["p"]) > q["pitch_error"] + 1e-9:
        misfits.append("Pitch")
    if q["angle"] is not None and abs(q["angle"] - t["angle"]) > 2.0 + 1e-9:
        misfits.append("FlankAngle")
    only_worn = not misfits and not meet(measured, new)
    verdict = "DoesNotFit" if misfits else "MayFit" if only_worn or q["pitch"] is None else "Fits"
    return verdict, only_worn, misfits, (t["core"] if q["internal"] else t["d"]) - q["size"]


def expected(q):
    every = {t["id"]: judge(t, q) for t in THREADS}
    agreeing = {i for i, found in every.items() if found[0] != "DoesNotFit"}
    apart = {
        t["id"]: abs(every[t["id"]][3]) + (abs(q["pitch"] - t["p"]) if q["pitch"] is not None else 0.0) for t in THREADS
    }
    if not agreeing:
        return every, None, apart, []
    beside = {i for pair in PAIRS if agreeing & set(pair) for i in pair}
    best = {every[i][0] for i in agreeing}
    best = "Fits" if "Fits" in best else "MayFit"
    left = [t for t in THREADS if every[t["id"]][0] == best]
    return every, agreeing | beside, apart, gauges(left, q["pitch"] is not None)


def threads_to_part(fine, coarse):
    """Over how many threads the two gauges are half a thread of the coarser one apart."""
    count = 1
    while count * (coarse - fine) < coarse / 2:
        count += 1
    return count


def gauges(left, pitch_is_known):
    pitches = sorted({t["pitch"] for t in left})
    stamped = {t["pitch"]: t["gauge"] for t in reversed(left)}
    tries = []
    if not pitch_is_known:
        tries.append([stamped[p] for p in pitches])
    else:
        for fine, coarse in zip(pitches, pitches[1:]):
            tries.append([stamped[fine], stamped[coarse], str(threads_to_part(fine, coarse))])
    angles = sorted({t["angle"] for t in left})
    if len(angles) > 1:
        tries.append([f"{angles[0]:g}", f"{angles[-1]:g}"])
    return tries


def told_gauges(texts):
    for text in texts:
        if not text or text.startswith("Nothing in the tables agrees"):
            continue
        found = re.findall(r"\d+(?:\.\d+)? (?:threads per inch|mm\b)", text)
        found += re.findall(r"over (\d+) threads ", text)
        found += [a for pair in re.findall(r"([\d.]+) against ([\d.]+) degrees", text) for a in pair]
        yield found


def agrees(ours, wanted):
    every, ids, apart, tell = wanted
    candidates, *tries = ours.split("|")
    rows = [row.split("=") for row in candidates.split(";")]
    listed = {row[1] for row in rows}
    if ids is None:
        # None agrees: the three nearest, of which two may be as near.
        furthest = max(apart[i] for i in listed)
        if len(listed) != 3 or any(a < furthest - 1e-9 for i, a in apart.items() if i not in listed):
            return False
    elif len(rows) != len(ids) or listed != ids:
        return False
    for verdict, row_id, worn, misfits, off in rows:
        mine = every[row_id]
        if (verdict, worn == "true", misfits) != (mine[0], mine[1], "+".join(mine[2])):
            return False
        if not compare.close(float(off), mine[3]):
            return False
    rank = {"Fits": 0, "MayFit": 1, "DoesNotFit": 2}
    order = [(rank[row[0]], round(apart[row[1]], 9)) for row in rows]
    if order != sorted(order):
        return False
    return list(told_gauges(tries)) == tell


def spanners():
    for row in table("across_flats.csv"):
        inch = row["system"] == "inch"
        flats = float(row["across_flats"]) * (INCH if inch else 1.0)
        yield (f"{row['size']} UNC/UNF" if inch else f"M{row['size']}"), flats
    for row in table("spanners.csv"):
        yield f"{row['size']} {row['series']}", float(row["across_flats_in"]) * INCH


SPANNERS = list(spanners())


def spanner_agrees(ours, width):
    """Within 0.15 mm it is the right one, up to 0.6 mm too wide it turns and rounds the corners."""
    sits = lambda over: "Right" if abs(over) <= 0.15 else "Loose" if 0 <= over <= 0.6 else None
    wanted = sorted(f"{size}={sits(width - flats)}" for size, flats in SPANNERS if sits(width - flats))
    found = [row for row in ours.split(";") if row]
    kinds = [row.rsplit("=", 1)[1] for row in found]
    return sorted(found) == wanted and kinds == sorted(kinds, reverse=True)


def questions(draw):
    while True:
        if draw.random() < 0.15:
            width = draw.uniform(3.0, 60.0) if draw.random() < 0.4 else draw.choice(SPANNERS)[1] + draw.uniform(-0.7, 0.7)
            yield compare.line("spanner", width), width, spanner_agrees
            continue
        t, internal = draw.choice(THREADS), draw.random() < 0.4
        low, high = t["inside"] if internal else t["outside"]
        other = draw.choice(THREADS)
        pitch = None if draw.random() < 0.3 else t["p"] if draw.random() < 0.8 else other["p"]
        asked = {
            "size": draw.uniform(low - 0.3, high + 0.3) if draw.random() < 0.9 else draw.uniform(0.6, 60.0),
            "error": draw.uniform(0.005, 0.2) if draw.random() < 0.5 else None,
            "wear": draw.uniform(0.0, 0.4) if draw.random() < 0.5 else None,
            "pitch": pitch if pitch is None or draw.random() < 0.5 else pitch + draw.uniform(-0.05, 0.05),
            "pitch_error": draw.uniform(0.002, 0.1) if pitch and draw.random() < 0.5 else None,
            "angle": draw.choice([47.5, 55.0, 60.0]) + draw.uniform(-2.5, 2.5) if draw.random() < 0.3 else None,
        }
        if asked["size"] < 0.5 or (asked["pitch"] or 1.0) < 0.15:
            continue
        # What is usual in the trade where nothing was said.
        usual = {"error": 0.05, "wear": 0.10, "pitch_error": 0.03}
        q = {key: usual.get(key) if value is None else value for key, value in asked.items()} | {"internal": internal}
        side = "internal" if internal else "external"
        yield compare.line("thread", side, *asked.values()), expected(q), agrees


if __name__ == "__main__":
    compare.main("identification", questions, 5_000)
