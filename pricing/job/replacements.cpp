#include "pricing/job/replacements.h"

#include <algorithm>

#include "pricing/job/difference.h"
#include "pricing/panel/chosen_parts.h"
#include "pricing/request/check_request.h"

namespace backplate {
namespace {

constexpr int most_built = 8; // as many as can be looked over

bool is_text(const Node* node, const std::string& text) {
    return node && node->is(Node::Kind::text) && node->text == text;
}

Replacement judged(const Node& changed, const Estimate& base, const PriceBook& book,
                   const RuleBook& rules, Work& work) {
    Replacement result;
    CheckedRequest checked = check_request(changed, rules, base.request.date);
    if (!checked.request) {
        result.limits = checked.faults.front().text;
        return result;
    }
    Work own = work.beside({.range = false});
    const Estimate other = price_once(*checked.request, book, rules, own);
    work.add_trial(own);
    result.buildable = other.buildable;
    if (!other.buildable) {
        result.limits = limits_of(other);
    } else {
        result.price = other.price->price;
        result.difference = difference_of(base, other);
    }
    return result;
}

} // namespace

Node with_replacement(Node request, std::size_t box, const std::string& part,
                      const std::string& by) {
    const std::string pointer = "/boxes/" + std::to_string(box) + "/choices/";
    Node* choices = make_at_pointer(request, pointer + "replace");
    if (!choices) return request;
    if (!choices->is(Node::Kind::list)) *choices = Node::make_list();
    std::erase_if(choices->items,
                  [&](const Node& each) { return is_text(each.find("part"), part); });
    const auto led = std::ranges::find_if(
        choices->items, [&](const Node& each) { return is_text(each.find("by"), part); });
    if (led == choices->items.end()) {
        Node entry = Node::make_object();
        entry.member("part") = Node::make_text(part);
        entry.member("by") = Node::make_text(by);
        choices->items.push_back(std::move(entry));
    } else if (is_text(led->find("part"), by)) {
        choices->items.erase(led);
    } else {
        led->member("by") = Node::make_text(by);
    }
    if (choices->items.empty())
        make_at_pointer(request, pointer.substr(0, pointer.size() - 1))->erase("replace");
    if (at_pointer(request, pointer + "keep"))
        std::erase_if(make_at_pointer(request, pointer + "keep")->items,
                      [&](const Node& each) { return is_text(each.find("part"), part); });
    return request;
}

void find_replacements(const Node& request, const Estimate& base, std::size_t box,
                       const std::string& part, const PriceBook& book, const RuleBook& rules,
                       Work& work, const std::function<void(const Replacement&)>& found) {
    const Part* known = book.find(part);
    if (!known || !base.price || box >= base.request.boxes.size()) return;
    int built = 0;
    for (const Part* by : stand_ins(*known, book, base.request.boxes[box], base.request)) {
        work.check_stop();
        Replacement result =
            judged(with_replacement(request, box, part, by->key), base, book, rules, work);
        result.part = by->key;
        found(result);
        if (result.buildable && ++built == most_built) return;
    }
}

} // namespace backplate
