#include "app/desk/answer_text.h"

#include <algorithm>

#include "pricing/values/document_units.h"
#include "reports/number_format.h"
#include "reports/wording.h"

namespace backplate {
namespace {

constexpr const char* group_blank = "\u202f"; // narrow, no break

template <class Items, class Say> std::string joined(const Items& items, Say say) {
    std::string text;
    for (const auto& item : items) text += (text.empty() ? "" : " · ") + say(item);
    return text;
}

std::string pieces(const std::string& part, int quantity) {
    return quantity == 1 ? part : std::to_string(quantity) + " × " + part;
}

std::string spare_text(const PointResult& point, const FigureText& text) {
    if (point.used == 0 || point.fitted == 0) return "–";
    return text.number(100.0 * (point.fitted - point.used) / point.used, 1) + " %";
}

std::string enclosure_part(const EnclosureResult& enclosure) {
    return pieces(enclosure.part.empty() ? "by the client" : enclosure.part, enclosure.quantity);
}

std::string size_of(const EnclosureResult& enclosure, const FigureText& text) {
    if (!enclosure.width_mm || !enclosure.height_mm || !enclosure.depth_mm)
        return "plate " + text.size({enclosure.plate_width_mm, enclosure.plate_height_mm});
    return text.size({*enclosure.width_mm, *enclosure.height_mm, *enclosure.depth_mm});
}

} // namespace

std::string FigureText::marked(std::string text) const {
    const auto point = std::min(text.find('.'), text.size());
    if (point < text.size()) text[point] = mark_;
    const std::size_t first = text.starts_with('-') ? 1 : 0;
    for (std::size_t at = point; at > first + 3; at -= 3) text.insert(at - 3, group_blank);
    return text;
}

std::string FigureText::money(Money amount, int digits) const {
    return marked(amount.text(digits));
}

std::string FigureText::number(double value, int places) const {
    return marked(number_text(value, places));
}

std::string FigureText::hours(Hours hours) const { return number(hours.number(), 1); }

std::string FigureText::temperature(Celsius value, int places) const {
    return number(temperature_in(value.value, inch_), places) + " " + temperature_unit(inch_);
}

std::string FigureText::size(std::initializer_list<double> sides_mm) const {
    std::string text;
    for (const double side : sides_mm)
        text += (text.empty() ? "" : " × ") + number(length_in(side, inch_), inch_ ? 2 : 0);
    return text + " " + length_unit(inch_);
}

TextRows module_rows(const BoxResult& box, const PriceBook& prices) {
    TextRows rows;
    for (const ModuleResult& module : box.modules) {
        const Part* part = prices.find(module.part);
        rows.push_back({std::to_string(module.quantity), module.part,
                        part ? part->description : plain_words(module.role)});
    }
    return rows;
}

TextRows point_rows(const Estimate& estimate, const std::string& box, const FigureText& text) {
    TextRows rows;
    for (const PointResult& point : estimate.points)
        if (point.box == box)
            rows.push_back({point.signal, std::to_string(point.used),
                            std::to_string(point.required), std::to_string(point.fitted),
                            spare_text(point, text)});
    return rows;
}

TextRows bill_rows(const Estimate& estimate, const std::string& box, const FigureText& text) {
    TextRows rows;
    const int digits = estimate.price ? estimate.price->digits : 2;
    for (const BillLine& line : estimate.bill)
        if (line.box == box)
            rows.push_back({std::to_string(line.quantity), line.part, line.description,
                            line.line_net ? text.money(*line.line_net, digits) : "no price"});
    return rows;
}

std::string supply_figure(const BoxResult& box, const FigureText& text) {
    return joined(box.supplies, [&](const SupplyResult& supply) {
        return pieces(supply.part, supply.quantity) + ", " + text.number(supply.rated.value, 1) +
               " A";
    });
}

std::string supply_detail(const BoxResult& box, const FigureText& text) {
    return joined(box.supplies, [&](const SupplyResult& supply) {
        std::string detail = "load " + text.number(supply.load.value, 2) + " A";
        if (supply.required && supply.air)
            detail += ", needs " + text.number(supply.required->value, 2) + " A at " +
                      text.temperature(*supply.air, 0);
        for (const PartCount& part : supply.parts)
            detail += " · " + pieces(part.part, part.quantity);
        return detail;
    });
}

std::string heat_figure(const BoxResult& box, const FigureText& text) {
    const std::string inside = text.number(box.heat.inside.value, 0) + " W";
    if (!box.heat.top) return inside;
    return inside + ", " + text.temperature(*box.heat.top, 1) + " at the top";
}

std::string heat_detail(const BoxResult& box, const FigureText& text) {
    std::string detail =
        (box.heat.stage.empty() ? "no verdict without the box" : plain_words(box.heat.stage)) +
        ", limit " + text.temperature(box.heat.limit, 1);
    for (const PartCount& part : box.heat.parts) detail += " · " + pieces(part.part, part.quantity);
    return detail;
}

std::string enclosure_figure(const BoxResult& box, const FigureText& text) {
    return joined(box.enclosures, [&](const EnclosureResult& enclosure) {
        return enclosure_part(enclosure) + ", " + size_of(enclosure, text);
    });
}

std::string enclosure_size(const BoxResult& box, const FigureText& text) {
    return joined(box.enclosures,
                  [&](const EnclosureResult& enclosure) { return size_of(enclosure, text); });
}

std::string enclosure_detail(const BoxResult& box, const FigureText& text) {
    return joined(box.enclosures, [&](const EnclosureResult& enclosure) {
        std::string detail = enclosure_part(enclosure) + ", ";
        if (!enclosure.protection.empty()) detail += enclosure.protection + ", ";
        if (!enclosure.material.empty()) detail += plain_words(enclosure.material) + ", ";
        return detail + text.number(enclosure.room_left_percent, 1) + "\u00a0% of the rail free";
    });
}

std::string incoming_figure(const BoxResult& box, const FigureText& text) {
    if (!box.incoming) return "–";
    return text.number(box.incoming->device.value, 0) + " A, " +
           conductor_text(box.incoming->conductor, text.inch());
}

std::string wiring_figure(const BoxResult& box) {
    const auto count = [](const std::optional<int>& number) {
        return number ? std::to_string(*number) : std::string("–");
    };
    return count(box.terminals) + " terminals, " + count(box.wires) + " wires";
}

std::string device_words(const Estimate& estimate, const std::string& box,
                         const PlacedDevice& device, const Inputs& inputs, const FigureText& text) {
    const Part* part = inputs.prices->find(device.part);
    std::string words = device.id + ": " + (part ? part->key : device.text);
    if (device.width_mm > 0) words += " · " + text.size({device.width_mm}) + " wide";
    if (part && (part->own_w || part->own_a)) {
        const double volts = inputs.rules->supply.volts.number();
        words +=
            " · " + text.number(part->own_w.value_or(part->own_a.value_or(0) * volts), 1) + " W";
    }
    const auto line = std::ranges::find_if(estimate.bill, [&](const BillLine& each) {
        return each.box == box && each.part == device.part;
    });
    if (!device.part.empty() && line != estimate.bill.end() && line->unit_net && estimate.price)
        words += " · " + text.money(*line->unit_net, estimate.price->digits) + " " +
                 estimate.price->currency;
    if (part && !part->description.empty()) words += " · " + part->description;
    return words;
}

TextRows build_up_rows(const PriceResult& price, const FigureText& text) {
    TextRows rows;
    const auto add = [&](const char* name, Money amount) {
        if (!amount.is_zero()) rows.push_back({name, text.money(amount, price.digits)});
    };
    add("Material", price.material);
    add("Freight", price.freight);
    add("Labour", price.labour);
    add("Direct cost", price.direct);
    add("Contingency", price.contingency);
    add("Overhead", price.overhead);
    add("Cost", price.cost);
    add("Margin", price.margin);
    add("Concession", -price.concession);
    add("Rounding", price.rounding);
    if (price.tax) add("Tax, not in the price", *price.tax);
    return rows;
}

TextRows labour_rows(const Estimate& estimate, const FigureText& text) {
    struct Sum {
        std::string activity;
        Hours hours;
        Money cost;
    };
    std::vector<Sum> sums;
    for (const LabourLine& line : estimate.labour) {
        auto found = std::find_if(sums.begin(), sums.end(),
                                  [&](const Sum& sum) { return sum.activity == line.activity; });
        if (found == sums.end()) found = sums.insert(sums.end(), {line.activity, {}, {}});
        found->hours += line.hours;
        found->cost += line.cost;
    }
    TextRows rows;
    const int digits = estimate.price ? estimate.price->digits : 2;
    for (const Sum& sum : sums)
        rows.push_back(
            {plain_words(sum.activity), text.hours(sum.hours), text.money(sum.cost, digits)});
    return rows;
}

Hours labour_hours(const Estimate& estimate) {
    Hours sum;
    for (const LabourLine& line : estimate.labour) sum += line.hours;
    return sum;
}

std::string delivery_figure(const Estimate& estimate) {
    if (!estimate.delivery_weeks) return "–";
    std::string text = std::to_string(*estimate.delivery_weeks) + " weeks";
    if (!estimate.critical_part.empty()) text += ", set by " + estimate.critical_part;
    return text;
}

std::string place_words(const std::string& pointer) {
    std::string words;
    std::string step;
    for (std::size_t at = 1; at < pointer.size(); at += step.size() + 1) {
        step = pointer.substr(at, pointer.find('/', at) - at);
        const bool index = step.find_first_not_of("0123456789") == std::string::npos;
        if (index && words == "boxes") words = "box";
        if (!words.empty()) words += index ? " " : ", ";
        words += index ? std::to_string(std::stoul(step) + 1) : step;
    }
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

Doubts doubts_of(const DeskState& state) {
    Doubts doubts;
    const auto add = [&](std::vector<std::string> row, const std::string& pointer) {
        doubts.rows.push_back(std::move(row));
        doubts.pointers.push_back(pointer);
    };
    if (!state.answer) return doubts;
    if (!state.answer->error.empty()) add({"fault", "No answer", state.answer->error}, "");
    for (const RequestFault& fault : state.answer->faults)
        add({"fault", place_words(fault.where), fault.text}, fault.where);
    for (const auto& [place, field] : state.unconfirmed) {
        const Node* value = state.session.value(place);
        const bool plain = value && !value->is(Node::Kind::object) && !value->text.empty();
        add({"copied", place_words(place),
             "not yet confirmed" + (plain ? ": " + value->text : std::string())},
            place);
    }
    const Estimate* estimate = state.estimate();
    if (!estimate || state.stale()) return doubts;
    const RuleBook& rules = *state.inputs->rules;
    for (const Finding& finding : estimate->findings)
        add({severity_word(finding.severity), finding_title(finding, rules),
             finding_text(finding, rules)},
            finding.where);
    for (const Assumption& assumption : estimate->request.assumptions)
        add({"assumed", place_words(assumption.field), assumption.text}, assumption.field);
    return doubts;
}

} // namespace backplate
