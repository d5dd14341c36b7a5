#!/usr/bin/python3
"""Checks the layers of a finished build from what was really read and linked.

    check_layers.py BUILD_DIR [--planted]

Read: the compiler's dependency lists of every unit. Linked: the symbols and sections of the
pricing libraries, the libraries that the command line program needs. With --planted every check
is first shown a planted fault, compiled with the flags of the build, and must find it.
Exit 0: no fault. 1: faults, too few units, or a planted fault that was not found.
"""

import argparse
import json
import os
import pathlib
import re
import shlex
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True  # the source tree stays clean
import layer_rules as rules  # noqa: E402

ROOT = pathlib.Path(__file__).resolve().parents[2]
PLANTED = ROOT / "tests/tools/planted"
# Fewest units of each layer that must have been judged.
FLOORS = {"pricing": 30, "catalog": 12, "reports": 8, "app": 10}


def run(command, cwd=None):
    done = subprocess.run(command, capture_output=True, text=True, cwd=cwd)
    if done.returncode:
        sys.exit(f"cannot look: {' '.join(map(str, command))}\n{done.stderr}")
    return done.stdout


def compile_flags(build):
    """Compiler and flags of one pricing unit, without its input and output."""
    with open(build / "compile_commands.json", encoding="utf-8") as file:
        commands = json.load(file)
    chosen = next((c for c in commands
                   if pathlib.Path(c["file"]).is_relative_to(ROOT / "pricing")), None)
    if chosen is None:
        sys.exit("cannot look: no pricing unit in compile_commands.json")
    words = shlex.split(chosen["command"])
    if "ccache" in os.path.basename(words[0]):
        words = words[1:]
    drop = {"-o", "-c", "-MF", "-MT", "-MQ"}
    flags, skip = [], False
    for word in words:
        if skip:
            skip = False
        elif word in drop:
            skip = True
        elif word != "-MD" and word != chosen["file"]:
            flags.append(word)
    return flags


def read_rule(text, base):
    """The prerequisites of a make rule as full paths."""
    words = shlex.split(text.replace("\\\n", " "))
    return [os.path.normpath(base / word) for word in words if not word.endswith(":")]


def unit_inputs(build):
    """Source of each unit -> everything that the compiler read for it."""
    units = {}
    if (build / "build.ninja").exists():
        for block in run(["ninja", "-C", build, "-t", "deps"]).split("\n\n"):
            lines = [line.strip() for line in block.splitlines() if line.startswith("    ")]
            if lines:
                paths = [os.path.normpath(build / line) for line in lines]
                units[paths[0]] = paths[1:]
    else:
        for path in build.rglob("*.o.d"):
            paths = read_rule(path.read_text(encoding="utf-8"), build)
            units[paths[0]] = paths[1:]
    return units


def standard_headers(flags):
    """Every header that the whole standard library brings with it."""
    with tempfile.TemporaryDirectory() as folder:
        probe = pathlib.Path(folder) / "probe.cpp"
        probe.write_text("#include <bits/stdc++.h>\n", encoding="utf-8")
        paths = read_rule(run([*flags, "-M", probe]), pathlib.Path(folder))
    return frozenset(map(os.path.realpath, paths[1:]))


def check_read(build, standard):
    units = unit_inputs(build)
    counts = {layer: 0 for layer in FLOORS}
    faults = []
    for source, read in sorted(units.items()):
        if not pathlib.Path(source).is_relative_to(ROOT):
            continue
        unit = str(pathlib.Path(source).relative_to(ROOT))
        if unit.split("/")[0] in counts:
            counts[unit.split("/")[0]] += 1
        faults += rules.read_faults(unit, read, ROOT, standard)
    for layer in counts:
        skipped = ROOT / "app/desk" if not any("/app/desk/" in s for s in units) else None
        for path in sorted((ROOT / layer).rglob("*.cpp")):
            if str(path) not in units and not (skipped and path.is_relative_to(skipped)):
                faults.append(f"{path.relative_to(ROOT)}: no unit of this build")
    print("units judged:", ", ".join(f"{layer} {n}" for layer, n in counts.items()))
    return faults + rules.floor_faults(counts, FLOORS)


def check_linked(build):
    archives = [path for path in sorted(build.rglob("libpricing*.a"))
                if "sanitized" not in path.relative_to(build).parts]
    faults = [] if archives else ["no pricing library in the build"]
    objects = 0
    for archive in archives:
        listing = run(["nm", "-C", archive])
        objects += len(re.findall(r"\.o:$", listing, re.M))
        faults += rules.symbol_faults(archive.name, listing)
        faults += rules.section_faults(archive.name, run(["objdump", "-h", "-t", "-C", archive]))
    print(f"pricing libraries judged: {len(archives)} with {objects} objects")
    if objects < FLOORS["pricing"]:
        faults.append(f"only {objects} pricing objects judged, expected {FLOORS['pricing']}")
    program = build / "backplate"
    return (faults + rules.needed_faults("backplate", run(["ldd", program])) +
            rules.asked_faults("backplate", run(["objdump", "-p", program])))


def planted_object(flags, source, folder):
    """Compiles a planted source; what it read, its symbols and its sections as faults."""
    unit = str(source.relative_to(PLANTED))
    target = folder / (source.stem + ".o")
    extra = shlex.split(run(["wx-config", "--cxxflags"])) if "window" in unit else []
    listing = folder / (source.stem + ".d")
    run([*flags, *extra, "-MD", "-MF", listing, "-c", source, "-o", target])
    read = read_rule(listing.read_text(encoding="utf-8"), folder)[1:]
    return unit, read, run(["nm", "-C", target]), run(["objdump", "-h", "-t", "-C", target])


def planted_program(flags, folder):
    source = PLANTED / "app/opens_window.cpp"
    libraries = shlex.split(run(["wx-config", "--libs", "core,base"]))
    extra = shlex.split(run(["wx-config", "--cxxflags"]))
    target = folder / "windowed"
    run([*flags, *extra, source, "-o", target, "-Wl,--no-as-needed", *libraries])
    return run(["ldd", target]), run(["objdump", "-p", target])


def check_planted(flags, standard):
    """Each planted source must bring exactly the kind of fault that its first line names."""
    missed, found = [], 0
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        for source in sorted(PLANTED.glob("[acpr]*/*.cpp")):
            unit, read, symbols, sections = planted_object(flags, source, folder)
            faults = rules.read_faults(unit, read, ROOT, standard)
            if unit.startswith("pricing/"):
                faults += rules.symbol_faults(unit, symbols)
                faults += rules.section_faults(unit, sections)
            wanted = source.read_text(encoding="utf-8").splitlines()[0].removeprefix("// ")
            kinds = {fault.split(": ")[1] for fault in faults}
            found += 1
            if (wanted == "clean" and kinds) or (wanted != "clean" and wanted not in kinds):
                missed.append(f"{unit}: planted '{wanted}', found {sorted(kinds)}")
        found += 4
        needed, asked = planted_program(flags, folder)
        if not rules.needed_faults("windowed", needed):
            missed.append("a program that needs a window library was not found")
        if not rules.asked_faults("windowed", asked):
            missed.append("a program that asks for a window library was not found")
        drawn = ["/usr/include/cairo/cairo.h"]
        if not rules.read_faults("reports/drawing/scene.cpp", drawn, ROOT, standard):
            missed.append("a scene that reads the library that draws was not found")
        if not rules.floor_faults({layer: 0 for layer in FLOORS}, FLOORS):
            missed.append("too few units were not found")
    print(f"planted faults tried: {found}")
    return missed + ([] if found >= 18 else ["too few planted faults"])


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("build", type=pathlib.Path)
    parser.add_argument("--planted", action="store_true", help="prove each check on a fault")
    arguments = parser.parse_args()
    build = arguments.build.resolve()
    if "BACKPLATE_SANITIZE:BOOL=ON" in (build / "CMakeCache.txt").read_text(encoding="utf-8"):
        sys.exit("cannot look: a build with checks of memory adds symbols of its own")
    flags = compile_flags(build)
    standard = standard_headers(flags)
    faults = check_planted(flags, standard) if arguments.planted else []
    faults += check_read(build, standard) + check_linked(build)
    for fault in faults:
        print("FAULT", fault)
    print(f"{len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
