"""A family as an integer program whose places and bus current hold per station.

As mix_program.py, but every module stands in a segment of a station: a station is led by the
controller or by a head, feeds part it into segments. One kind of head and one kind of feed."""
import mix_program

MOST_HEADS, MOST_FEEDS = 2, 2  # heads; feeds of a station: as many as the instances ask for


class ArrangedProgram(mix_program.Program):
    """Counts by item as before; `n<place>_<station>_<segment>` modules stand in a segment,
    `z<station>` tells whether a head leads it, `w<station>_<segment>` whether a feed begins it."""

    def limits(self):
        places = {key: [k for k, (list_, _) in enumerate(self.items) if list_ == key]
                  for key in mix_program.LISTS}
        controllers, modules = places["controllers"], places["modules"]
        self.head = self.items[places["heads"][0]][1] if places["heads"] else None
        self.feed = self.items[places["feeds"][0]][1] if places["feeds"] else None
        self.row({"x%d" % k: 1 for k in controllers}, 1, True)
        stations = MOST_HEADS + 1 if self.head else 1
        segments = MOST_FEEDS + 1 if self.feed else 1
        for k in modules:  # every module stands somewhere
            self.row({"x%d" % k: -1, **{self.column("n%d_%d_%d" % (k, s, g)): 1
                                        for s in range(stations) for g in range(segments)}}, 0,
                     True)
        for s in range(stations):
            self.station(s, segments, controllers, modules)
        if self.head:
            heads = {"z%d" % s: -1 for s in range(1, stations)}
            self.row({"x%d" % places["heads"][0]: 1, **heads}, 0, True)
            self.row({**{"x%d" % k: self.items[k][1].get("max_heads", 0) for k in controllers},
                      **heads}, 0)
        if self.feed:
            self.row({"x%d" % places["feeds"][0]: 1,
                      **{"w%d_%d" % (s, g): -1 for s in range(stations)
                         for g in range(1, segments)}}, 0, True)
        for key in ("heads", "feeds"):  # further kinds are not offered
            for k in places[key][1:]:
                self.row({"x%d" % k: -1}, 0)

    def station(self, s, segments, controllers, modules):
        def leads(key):
            if s == 0:
                return {"x%d" % k: self.items[k][1][key] for k in controllers}
            return {"z%d" % s: self.head[key]}
        if s > 0:
            self.row({self.column("z%d" % s): -1}, -1)
        taken = {"n%d_%d_%d" % (k, s, g): -self.items[k][1]["slots"]
                 for k in modules for g in range(segments)}
        fed = {self.column("w%d_%d" % (s, g)): -self.feed["slots"] for g in range(1, segments)}
        self.row({**leads("slots"), **taken, **fed}, 0)
        for g in range(segments):
            drawn = {"n%d_%d_%d" % (k, s, g): -self.items[k][1]["bus_ma"] for k in modules}
            gives = leads("bus_ma") if g == 0 else {"w%d_%d" % (s, g): self.feed["bus_ma"]}
            self.row({**gives, **drawn}, 0)
            if g > 0:
                self.row({"w%d_%d" % (s, g): -1}, -1)

    def column(self, name):
        self.costs[name] = 0
        self.whole.add(name)
        return name
