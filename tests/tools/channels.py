"""The channels of an estimate's modules, judged by counting against the parts file."""
import re


def channels_of(row):
    """Channels that a part states, by its groups or in one column."""
    groups = [int(count) for count in re.findall(r"\*(\d+)", row.get("groups") or "")]
    return sum(groups) if groups else int(row.get("channels") or 0)


def places_of(box):
    for at, station in enumerate(box["stations"]):
        for spot, place in enumerate(station["places"]):
            yield "/stations/%d/places/%d" % (at, spot), place


def channel_faults(box, parts):
    """Numbers from 1 without a gap over groups that rise; as many as the part has; a tag or a
    device on no spare channel; nothing on an idle one."""
    for pointer, place in places_of(box):
        channels = place["channels"]
        if [c["number"] for c in channels] != list(range(1, len(channels) + 1)):
            yield pointer, "channels are not numbered from 1 on"
        if channels and len(channels) != channels_of(parts[place["part"]]):
            yield pointer, "has %d channels, not those of the part" % len(channels)
        groups = [c["group"] for c in channels]
        if groups != sorted(groups) or (groups and groups[0] < 1):
            yield pointer, "groups do not rise"
        for at, channel in enumerate(channels):
            if channel["spare"] and (channel["tag"] or channel["device"]):
                yield pointer + "/channels/%d" % at, "a point on a spare channel"
            if not channel["signal"] and not (channel["spare"] and channel["fed_from"] is None):
                yield pointer + "/channels/%d" % at, "something on an idle channel"


def channel_plants(estimate):
    """Pointer and value of faults in the first module that has channels."""
    pointer, place = next((p, s) for p, s in places_of(estimate["boxes"][0]) if s["channels"])
    first = "/boxes/0" + pointer + "/channels/0"
    yield first + "/number", 2
    yield first + "/group", 9
    yield "/boxes/0" + pointer + "/channels", place["channels"][:-1]
