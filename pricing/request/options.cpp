#include "pricing/request/options.h"

#include "pricing/request/check_request.h"
#include "pricing/request/node_values.h"

namespace backplate {
namespace {

std::string text_of(const Node& option, const char* key) {
    const Node* value = option.find(key);
    return value ? value->text : std::string();
}

} // namespace

Node changeable(const BidRequest& request) {
    Node copy = request.sent;
    if (Node* commercial = copy.find("commercial")) commercial->erase("options");
    Node* boxes = copy.find("boxes");
    for (const Box& box : request.boxes)
        boxes->items[box.index].member("name") = Node::make_text(box.name);
    return copy;
}

void add_options(BidRequest& request, const RuleBook& rules, std::vector<RequestFault>& faults) {
    const Node* options = at_pointer(request.filled, "/commercial/options");
    if (!options) return;
    for (std::size_t i = 0; i < options->items.size(); ++i) {
        const Node& option = options->items[i];
        const std::string at =
            "/commercial/options/" + steps_text(static_cast<std::int64_t>(i), 0) + "/change";
        Node changed = changeable(request);
        if (const auto nobody = apply_change(changed, *option.find("change"))) {
            faults.push_back({at + *nobody, "names nothing in the request, expected the name of a "
                                            "box, or the id or signal of its points"});
            continue;
        }
        CheckedRequest checked = check_request(changed, rules, request.date);
        for (const RequestFault& fault : checked.faults)
            faults.push_back({at, "with this change " + fault.where + " is wrong: " + fault.text});
        if (!checked.request) continue;
        request.options.push_back(
            {text_of(option, "title"), text_of(option, "kind"),
             std::make_shared<const BidRequest>(*std::move(checked.request))});
    }
}

} // namespace backplate
