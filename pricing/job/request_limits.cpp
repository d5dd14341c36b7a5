#include "pricing/job/request_limits.h"

#include <algorithm>

#include "pricing/values/document_units.h"

namespace backplate {
namespace {

std::string plain(std::string word) {
    std::replace(word.begin(), word.end(), '_', ' ');
    return word;
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
    return text;
}

template <class Value> bool asks(const BySignal<Value>& figures) {
    return figures.fallback != Value{} || !figures.exceptions.empty();
}

/// Gathers the limits of one box.
class BoxLimits {
public:
    BoxLimits(const BidRequest& request, const Box& box, bool name_box, const RuleBook& rules,
              std::vector<RequestLimit>& out)
        : box_(box), inch_(request.inch), rules_(rules), out_(out),
          end_(name_box ? " (" + box.name + ")" : ""),
          at_("/boxes/" + steps_text(static_cast<std::int64_t>(box.index), 0)) {}

    void sizes() {
        size("width", box_.site.max_width_mm, &Site::max_width_mm);
        size("height", box_.site.max_height_mm, &Site::max_height_mm);
        size("depth", box_.site.max_depth_mm, &Site::max_depth_mm);
        const Percent room = box_.choices.room;
        if (room != Percent())
            add(room.text() + " % free room", "/choices/room_percent",
                [](Box& box) { box.choices.room = Percent(); });
    }

    void choices() {
        const Choices& asked = box_.choices;
        word("cooling", asked.cooling, &Choices::cooling);
        word("material", asked.material, &Choices::material);
        enclosure();
        if (asked.inside_max_c)
            add("at most " + stated_temperature_text(*asked.inside_max_c, inch_) + " inside",
                "/choices/inside_max_c", [](Box& box) { box.choices.inside_max_c.reset(); });
        flag("only parts in stock", "in_stock_only", &Choices::in_stock_only);
        flag("a redundant supply", "redundant_supply", &Choices::redundant_supply);
        flag("a supply of the outputs alone", "separate_output_supply",
             &Choices::separate_output_supply);
        flag("a redundant controller", "redundant_controller", &Choices::redundant_controller);
        if (asked.future_load != Percent())
            add(asked.future_load.text() + " % future load", "/choices/future_load_percent",
                [](Box& box) { box.choices.future_load = Percent(); });
        if (asked.backup_minutes > 0)
            add(number_text(asked.backup_minutes) + " min of backup", "/choices/backup_minutes",
                [](Box& box) { box.choices.backup_minutes = 0; });
        parts();
    }

    void site() {
        const Site& site = box_.site;
        if (!site.protection.empty())
            add("protection " + site.protection, "/site/protection",
                [](Box& box) { box.site.protection.clear(); });
        if (!site.approvals.empty())
            add("approval " + joined(site.approvals), "/site/approvals",
                [](Box& box) { box.site.approvals.clear(); });
        if (rules_.find_site_limit("dust " + site.dust))
            add("dust: " + plain(site.dust), "/site/dust", [](Box& box) { box.site.dust.clear(); });
        if (rules_.find_site_limit("corrosion " + site.corrosion))
            add("corrosion: " + plain(site.corrosion), "/site/corrosion",
                [](Box& box) { box.site.corrosion.clear(); });
        temperatures();
        surroundings();
        mains();
    }

    void points() {
        need("isolated channels", &PointLine::isolated);
        need("channels that carry HART", &PointLine::hart);
    }

private:
    template <class Lift> void add(const std::string& text, const std::string& key, Lift lift) {
        out_.push_back({text + end_, at_ + key,
                        [at = box_.index, lift](BidRequest& job) { lift(job.boxes[at]); }});
    }

    void size(const std::string& side, const std::optional<double>& most,
              std::optional<double> Site::*member) {
        if (most)
            add("a " + side + " of at most " + length_text(*most, inch_), "/site/max_mm/" + side,
                [member](Box& box) { (box.site.*member).reset(); });
    }

    void word(const std::string& key, const std::string& asked, std::string Choices::*member) {
        if (asked != "any")
            add(key + ": " + plain(asked), "/choices/" + key,
                [member](Box& box) { box.choices.*member = "any"; });
    }

    void flag(const std::string& text, const std::string& key, bool Choices::*member) {
        if (box_.choices.*member)
            add(text, "/choices/" + key, [member](Box& box) { box.choices.*member = false; });
    }

    void enclosure() {
        const EnclosureChoice asked = box_.choices.enclosure;
        const auto to = [](EnclosureChoice other) {
            return [other](Box& box) { box.choices.enclosure = other; };
        };
        if (asked == EnclosureChoice::part)
            add("the enclosure " + box_.choices.enclosure_part, "/choices/enclosure", [](Box& box) {
                box.choices.enclosure = EnclosureChoice::choose;
                box.choices.enclosure_part.clear();
            });
        if (asked == EnclosureChoice::existing_plate)
            add("the existing plate of " +
                    plate_text(box_.choices.plate_width_mm, box_.choices.plate_height_mm, inch_),
                "/choices/enclosure", to(EnclosureChoice::by_client));
        if (asked == EnclosureChoice::plate_only)
            add("a plate of the price book", "/choices/enclosure", to(EnclosureChoice::by_client));
    }

    void parts() {
        const Choices& asked = box_.choices;
        if (!asked.platforms.empty())
            add("platform " + joined(asked.platforms), "/choices/platforms",
                [](Box& box) { box.choices.platforms.clear(); });
        if (!asked.exclude.empty())
            add("no " + joined(asked.exclude), "/choices/exclude",
                [](Box& box) { box.choices.exclude.clear(); });
        std::vector<std::string> kept, replaced;
        for (const KeptPart& each : asked.keep) kept.push_back(each.part);
        for (const ReplacedPart& each : asked.replace)
            replaced.push_back(each.by + " for " + each.part);
        if (!kept.empty())
            add("keeping " + joined(kept), "/choices/keep",
                [](Box& box) { box.choices.keep.clear(); });
        if (!replaced.empty())
            add(joined(replaced), "/choices/replace",
                [](Box& box) { box.choices.replace.clear(); });
    }

    void temperatures() {
        if (!rules_.conflicts.mild_c) return;
        const double mild = rules_.conflicts.mild_c->number();
        const Site& site = box_.site;
        if (site.ambient_high_c > mild)
            add(stated_temperature_text(site.ambient_high_c, inch_) + " outside",
                "/site/ambient_c/1", [mild](Box& box) {
                    box.site.ambient_high_c = std::max(mild, box.site.ambient_low_c);
                });
        if (site.ambient_low_c < mild)
            add(stated_temperature_text(site.ambient_low_c, inch_) + " outside in the cold",
                "/site/ambient_c/0", [mild](Box& box) {
                    box.site.ambient_low_c = std::min(mild, box.site.ambient_high_c);
                });
    }

    void surroundings() {
        const Site& site = box_.site;
        if (site.place != "indoor")
            add("place: " + plain(site.place), "/site/place",
                [](Box& box) { box.site.place = "indoor"; });
        if (site.altitude_m > 0)
            add("an altitude of " + distance_text(site.altitude_m, inch_), "/site/altitude_m",
                [](Box& box) { box.site.altitude_m = 0; });
        if (site.mounting != "free")
            add("mounting: " + plain(site.mounting), "/site/mounting",
                [](Box& box) { box.site.mounting = "free"; });
    }

    void mains() {
        const Site& site = box_.site;
        if (site.feeds > 1)
            add(steps_text(site.feeds, 0) + " feeds", "/site/supply/feeds",
                [](Box& box) { box.site.feeds = 1; });
        if (site.fault_current_ka)
            add("a fault current of " + number_text(*site.fault_current_ka) + " kA",
                "/site/fault_current_ka", [](Box& box) { box.site.fault_current_ka.reset(); });
    }

    void need(const std::string& text, bool PointLine::*member) {
        const auto asks = [&](const PointLine& line) { return line.*member; };
        if (std::any_of(box_.points.begin(), box_.points.end(), asks))
            add(text, "/points", [member](Box& box) {
                for (PointLine& line : box.points) line.*member = false;
            });
    }

    const Box& box_;
    bool inch_;
    const RuleBook& rules_;
    std::vector<RequestLimit>& out_;
    std::string end_, at_;
};

void add_spare(const SpareRule& spare, std::vector<RequestLimit>& out) {
    if (asks(spare.percent))
        out.push_back({"a spare of " + spare.percent.fallback.text() + " %" +
                           (spare.percent.exceptions.empty() ? "" : " with its exceptions"),
                       "/spare/percent", [](BidRequest& job) { job.spare.percent = {}; }});
    if (asks(spare.minimum_channels))
        out.push_back({"the least spare channels", "/spare/minimum_channels",
                       [](BidRequest& job) { job.spare.minimum_channels = {}; }});
    if (asks(spare.minimum_modules))
        out.push_back({"the spare modules", "/spare/minimum_modules",
                       [](BidRequest& job) { job.spare.minimum_modules = {}; }});
}

} // namespace

std::vector<RequestLimit> request_limits(const BidRequest& request,
                                         const std::vector<std::size_t>& boxes,
                                         const RuleBook& rules) {
    std::vector<RequestLimit> limits;
    const auto of_each = [&](void (BoxLimits::*gather)()) {
        for (const std::size_t at : boxes) {
            BoxLimits box(request, request.boxes[at], boxes.size() > 1, rules, limits);
            (box.*gather)();
        }
    };
    of_each(&BoxLimits::sizes);
    add_spare(request.spare, limits);
    of_each(&BoxLimits::choices);
    of_each(&BoxLimits::site);
    of_each(&BoxLimits::points);
    return limits;
}

} // namespace backplate
