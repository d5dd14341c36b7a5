#include "pricing/mix/hall_rows.h"

#include <algorithm>

namespace backplate {
namespace {

/// Flow from classes to kinds, pushed along shortest ways until none is left.
class ChannelFlow {
public:
    ChannelFlow(const std::vector<ChannelClass>& classes, const std::vector<std::int64_t>& need)
        : classes_(classes), open_(need), left_(classes.size()),
          flow_(classes.size(), std::vector<std::int64_t>(need.size(), 0)) {
        for (std::size_t c = 0; c < classes.size(); ++c) left_[c] = classes[c].channels;
    }

    /// The kinds that a way from an open one reaches; nothing where all need is met.
    std::optional<Signals> run() {
        for (;;) {
            const auto kind = std::find_if(open_.begin(), open_.end(),
                                           [](std::int64_t open) { return open > 0; });
            if (kind == open_.end()) return std::nullopt;
            if (!push(static_cast<std::size_t>(kind - open_.begin()))) return reached_;
        }
    }

private:
    static constexpr std::size_t none = static_cast<std::size_t>(-1);

    /// Searches a way from the kind back to a class with channels left.
    bool push(std::size_t start) {
        const std::size_t kinds = open_.size();
        std::vector<std::size_t> class_from(kinds, none), kind_from(classes_.size(), none);
        std::vector<std::size_t> queue{start};
        reached_ = Signals{1} << start;
        for (std::size_t head = 0; head < queue.size(); ++head) {
            const std::size_t kind = queue[head];
            for (std::size_t c = 0; c < classes_.size(); ++c) {
                if (kind_from[c] != none || !(classes_[c].accepts >> kind & 1)) continue;
                kind_from[c] = kind;
                if (left_[c] > 0) {
                    move(start, c, kind_from, class_from);
                    return true;
                }
                for (std::size_t other = 0; other < kinds; ++other)
                    if (flow_[c][other] > 0 && !(reached_ >> other & 1)) {
                        reached_ |= Signals{1} << other;
                        class_from[other] = c;
                        queue.push_back(other);
                    }
            }
        }
        return false;
    }

    /// Moves what the way holds: class → kind, which gives up a channel of another class, and so
    /// on.
    void move(std::size_t start, std::size_t end, const std::vector<std::size_t>& kind_from,
              const std::vector<std::size_t>& class_from) {
        std::int64_t amount = std::min(left_[end], open_[start]);
        for (std::size_t c = end; kind_from[c] != start;) {
            const std::size_t kind = kind_from[c];
            amount = std::min(amount, flow_[class_from[kind]][kind]);
            c = class_from[kind];
        }
        left_[end] -= amount;
        open_[start] -= amount;
        for (std::size_t c = end;;) {
            const std::size_t kind = kind_from[c];
            flow_[c][kind] += amount;
            if (kind == start) return;
            flow_[class_from[kind]][kind] -= amount;
            c = class_from[kind];
        }
    }

    const std::vector<ChannelClass>& classes_;
    std::vector<std::int64_t> open_, left_;
    std::vector<std::vector<std::int64_t>> flow_;
    Signals reached_ = 0;
};

} // namespace

std::int64_t channels_for(const std::vector<ChannelClass>& classes, Signals kinds) {
    std::int64_t channels = 0;
    for (const ChannelClass& each : classes)
        if (each.accepts & kinds) channels += each.channels;
    return channels;
}

std::optional<Signals> short_kinds(const std::vector<ChannelClass>& classes,
                                   const std::vector<std::int64_t>& need) {
    return ChannelFlow(classes, need).run();
}

} // namespace backplate
