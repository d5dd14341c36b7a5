#include "reports/alternatives_json.h"

#include "reports/box_writer.h"
#include "reports/price_steps_text.h"

namespace backplate {
namespace {

class AlternativesWriter : BoxWriter {
public:
    AlternativesWriter(const Alternatives& alternatives, const FoundSteps& steps,
                       const RuleBook& rules)
        : BoxWriter(rules.digits_of(alternatives.base.request.currency),
                    alternatives.base.buildable),
          digits_(rules.digits_of(alternatives.base.request.currency)), all_(alternatives),
          steps_(steps) {}

    std::string write() {
        json_.begin_object();
        json_.text("format", "backplate-alternatives/1");
        base();
        list("alternatives", all_.alternatives, [this](const Alternative& each) { members(each); });
        list("dropped", all_.dropped, [this](const DroppedAlternative& each) {
            json_.text("title", each.title);
            json_.text("reason", each.reason);
            json_.text_or_null("same_as", each.same_as);
        });
        list("price_steps", steps_.signals, [this](const PriceSteps& each) { further(each); });
        json_.end_object();
        return json_.take();
    }

private:
    void base() {
        json_.begin_object("base");
        money("price", all_.base.price ? std::optional(all_.base.price->price) : std::nullopt);
        boxes(all_.base.boxes);
        json_.end_object();
    }

    void boxes(const std::vector<BoxResult>& results) {
        list("boxes", results, [this](const BoxResult& box) { box_members(box); });
    }

    void members(const Alternative& each) {
        json_.text("title", each.title);
        json_.text("reason", each.reason);
        json_.node("taken_by", each.taken_by);
        money("price", each.price);
        difference("difference", each.difference);
        boxes(each.boxes);
        json_.flag("proven_cheapest", each.proven_cheapest);
    }

    void point_price(const std::optional<Money>& price) {
        money("point_price", price ? std::optional(price->rounded(digits_)) : std::nullopt);
    }

    void further(const PriceSteps& found) {
        json_.text("box", found.box);
        json_.text("signal", found.signal);
        json_.text_or_null("id", found.id);
        integer("boxes", found.boxes);
        integer("used", found.used);
        integer("looked_at", found.looked_at);
        integer("free_points", found.free_points);
        point_price(found.point_price);
        list("steps", found.steps, [&](const PriceStep& step) { step_members(step, found.box); });
    }

    void step_members(const PriceStep& step, const std::string& box) {
        integer("points", step.points);
        point_price(step.point_price);
        money("price_before", step.price_before);
        money("price", step.price);
        money("difference", step.difference());
        json_.text("text", step_text(step, box));
        list("changes", step.changes, [this](const DeviceChange& change) {
            json_.text("box", change.box);
            json_.text("kind", change.kind);
            part_counts("removed", change.removed);
            part_counts("added", change.added);
        });
    }

    int digits_;
    const Alternatives& all_;
    const FoundSteps& steps_;
};

} // namespace

std::string alternatives_json(const Alternatives& alternatives, const FoundSteps& steps,
                              const RuleBook& rules) {
    return AlternativesWriter(alternatives, steps, rules).write();
}

} // namespace backplate
