#!/usr/bin/env python3
"""Bare mixes by our search, GLPK and CBC, side by side in one process.

    mix_bench.py PROGRAM [--rounds N] [--seconds N] [--most-points N]

PROGRAM is tests/mix_bench of the build. Every family of the instances in tests/mix_cases; a solver
gets so many seconds for one run. Exit 0: all answers agree."""
import argparse
import os
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "mix_cases"))
from check_mix import instances  # noqa: E402
from mix_program import LISTS, Program  # noqa: E402


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("program")
    parser.add_argument("--rounds", default="3")
    parser.add_argument("--seconds", default="10")
    parser.add_argument("--most-points", type=int, default=1_000_000)
    asked = parser.parse_args()
    lines = []
    with tempfile.TemporaryDirectory() as folder:
        for path, instance in instances():
            points = sum(row["need"] for row in instance["demand"].values())
            if points > asked.most_points:
                continue
            for family in instance["families"]:
                if not all(family[key] for key in LISTS[:1]):
                    continue
                made = os.path.join(folder, "%d.mps" % len(lines))
                Program(instance, family).write(made, 0, None)
                lines += [path, family["id"], made]
        done = subprocess.run([asked.program, asked.rounds, asked.seconds], text=True, check=False,
                              input="\n".join(lines) + "\n")
    return done.returncode


if __name__ == "__main__":
    sys.exit(main())
