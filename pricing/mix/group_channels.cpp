#include "pricing/mix/group_channels.h"

#include <algorithm>
#include <stdexcept>

#include "pricing/mix/accepts.h"

namespace backplate {
namespace {

/// Fills group by group and line by line, the most first, and goes back where the counts do not
/// come out.
class Filling {
public:
    Filling(const ModuleUse& use, const std::vector<MixLine>& lines, const std::vector<bool>& mains,
            bool apart)
        : part_(*use.part), lines_(lines), mains_(mains), apart_(apart), carried_(use.carried),
          extra_(use.extra) {
        const std::vector<int> none(lines.size(), 0);
        groups_.assign(part_.groups.size(), {none, none, 0});
    }

    bool fill() { return part_.groups.empty() ? done() : start(0); }

    std::vector<GroupChannels> take() {
        for (std::size_t at = 0; at < groups_.size(); ++at) {
            groups_[at].idle = part_.groups[at].channels;
            for (std::size_t line = 0; line < lines_.size(); ++line)
                groups_[at].idle -= groups_[at].carried[line] + groups_[at].extra[line];
        }
        return std::move(groups_);
    }

private:
    /// What is left of the group that is being filled.
    struct Left {
        int channels = 0;
        std::int64_t common = 0;
        int line = -1; ///< a line that it serves
    };

    bool done() const {
        const auto zero = [](int count) { return count == 0; };
        return std::all_of(carried_.begin(), carried_.end(), zero) &&
               std::all_of(extra_.begin(), extra_.end(), zero);
    }

    bool start(std::size_t group) {
        const ChannelGroup& own = part_.groups[group];
        return add(group, 0, {own.channels, common_limit(own), -1});
    }

    bool serves(const ChannelGroup& group, std::size_t line, const Left& left) const {
        if (left.line < 0) return true;
        const auto first = static_cast<std::size_t>(left.line);
        if (group.one_signal && lines_[first].signal != lines_[line].signal) return false;
        return !apart_ || mains_[first] == mains_[line];
    }

    int most(const ChannelGroup& group, std::size_t line, const Left& left) const {
        if (!serves(group, line, left)) return 0;
        const int channels =
            std::min({left.channels, accepts(group, lines_[line]), carried_[line] + extra_[line]});
        const std::int64_t need = common_need(lines_[line]);
        if (need == 0 || channels <= 0) return std::max(channels, 0);
        return static_cast<int>(std::min<std::int64_t>(channels, left.common / need));
    }

    bool add(std::size_t group, std::size_t line, const Left& left) {
        if (line == lines_.size())
            return group + 1 == part_.groups.size() ? done() : start(group + 1);
        for (int take = most(part_.groups[group], line, left); take >= 0; --take) {
            const int points = std::min(take, carried_[line]);
            move(group, line, points, take - points);
            Left next = left;
            next.channels -= take;
            next.common -= take * common_need(lines_[line]);
            if (take > 0) next.line = static_cast<int>(line);
            if (add(group, line + 1, next)) return true;
            move(group, line, -points, points - take);
        }
        return false;
    }

    void move(std::size_t group, std::size_t line, int points, int beyond) {
        groups_[group].carried[line] += points;
        groups_[group].extra[line] += beyond;
        carried_[line] -= points;
        extra_[line] -= beyond;
    }

    const Part& part_;
    const std::vector<MixLine>& lines_;
    const std::vector<bool>& mains_;
    bool apart_;
    std::vector<int> carried_, extra_; ///< still to be placed
    std::vector<GroupChannels> groups_;
};

} // namespace

std::vector<GroupChannels> group_channels(const ModuleUse& use, const std::vector<MixLine>& lines,
                                          const std::vector<bool>& mains) {
    for (const bool apart : {true, false}) {
        Filling filling(use, lines, mains, apart);
        if (filling.fill()) return filling.take();
    }
    throw std::logic_error(use.part->key + " does not hold the channels it was chosen for");
}

} // namespace backplate
