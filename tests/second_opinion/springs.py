"""A second implementation of how a joint gives, and of what the slots of its castellated nut mean.

What turning the nut does is followed through clamp load and compliance; the window ends where the maximum torque is reached.
"""

import math

from stacks import METALS, hexagon, measures, tightened, torque_findings
from strength import pressed, slots, washers

# Settling in micrometres: thread, under head and nut, between layers (VDI 2230, table 5).
SETTLING = {"fine": (3, 2.5, 1.5), "machined": (3, 3, 2), "rough": (3, 4, 3)}


def compliances(q, m):
    t, modulus = q["thread"], q["modulus"] or 205_000.0
    layers = [(mm, float(METALS[metal]["modulus"])) for metal, mm, _ in q["layers"]]
    end = (0.4, modulus)
    if q["tapped"]:
        stiff = float(METALS[q["tapped"]]["modulus"])
        layers.append((min(q["depth"], t["d"]) / 2, stiff))
        end = (0.33, stiff)
    body = min(max(q["bolt"] - m["threaded"], 0.0), m["grip"])
    whole, core = math.pi / 4 * t["d"] ** 2, math.pi / 4 * (t["d"] - 1.226869 * t["p"]) ** 2
    bolt = (0.5 * t["d"] + body) / (modulus * whole) + (m["grip"] - body + 0.5 * t["d"]) / (modulus * core)
    bolt += end[0] * t["d"] / (end[1] * whole)
    return bolt, pressed(layers, t["d"], m["bearing"]), len(layers) - 1


def springs(q):
    t, m = q["thread"], measures(q)
    if not q["bolt"] or q["bolt"] <= m["grip"] or m["hole"] >= m["bearing"] or (q["threaded"] or 0) > q["bolt"]:
        return None
    numbers, torque_found = tightened(q)
    load, found = numbers[1], torque_findings(torque_found)
    bolt, members, between = compliances(q, m)
    in_thread, under, inner = SETTLING[q["roughness"]]
    settled = (in_thread + 2 * under + between * inner) / 1000
    loss = settled / (bolt + members)
    if loss / load > 0.10:
        found.add("settling", "Stop" if loss >= load else "Caution", loss / load)
    plane = 1.0 if q["plane"] is None else q["plane"]
    # Of a small load from outside the bolt takes what its share of the stiffness is, at the planes it acts in.
    share = plane * members / (bolt + members)
    turn = 360 * load * (bolt + members) / t["p"]
    return [1 / bolt, 1 / members, share, turn, load * bolt, load * members, settled, loss], found


def castle(q):
    t, m, sprung = q["thread"], measures(q), springs(q)
    known = hexagon(t)["castle_slots"]
    count = q["slots"] or (None if math.isnan(known) else int(known))
    if sprung is None or count is None:
        return None
    step = slots(count, q["holes"] or 1)[0]
    if q["to_slot"] is not None and q["to_slot"] > step:
        return None
    numbers, _ = tightened(q)
    bolt, members, _ = compliances(q, m)
    per_newton = numbers[2] * t["d"] / 1000
    load_at = lambda angle: q["minimum"] / per_newton + angle / 360 * t["p"] / (bolt + members)
    yields = numbers[6] if math.isnan(numbers[5]) else numbers[5]
    gain = step / 360 * t["p"] / (bolt + members)
    head = [step, step / 360 * t["p"], gain if gain <= yields else math.nan]
    if q["maximum"] is None:
        return head + [math.nan], "refuse", [], "refused"
    window = (q["maximum"] - q["minimum"]) / per_newton * (bolt + members) / t["p"] * 360
    head.append(window)
    if load_at(0) > yields:
        return head, "refuse", [], "refused"
    to_slot = q["to_slot"]
    if to_slot is None:
        sure = window >= step and load_at(step) <= yields
        return head, "advance" if sure else "measure", [], ""
    if to_slot > window:
        return head, "change-washer", washers(to_slot, window, step, t["p"]), "slot-beyond-maximum"
    if load_at(to_slot) > yields:
        return head, "refuse", [], "refused"
    return head, "advance", [load_at(to_slot) * per_newton + (q["prevailing_torque"] or 0.0)], ""
