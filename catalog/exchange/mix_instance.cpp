#include "catalog/exchange/mix_instance.h"

#include <algorithm>
#include <limits>

#include "catalog/exchange/node_reader.h"
#include "catalog/exchange/request_json.h"

namespace backplate {
namespace {

constexpr std::int64_t most = 1'000'000'000'000, most_kinds = 64, most_channels = 1'000'000;

class InstanceReader {
public:
    InstanceReader(const std::string& name, const Node& root) : root_(name, root) {}

    BareMix read() {
        const NodeReader format = root_.member("schema");
        if (format.text() != "io-mix-1") format.refuse("io-mix-1");
        mix_.name = root_.member("name").text();
        read_signals();
        read_demand();
        const NodeReader longest = root_.member("max_lead_days");
        if (!longest.is_null()) longest_lead_ = longest.whole(0, most);
        for (const NodeReader& family : root_.member("families").items()) read_family(family);
        return std::move(mix_);
    }

private:
    void read_signals() {
        const NodeReader list = root_.member("signal_types");
        for (const NodeReader& signal : list.items()) mix_.signals.push_back(signal.text());
        if (mix_.signals.size() > most_kinds) list.refuse("at most 64 kinds of signals");
        mix_.need.assign(mix_.signals.size(), 0);
    }

    std::size_t signal(const NodeReader& at, const std::string& name) const {
        const auto found = std::find(mix_.signals.begin(), mix_.signals.end(), name);
        if (found == mix_.signals.end()) at.refuse("a kind of signal of signal_types");
        return static_cast<std::size_t>(found - mix_.signals.begin());
    }

    void read_demand() {
        const NodeReader demand = root_.member("demand");
        for (const Member& each : demand.node().members) {
            const NodeReader one = demand.member(each.key);
            const std::int64_t count = one.member("count").whole(0, most_channels);
            const std::int64_t percent = one.member("spare_percent").whole(0, 10000);
            const std::int64_t need = (count * (100 + percent) + 99) / 100;
            one.member("need").whole(need, need);
            mix_.need[signal(one, each.key)] = need;
        }
    }

    static std::int64_t whole_or_0(const NodeReader& item, std::string_view key) {
        return item.node().find(key) ? item.member(key).whole(0, most) : 0;
    }

    BareGroup group(const NodeReader& item) const {
        BareGroup result;
        result.channels = static_cast<int>(item.member("n").whole(1, most_channels));
        for (const NodeReader& kind : item.member("accepts").items())
            result.accepts |= std::uint64_t{1} << signal(kind, kind.text());
        const NodeReader mode = item.member("mode");
        if (mode.text() != "channel" && mode.text() != "group") mode.refuse("channel or group");
        result.one_signal = mode.text() == "group";
        return result;
    }

    void read_items(const NodeReader& list, std::vector<BareItem>& items) const {
        for (const NodeReader& item : list.items()) {
            if (item.member("lead_days").whole(0, most) > longest_lead_) continue;
            BareItem result;
            result.id = item.member("id").text();
            result.sums = {
                item.member("cost_cents").whole(0, most), item.member("width_dmm").whole(0, most),
                item.member("heat_mw").whole(0, most), item.member("i24_ma").whole(0, most)};
            result.places = item.member("slots").whole(0, most);
            result.bus = item.member("bus_ma").whole(0, most);
            result.most_heads = whole_or_0(item, "max_heads");
            result.most_feeds = whole_or_0(item, "max_feeds");
            if (item.node().find("groups"))
                for (const NodeReader& each : item.member("groups").items())
                    result.groups.push_back(group(each));
            items.push_back(std::move(result));
        }
    }

    void read_family(const NodeReader& family) {
        BareFamily result;
        result.id = family.member("id").text();
        read_items(family.member("controllers"), result.controllers);
        read_items(family.member("heads"), result.heads);
        read_items(family.member("feeds"), result.feeds);
        read_items(family.member("modules"), result.modules);
        mix_.families.push_back(std::move(result));
    }

    NodeReader root_;
    BareMix mix_;
    std::int64_t longest_lead_ = std::numeric_limits<std::int64_t>::max();
};

} // namespace

BareMix read_mix_instance(const std::string& name, const std::string& text) {
    const ParsedJson parsed = parse_json(name, text);
    return InstanceReader(name, parsed.root).read();
}

} // namespace backplate
