#include "pricing/price_list/compare_list.h"

#include <algorithm>
#include <map>
#include <set>

#include "pricing/price_list/list_text.h"

namespace backplate {
namespace {

constexpr std::int64_t whole_steps = 1'000'000; ///< 100 % in steps of Percent

using Found = std::vector<const Part*>;

/// The parts by their keys, as they stand and folded.
class KeyIndex {
public:
    KeyIndex(const std::vector<Part>& parts, const std::string& maker) {
        for (const Part& part : parts) {
            if (!maker.empty() && part.maker != maker) continue;
            exact_[part.key] = {&part};
            folded_[folded_key(part.key)].push_back(&part);
        }
    }

    /// Nothing, one part, or several that only look alike.
    Found find(const std::string& theirs, const std::string& alias, const PriceMap& map) const {
        const auto own = map.keys.find(theirs);
        const std::string& key = own == map.keys.end() ? theirs : own->second;
        for (const auto& [index, text] :
             {std::pair{&exact_, key}, std::pair{&exact_, alias},
              std::pair{&folded_, folded_key(key)}, std::pair{&folded_, folded_key(alias)}}) {
            const auto found = text.empty() ? index->end() : index->find(text);
            if (found != index->end()) return found->second;
        }
        return {};
    }

private:
    std::map<std::string, Found> exact_, folded_;
};

std::optional<Percent> change_of(Money before, Money after) {
    if (before.is_zero()) return std::nullopt;
    constexpr std::int64_t tenths = 1000; // percent, 1 decimal
    const auto change =
        multiply_divide((after - before).steps(), tenths, before.steps(), Rounding::half_away);
    return Percent::of_steps(change * (whole_steps / tenths));
}

bool ended(const Part& part) { return part.state == "discontinued"; }

Part ended_part(Part part) {
    part.state = "discontinued";
    return part;
}

/// Whether parts_to_put takes a line.
bool is_taken(const ListLine& line, const ListChoice& choice) {
    if (line.outcome == ListOutcome::suspicious) return choice.suspicious;
    return line.outcome != ListOutcome::gone || choice.gone;
}

class Comparer {
public:
    Comparer(const PriceList& list, const std::vector<Part>& parts, const ListRules& rules)
        : list_(list), parts_(parts), rules_(rules), index_(parts, list.map.maker) {}

    ListComparison compare() {
        for (const ListOffer& offer : list_.offers) {
            found_.push_back(index_.find(offer.key, offer.alias, list_.map));
            if (found_.back().size() == 1) rows_[found_.back()[0]].push_back(offer.row);
        }
        for (std::size_t i = 0; i < list_.offers.size(); ++i)
            add(line_of(list_.offers[i], found_[i]));
        add_gone();
        return std::move(comparison_);
    }

private:
    void add(ListLine line) {
        OutcomeSum& sum = comparison_.sums[static_cast<std::size_t>(line.outcome)];
        ++sum.lines;
        if (line.applicable && line.before && line.after) {
            sum.before += *line.before;
            sum.after += *line.after;
        }
        comparison_.lines.push_back(std::move(line));
    }

    ListLine line_of(const ListOffer& offer, const Found& found) {
        ListLine line;
        line.row = offer.row;
        line.key = offer.key;
        if (found.empty()) {
            line.outcome = ListOutcome::fresh;
            if (offer.price) line.after = offer.price->ratio(1, offer.price_of);
            return line;
        }
        if (found.size() > 1) return unclear_key(std::move(line), found);
        const Part& part = *found[0];
        line.part = part.key;
        line.description = part.description;
        line.before = part.net();
        const auto& rows = rows_.at(&part);
        if (rows.size() > 1) {
            line.outcome = ListOutcome::unclear;
            for (const int row : rows)
                if (row != offer.row)
                    line.reasons.push_back("row " + std::to_string(row) + " names the same part");
            return line;
        }
        judge(line, offer, part);
        return line;
    }

    static ListLine unclear_key(ListLine line, const Found& found) {
        line.outcome = ListOutcome::unclear;
        std::string keys;
        for (const Part* part : found) keys += (keys.empty() ? "" : ", ") + part->key;
        line.reasons.push_back("may be any of " + keys);
        return line;
    }

    void judge(ListLine& line, const ListOffer& offer, const Part& part) {
        Part changed = part;
        for (const auto& [field, text] : offer.fields) field->read(changed, text);
        const bool priced = offer.price && !offer.price->is_zero() && same_currency(offer);
        const bool ends = ended(changed) && !ended(part);
        line.applicable = priced || ends;
        if (ends && !priced)
            changed = ended_part(part); // the price held stays with its day
        else
            take_price(line, offer, part, changed);
        line.outcome = outcome_of(line, ends);
        take_successor(line, offer, changed);
        for (const PartField& field : part_fields())
            if (field.write(part) != field.write(changed)) line.fields.emplace_back(field.key);
        if (line.applicable && !line.fields.empty()) line.part_after = std::move(changed);
    }

    void take_price(ListLine& line, const ListOffer& offer, const Part& part, Part& changed) const {
        if (offer.price) {
            const int pieces = offer.of_pack ? std::max(1, changed.pack) : offer.price_of;
            changed.list = offer.price->ratio(1, pieces);
            if (offer.net) changed.discounts.clear();
            line.after = changed.net();
        }
        reasons(line, offer, part, changed);
        if (line.before && line.after && same_currency(offer))
            line.change = change_of(*line.before, *line.after);
    }

    /// The part that the list names as successor; one that is no part is told.
    void take_successor(ListLine& line, const ListOffer& offer, Part& changed) const {
        if (offer.successor.empty()) return;
        const Found found = index_.find(offer.successor, "", list_.map);
        const bool known = found.size() == 1;
        if (known && changed.successor == found[0]->key) return;
        if (known) changed.successor = found[0]->key;
        line.reasons.push_back(
            "followed by " +
            (known ? changed.successor : offer.successor + ", which is no part of the price book"));
    }

    bool same_currency(const ListOffer& offer) const {
        return offer.currency.empty() || offer.currency == rules_.currency;
    }

    static ListOutcome outcome_of(const ListLine& line, bool ends) {
        if (!line.reasons.empty()) return ListOutcome::suspicious;
        if (ends) return ListOutcome::discontinued;
        if (!line.before) return ListOutcome::first_price;
        if (*line.after > *line.before) return ListOutcome::dearer;
        return *line.after < *line.before ? ListOutcome::cheaper : ListOutcome::unchanged;
    }

    void reasons(ListLine& line, const ListOffer& offer, const Part& part,
                 const Part& changed) const {
        const auto say = [&](std::string text) { line.reasons.push_back(std::move(text)); };
        if (!offer.price) say("has no price");
        if (offer.price && offer.price->is_zero()) say("its price is 0");
        if (!same_currency(offer))
            say("is in " + offer.currency + ", the price book in " + rules_.currency);
        if (offer.of_pack)
            say("is the price of a pack, of " + std::to_string(std::max(1, changed.pack)) +
                " pieces as far as is known");
        if (!offer.maker.empty() && !part.maker.empty() &&
            folded_key(offer.maker) != folded_key(part.maker))
            say("is of " + offer.maker + ", the part of " + part.maker);
        if (part.price_date && changed.price_date && *changed.price_date < *part.price_date)
            say("is of " + changed.price_date->text() + ", the price held of " +
                part.price_date->text());
        if (changed.price_date && changed.valid_until && *changed.valid_until < *changed.price_date)
            say("would end on " + changed.valid_until->text() + ", before its day " +
                changed.price_date->text());
        if (line.applicable && line.before && line.after && !line.before->is_zero())
            price_reasons(line, std::max(part.pack, changed.pack));
    }

    /// A change beyond the limits, and one that a whole pack would explain.
    void price_reasons(ListLine& line, int pack) const {
        const Money before = *line.before, after = *line.after;
        const auto scaled = [](Money price, std::int64_t percent_steps) {
            return price.ratio(whole_steps + percent_steps, whole_steps);
        };
        if (pack > 1 && rules_.pack) {
            const Money of_pack = before.times(pack);
            if (after >= scaled(of_pack, -rules_.pack->steps()) &&
                after <= scaled(of_pack, rules_.pack->steps()))
                line.reasons.push_back("looks like the price of a pack of " + std::to_string(pack));
        }
        if (rules_.dearer && after > scaled(before, rules_.dearer->steps()))
            line.reasons.push_back("is dearer by more than " + rules_.dearer->text() + " %");
        if (rules_.cheaper && after < scaled(before, -rules_.cheaper->steps()))
            line.reasons.push_back("is cheaper by more than " + rules_.cheaper->text() + " %");
    }

    /// Parts of the makers that the list holds parts of, and that it leaves out.
    void add_gone() {
        std::set<std::string> makers;
        std::set<const Part*> named;
        for (const Found& found : found_)
            for (const Part* part : found) {
                makers.insert(part->maker);
                named.insert(part);
            }
        makers.erase("");
        if (!list_.map.maker.empty()) makers = {list_.map.maker};
        for (const Part& part : parts_) {
            if (!makers.contains(part.maker) || named.contains(&part)) continue;
            ListLine line;
            line.outcome = ListOutcome::gone;
            line.part = part.key;
            line.description = part.description;
            line.before = part.net();
            if (!ended(part)) {
                line.fields = {"state"};
                line.part_after = ended_part(part);
            }
            add(std::move(line));
        }
    }

    const PriceList& list_;
    const std::vector<Part>& parts_;
    const ListRules& rules_;
    KeyIndex index_;
    std::vector<Found> found_;
    std::map<const Part*, std::vector<int>> rows_;
    ListComparison comparison_;
};

} // namespace

ListComparison compare_list(const PriceList& list, const std::vector<Part>& parts,
                            const ListRules& rules) {
    return Comparer(list, parts, rules).compare();
}

std::vector<Part> parts_to_put(const ListComparison& comparison, const ListChoice& choice) {
    std::vector<Part> parts;
    for (const ListLine& line : comparison.lines)
        if (line.part_after && is_taken(line, choice)) parts.push_back(*line.part_after);
    return parts;
}

} // namespace backplate
