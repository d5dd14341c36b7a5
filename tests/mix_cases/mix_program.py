"""A family of a bare mix as an integer program, solved by general solvers.

Written from the model of the instances (limits summed over the system, channels handed out by a
transport of continuous amounts, one-kind groups by whole counts per kind), not from the program
under test. The objective is the difference to a claimed cost, so that tolerances relative to the
objective mean parts of a cent. Solvers: GLPK (glpsol) and CBC (cbc), both with gap 0."""
import itertools
import os
import re
import subprocess

from check_mix import served

SECONDS = 60  # of one solver run
CLAIM = "claim"
LISTS = ("controllers", "heads", "feeds", "modules")


class Program:
    """Columns with costs and rows `sum >= least`, by name."""

    def __init__(self, instance, family):
        longest = instance["max_lead_days"]
        self.need = {kind: row["need"] for kind, row in instance["demand"].items() if row["need"]}
        self.items = [(key, one) for key in LISTS for one in family[key]
                      if longest is None or one["lead_days"] <= longest]
        self.costs, self.whole, self.rows = {CLAIM: -1}, set(), []
        for place, (_, one) in enumerate(self.items):
            self.costs["x%d" % place] = one["cost_cents"]
            self.whole.add("x%d" % place)
        self.supply = {kind: {} for kind in self.need}  # demand rows
        self.choices = {}  # column -> (channels, kind) of one-kind groups
        self.choice_rows = []  # no more kinds chosen than there are groups
        self.limits()
        self.limit_count = len(self.rows)
        self.channels()

    def row(self, terms, least, equal=False):
        self.rows.append(({name: value for name, value in terms.items() if value}, least, equal))

    def limits(self):
        def terms(gives, takes):
            return {"x%d" % place: gives(key, one) - takes(key, one)
                    for place, (key, one) in enumerate(self.items)}
        lead = ("controllers", "heads")
        self.row(terms(lambda key, one: key == "controllers", lambda key, one: 0), 1, True)
        self.row(terms(lambda key, one: one["slots"] * (key in lead),
                       lambda key, one: one["slots"] * (key not in lead)), 0)
        self.row(terms(lambda key, one: one["bus_ma"] * (key != "modules"),
                       lambda key, one: one["bus_ma"] * (key == "modules")), 0)
        self.row(terms(lambda key, one: one.get("max_heads", 0) * (key == "controllers"),
                       lambda key, one: key == "heads"), 0)
        self.row(terms(lambda key, one: one.get("max_feeds", 0) * (key in lead),
                       lambda key, one: key == "feeds"), 0)

    def channels(self):
        pools = {}  # accepted kinds -> channels by column
        for place, (_, one) in enumerate(self.items):
            alike = {}
            for each in one.get("groups", []):
                kinds = tuple(sorted(set(each["accepts"]) & set(self.need)))
                if each["mode"] == "group" and len(kinds) > 1:
                    alike[(each["n"], kinds)] = alike.get((each["n"], kinds), 0) + 1
                elif kinds:
                    pool = pools.setdefault(kinds, {})
                    pool["x%d" % place] = pool.get("x%d" % place, 0) + each["n"]
            for (channels, kinds), count in sorted(alike.items()):
                self.one_kind(place, channels, kinds, count)
        for number, (kinds, pool) in enumerate(sorted(pools.items())):
            handed = {"a%d_%d" % (number, k): kind for k, kind in enumerate(kinds)}
            for name, kind in handed.items():
                self.costs[name] = 0
                self.supply[kind][name] = 1
            self.row({**pool, **dict.fromkeys(handed, -1)}, 0)
        for kind, terms in self.supply.items():
            self.row(terms, self.need[kind])

    def one_kind(self, place, channels, kinds, count):
        """So many equal groups of the item: each takes one of the kinds, or none."""
        taken = {}
        for kind in kinds:
            name = "u%d" % len(self.choices)
            self.choices[name] = (channels, kind)
            self.costs[name] = 0
            self.whole.add(name)
            self.supply[kind][name] = channels
            taken[name] = -1
        self.choice_rows.append({"x%d" % place: count, **taken})
        self.row(self.choice_rows[-1], 0)

    def write(self, path, claim, fixed):
        """As free MPS; fixed: counts by column that may not change."""
        names = ["r%d" % k for k in range(len(self.rows))]
        columns = {name: [("cost", cost)] for name, cost in self.costs.items()}
        for name, (terms, _, _) in zip(names, self.rows):
            for column, value in terms.items():
                columns[column].append((name, value))
        lines = ["NAME mix", "ROWS", " N cost"]
        lines += [" %s %s" % ("E" if equal else "G", name)
                  for name, (_, _, equal) in zip(names, self.rows)]
        lines.append("COLUMNS")
        for whole, some in itertools.groupby(columns.items(), lambda pair: pair[0] in self.whole):
            body = [" %s %s %d" % (name, row, value) for name, used in some for row, value in used]
            lines += marked(body) if whole else body
        lines.append("RHS")
        lines += [" rhs %s %d" % (name, least)
                  for name, (_, least, _) in zip(names, self.rows) if least]
        lines.append("BOUNDS")
        fixed = {**(fixed or {}), CLAIM: claim}
        lines += [" FX bound %s %d" % (name, fixed[name]) if name in fixed else
                  " PL bound %s" % name for name in columns]
        with open(path, "w", encoding="ascii") as file:
            file.write("\n".join(lines + ["ENDATA", ""]))
        return list(columns)

    def recount(self, values):
        """Cost and faults of whole counts, added up without the program."""
        count = {name: round(values.get(name, 0)) for name in self.whole}
        faults = ["%s = %s is not whole" % (name, values[name]) for name in self.whole
                  if abs(values.get(name, 0) - count[name]) > 1e-4]
        for terms, least, equal in self.rows[:self.limit_count]:
            total = sum(value * count[name] for name, value in terms.items())
            if total < least or equal and total > least:
                faults.append("a limit is broken by %d" % (least - total))
        groups = [(count["x%d" % place], each["n"], each["accepts"], False)
                  for place, (_, one) in enumerate(self.items) if count["x%d" % place]
                  for each in one.get("groups", [])
                  if each["mode"] == "channel" or
                  len(set(each["accepts"]) & set(self.need)) == 1]
        groups += [(count[name], channels, [kind], False)
                   for name, (channels, kind) in self.choices.items() if count[name]]
        for terms in self.choice_rows:
            if sum(value * count[name] for name, value in terms.items()) < 0:
                faults.append("more kinds chosen than there are groups")
        if not served(groups, self.need):
            faults.append("not every point has a channel")
        return sum(one["cost_cents"] * count["x%d" % place]
                   for place, (_, one) in enumerate(self.items)), faults


def marked(lines):
    return [" m 'MARKER' 'INTORG'", *lines, " m 'MARKER' 'INTEND'"]


def run(command):
    return subprocess.run(command, capture_output=True, text=True, check=False,
                          timeout=4 * SECONDS).stdout


def by_glpk(path, names):
    """Status and values by name; status None where the solver says neither. Its cuts fail where
    presolving leaves rows without columns: then without."""
    said = re.compile("HAS NO (PRIMAL |INTEGER )?FEASIBLE SOLUTION|INTEGER OPTIMAL SOLUTION FOUND")
    for option in ("--cuts", "--nointopt"):
        told = said.search(run(["glpsol", "--freemps", path, "--mipgap", "0", option, "--tmlim",
                                str(SECONDS), "-w", path + ".glpk"]))
        if told:
            break
    else:
        return None, {}
    if "NO" in told.group().split():
        return "infeasible", {}
    values = {}
    with open(path + ".glpk", encoding="ascii") as file:
        for line in file:
            if line.startswith("j "):
                _, number, value = line.split()[:3]
                values[names[int(number) - 1]] = float(value)
    return "optimal", values


def by_cbc(path, _names):
    run(["cbc", path, "-ratioGap", "0", "-allowableGap", "0", "-seconds", str(SECONDS), "-solve",
         "-solution", path + ".cbc"])
    with open(path + ".cbc", encoding="ascii") as file:
        lines = file.read().splitlines()
    first = lines[0].lower()
    if first.startswith("infeasible") or first.startswith("integer infeasible"):
        return "infeasible", {}
    if not first.startswith("optimal"):
        return None, {}
    return "optimal", {line.split()[1]: float(line.split()[2]) for line in lines[1:]}


def solved(program, solver, folder, claim=0, fixed=None):
    """(status, cost or None, faults): the cost is recounted from whole counts."""
    path = os.path.join(folder, "family.mps")
    names = program.write(path, claim, fixed)
    status, values = solver(path, names)
    if status != "optimal":
        return status, None, [] if status else ["the solver ended without an answer"]
    cost, faults = program.recount(values)
    return status, cost, faults
