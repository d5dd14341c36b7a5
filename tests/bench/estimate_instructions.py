#!/usr/bin/env python3
"""Instructions of estimates, counted by callgrind: no clock, the same on every run.

    estimate_instructions.py [--record] PROGRAM BENCH
    estimate_instructions.py --beside PROGRAM OTHER_PROGRAM

PROGRAM prices the request of 500 points (plain mix of made_requests.h) on the demo price book: a plain
one, one with demanding climate, one with redundancy and backup. Reading rules and prices, counted by a
request of one point, is told apart. BENCH (tests/estimate_bench) judges one choice of modules of 500
points on every enclosure, stage of cooling and supply that may be taken, and only that is counted.
Variants of the C library for newer processors are switched off, so that machines count alike.

Nothing may count more than 1.05 times what stands in estimate_instructions.json; --record writes that
file anew. --beside puts an earlier build beside the first one and judges nothing. Exit 0: all held."""
import json
import os
import re
import subprocess
import sys
import tempfile

MIX = (("DI", 55), ("DO", 25), ("AI_MA", 15), ("AO_MA", 5))
PLAIN_LIBRARY = "glibc.cpu.hwcaps=-AVX512F,-AVX2,-AVX,-FMA,-FMA4,-BMI2,-ERMS,-SSE4_2"
MOST_GROWTH = 1.05
RECORDED = os.path.join(os.path.dirname(os.path.abspath(__file__)), "estimate_instructions.json")
CASES = {
    "plain": {"site": {"ambient_c": [0, 40]}},
    "outdoors, 48 °C, 2,400 m": {"site": {"ambient_c": [-20, 48], "altitude_m": 2400,
                                          "place": "outdoor_sun", "humidity_percent": 95}},
    "redundant": {"site": {"ambient_c": [0, 35]}, "choices": {"redundant_supply": True}},
    "not built, what conflicts and how to part it": {
        "site": {"ambient_c": [0, 35]},
        "choices": {"redundant_supply": True, "backup_minutes": 10}},
}


def request(points, more):
    lines = [{"signal": signal, "count": max(1, points * share // 100)} for signal, share in MIX]
    return {"format": "backplate-request/1", "job": {"date": "2026-11-24"},
            "spare": {"percent": {"default": 20}},
            "boxes": [{"points": lines if points > 1 else lines[:1], **more}]}


def instructions(command, *options):
    done = subprocess.run(["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null",
                           *options, *command], capture_output=True, text=True, check=False,
                          env={**os.environ, "GLIBC_TUNABLES": PLAIN_LIBRARY})
    if done.returncode not in (0, 1):
        raise RuntimeError(done.stderr)
    return int(re.search(r"Collected : (\d+)", done.stderr).group(1))


def estimates(program):
    """Instructions by case."""
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "request.json")

        def count(asked):
            with open(path, "w", encoding="utf-8") as file:
                json.dump(asked, file)
            return instructions([program, "--library", ":starter:", "estimate", path, "--json"])

        counts = {"one point, with reading": count(request(1, {}))}
        for name, more in CASES.items():
            counts["500 points more, " + name] = (count(request(500, more)) -
                                                  counts["one point, with reading"])
    return counts


def everywhere(bench):
    return {"500 points, plain and wide, on every enclosure, stage and supply": instructions(
        [bench, "500", "panels"], "--toggle-collect=backplate::judge_everywhere*")}


def beside(program, other):
    counts, others = estimates(program), estimates(other)
    for name, count in counts.items():
        print("%s: %.1f, %.1f million (%.3f)" % (name, count / 1e6, others[name] / 1e6,
                                                 count / others[name]))
    return 0


def main():
    words = [word for word in sys.argv[1:] if not word.startswith("--")]
    if len(words) != 2:
        print(__doc__)
        return 2
    if "--beside" in sys.argv:
        return beside(*words)
    counts = {**estimates(words[0]), **everywhere(words[1])}
    if "--record" in sys.argv:
        with open(RECORDED, "w", encoding="utf-8") as file:
            json.dump(counts, file, indent=2, ensure_ascii=False)
            file.write("\n")
    with open(RECORDED, encoding="utf-8") as file:
        recorded = json.load(file)
    faults = 0 if recorded.keys() == counts.keys() else 1
    for name, count in counts.items():
        own = recorded.get(name, 0)
        faults += count > MOST_GROWTH * own
        print("%s: %.1f million, recorded %.1f" % (name, count / 1e6, own / 1e6))
    print("%d counts judged: %d faults" % (len(counts), faults))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
