"""What the second opinions share: ask an example of the engine, compare line by line, count what differs."""

import argparse
import math
import random
import subprocess
import sys

RELATIVE = 1e-9


def asked(program, lines):
    done = subprocess.run([program], input="".join(f"{line}\n" for line in lines), capture_output=True, text=True, check=True)
    return done.stdout.splitlines()


def said(value):
    """A number so that it reads back, nothing for what is left out."""
    return "" if value is None else repr(value) if isinstance(value, float) else str(value)


def line(kind, *values):
    return ",".join([kind, *map(said, values)])


def close(a, b, relative=RELATIVE):
    return (math.isnan(a) and math.isnan(b)) or math.isclose(a, b, rel_tol=relative, abs_tol=1e-9)


def numbers_agree(ours, expected):
    """Numbers between commas against those expected; None expects the question to be refused."""
    if expected is None or ours == "error":
        return expected is None and ours == "error"
    theirs = [float(n) for n in ours.split(",")]
    return len(theirs) == len(expected) and all(map(close, theirs, expected))


def main(title, questions, count):
    """`questions(draw)` gives, for ever, a line, what is expected of it and how the two are compared."""
    parser = argparse.ArgumentParser(description=title)
    parser.add_argument("answers", help="the built example of clampbook-engine")
    parser.add_argument("--questions", type=int, default=count)
    parser.add_argument("--seed", type=int, default=random.SystemRandom().randrange(2**32))
    options = parser.parse_args()
    print(f"{title}: {options.questions} questions, seed {options.seed}", flush=True)
    stream = questions(random.Random(options.seed))
    every = [next(stream) for _ in range(options.questions)]
    answered = asked(options.answers, [question for question, _, _ in every])
    wrong = abs(len(answered) - len(every))
    kinds = {}
    for (question, expected, agrees), ours in zip(every, answered):
        kind = question.split(",")[0]
        kinds[kind] = kinds.get(kind, 0) + 1
        if not agrees(ours, expected):
            wrong += 1
            if wrong <= 10:
                print(f"{question}\n  ours {ours}\n  expected {expected}"[:1000])
    told = ", ".join(f"{n} {kind}" for kind, n in sorted(kinds.items()))
    print(f"{len(every)} answers compared ({told}), {wrong} differences")
    sys.exit(1 if wrong else 0)
