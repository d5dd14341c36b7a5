#include <algorithm>
#include <set>

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/command_line/commands.h"
#include "app/command_line/counted.h"
#include "app/command_line/unknown_name.h"
#include "app/stored_data.h"
#include "pricing/book/part_fields.h"
#include "pricing/book/price_book.h"

namespace backplate {
namespace {

using Json = nlohmann::ordered_json;
using Names = std::vector<std::string>;

std::string lower(std::string text) {
    for (char& c : text)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return text;
}

bool serves(const Part& part, const std::string& signal) {
    return std::ranges::any_of(part.groups, [&](const ChannelGroup& group) {
        return std::ranges::find(group.signals, signal) != group.signals.end();
    });
}

/// Every text stands somewhere in the words of the part.
bool holds(const Part& part, const Names& texts) {
    const std::string words = lower(part.key + "\n" + part.kind + "\n" + part.function + "\n" +
                                    part.description + "\n" + part.maker + "\n" + part.platform);
    return std::ranges::all_of(texts, [&](const std::string& text) {
        return words.find(lower(text)) != std::string::npos;
    });
}

bool matches(const Part& part, const PartQuery& query) {
    const auto is = [](const std::string& asked, const std::string& own) {
        return asked.empty() || asked == own;
    };
    return is(query.kind, part.kind) && is(query.platform, part.platform) &&
           is(query.maker, part.maker) && is(query.state, part.state) &&
           (query.signal.empty() || serves(part, query.signal)) && holds(part, query.texts);
}

/// A word that no part could have is a slip, not a search without result.
void require_known(const std::string& word, const std::string& what, const Names& known) {
    if (!word.empty() && std::ranges::find(known, word) == known.end())
        refuse_unknown(word, what, known);
}

Names words_of(std::string_view field) {
    const auto words = find_part_field(field)->words;
    return {words.begin(), words.end()};
}

template <auto member> Names values_of(const std::vector<Part>& parts) {
    std::set<std::string> values;
    for (const Part& part : parts)
        if (!(part.*member).empty()) values.insert(part.*member);
    return {values.begin(), values.end()};
}

void check_query(const PartQuery& query, const LibraryContent& content) {
    Names signals;
    if (const RuleTable* table = content.rules.find("signals"))
        for (const RuleRow& row : table->rows) signals.push_back(row.key);
    require_known(query.kind, "kind of part", words_of("kind"));
    require_known(query.state, "state of a part", words_of("state"));
    require_known(query.platform, "platform of the price book",
                  values_of<&Part::platform>(content.parts));
    require_known(query.maker, "maker of the price book", values_of<&Part::maker>(content.parts));
    require_known(query.signal, "signal", signals);
}

std::string net_text(const Part& part) {
    const auto net = part.net();
    return net ? net->unit_text(2) : "";
}

std::string channels_text(const Part& part) { return groups_text(part.groups); }

Json text_or_null(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

Json part_json(const Part& part) {
    return {{"part", part.key},
            {"kind", part.kind},
            {"function", text_or_null(part.function)},
            {"description", part.description},
            {"maker", text_or_null(part.maker)},
            {"platform", text_or_null(part.platform)},
            {"channels", text_or_null(channels_text(part))},
            {"unit", part.unit},
            {"net", text_or_null(net_text(part))},
            {"price_date", part.price_date ? Json(part.price_date->text()) : Json(nullptr)},
            {"state", part.state},
            {"demo_data", part.demo}};
}

void print_table(const std::vector<const Part*>& found, const std::string& currency) {
    fmt::print("{:<14} {:<12} {:<10} {:>10}  {}\n", "part", "kind", "platform", "net " + currency,
               "description");
    for (const Part* part : found) {
        const std::string net = net_text(*part);
        fmt::print("{:<14} {:<12} {:<10} {:>10}  {}{}{}\n", part->key, part->kind, part->platform,
                   net.empty() ? "no price" : net, part->description,
                   part->state == "current" ? "" : " [" + part->state + "]",
                   part->demo ? " (demo data)" : "");
    }
}

} // namespace

int run_parts_find(const PartQuery& query, const CommonArguments& common) {
    const LibraryContent content = load_content(common.library);
    check_query(query, content);
    std::vector<const Part*> found;
    for (const Part& part : content.parts)
        if (matches(part, query)) found.push_back(&part);
    std::ranges::sort(found, {}, [](const Part* part) -> const std::string& { return part->key; });
    if (common.json) {
        Json list = Json::array();
        for (const Part* part : found) list.push_back(part_json(*part));
        const Json result{{"issue", content.prices_issue},
                          {"currency", book_currency(content.rules)},
                          {"parts", list}};
        fmt::print("{}\n", result.dump(2));
        return done;
    }
    if (!found.empty()) print_table(found, book_currency(content.rules));
    fmt::print("{} of {}\n", found.size(), counted(content.parts.size(), "part"));
    return done;
}

} // namespace backplate
