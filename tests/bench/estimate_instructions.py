#!/usr/bin/env python3
"""Instructions of whole estimates, counted by callgrind: no clock, the same on every run.

    estimate_instructions.py PROGRAM [OTHER PROGRAM]

The request of 500 points (plain mix of made_requests.h) is priced on the demo price book over every
enclosure, stage of cooling and supply that may be taken: a plain one, one with demanding climate, one
with redundancy and backup. A second program (an earlier build) is put beside the first. Variants of
the C library for newer processors are switched off, so that machines count alike. Reading rules and
prices, counted by a request of one point, is told apart. Exit 0: all counted."""
import json
import os
import re
import subprocess
import sys
import tempfile

MIX = (("DI", 55), ("DO", 25), ("AI_MA", 15), ("AO_MA", 5))
PLAIN_LIBRARY = "glibc.cpu.hwcaps=-AVX512F,-AVX2,-AVX,-FMA,-FMA4,-BMI2,-ERMS,-SSE4_2"
CASES = {
    "plain": {"site": {"ambient_c": [0, 40]}},
    "outdoors, 48 °C, 2,400 m": {"site": {"ambient_c": [-20, 48], "altitude_m": 2400,
                                          "place": "outdoor_sun", "humidity_percent": 95}},
    "redundant with backup": {"site": {"ambient_c": [0, 35]},
                              "choices": {"redundant_supply": True, "backup_minutes": 10}},
}


def request(points, more):
    lines = [{"signal": signal, "count": max(1, points * share // 100)} for signal, share in MIX]
    return {"format": "backplate-request/1", "job": {"date": "2026-11-24"},
            "spare": {"percent": {"default": 20}},
            "boxes": [{"points": lines if points > 1 else lines[:1], **more}]}


def instructions(program, asked, folder):
    path = os.path.join(folder, "request.json")
    with open(path, "w", encoding="utf-8") as file:
        json.dump(asked, file)
    done = subprocess.run(["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null",
                           program, "--library", ":starter:", "estimate", path, "--json"],
                          capture_output=True, text=True, check=False,
                          env={**os.environ, "GLIBC_TUNABLES": PLAIN_LIBRARY})
    if done.returncode not in (0, 1):
        raise RuntimeError(done.stderr)
    return int(re.search(r"Collected : (\d+)", done.stderr).group(1))


def main():
    programs = sys.argv[1:]
    if not programs:
        print(__doc__)
        return 2
    with tempfile.TemporaryDirectory() as folder:
        base = [instructions(program, request(1, {}), folder) for program in programs]
        print("one point: " + ", ".join("%.1f" % (count / 1e6) for count in base) + " million")
        for name, more in CASES.items():
            counts = [instructions(program, request(500, more), folder) for program in programs]
            text = ", ".join("%.1f" % ((count - own) / 1e6) for count, own in zip(counts, base))
            growth = "" if len(counts) < 2 else " (%.3f of the other whole)" % (
                counts[0] / counts[1])
            print("500 points, %s: %s million more%s" % (name, text, growth))
    return 0


if __name__ == "__main__":
    sys.exit(main())
