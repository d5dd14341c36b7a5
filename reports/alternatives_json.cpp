#include "reports/alternatives_json.h"

#include "reports/box_writer.h"

namespace backplate {
namespace {

class AlternativesWriter : BoxWriter {
public:
    AlternativesWriter(const Alternatives& alternatives, const RuleBook& rules)
        : BoxWriter(rules.digits_of(alternatives.base.request.currency),
                    alternatives.base.buildable),
          all_(alternatives) {}

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

    const Alternatives& all_;
};

} // namespace

std::string alternatives_json(const Alternatives& alternatives, const RuleBook& rules) {
    return AlternativesWriter(alternatives, rules).write();
}

} // namespace backplate
