#include "catalog/exchange/list_answers_json.h"

#include <algorithm>
#include <array>
#include <charconv>

#include "catalog/exchange/request_json.h"
#include "pricing/takeoff/headings.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

using Does = ListAnswer::Does;

constexpr std::string_view format = "backplate-takeoff-answers/1";
constexpr auto keys = std::array<std::string_view, 6>{"format",      "encoding", "delimiter",
                                                      "heading_row", "columns",  "answers"};
constexpr auto answer_keys =
    std::array<std::string_view, 5>{"reason", "sheet", "row", "type", "answer"};
constexpr int most_rows = 100'000, most_pieces = 100'000;

struct AnswerWord {
    Does does;
    std::string_view word;
};
constexpr auto answer_words =
    std::array{AnswerWord{Does::accept, "accept"}, AnswerWord{Does::leave_out, "leave_out"},
               AnswerWord{Does::count, "count"}};

class AnswersReader {
public:
    AnswersReader(std::string name, const RuleBook& rules)
        : name_(std::move(name)), rules_(rules) {}

    ListAnswers read(const Node& root) const {
        check_keys(root, keys, "");
        if (text(root, "format", "") != format)
            refuse("/format", "expected \"" + std::string(format) + "\"");
        ListAnswers answers;
        answers.encoding = text(root, "encoding", "");
        answers.delimiter = text(root, "delimiter", "");
        if (answers.delimiter.size() > 1) refuse("/delimiter", "expected one character");
        if (const Node* row = root.find("heading_row"))
            answers.table.heading_row = whole(*row, "/heading_row", 0, most_rows);
        answers.table.columns = columns(root);
        if (const Node* list = root.find("answers")) {
            if (!list->is(Node::Kind::list)) refuse("/answers", "expected a list of answers");
            for (std::size_t i = 0; i < list->items.size(); ++i)
                answers.answers.push_back(answer(list->items[i], "/answers/" + std::to_string(i)));
        }
        return answers;
    }

private:
    [[noreturn]] void refuse(const std::string& place, const std::string& what) const {
        throw BadInput(name_ + ": " + (place.empty() ? "" : place + ": ") + what);
    }

    void check_keys(const Node& node, std::span<const std::string_view> known,
                    const std::string& place) const {
        if (!node.is(Node::Kind::object)) refuse(place, "expected an object");
        std::string all;
        for (const auto key : known) all += (all.empty() ? "" : ", ") + std::string(key);
        for (const Member& member : node.members)
            if (std::ranges::find(known, member.key) == known.end())
                refuse(place + "/" + member.key, "is no key here; expected one of " + all);
    }

    std::string text(const Node& node, const char* key, const std::string& place) const {
        const Node* found = node.find(key);
        if (!found) return {};
        if (!found->is(Node::Kind::text) || found->text.empty())
            refuse(place + "/" + key, "expected a text that is not empty");
        return found->text;
    }

    int whole(const Node& node, const std::string& place, int least, int most) const {
        int value = -1;
        const std::string& text = node.text;
        const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), value);
        if (!node.is(Node::Kind::number) || error != std::errc{} ||
            stop != text.data() + text.size() || value < least || value > most)
            refuse(place, "expected a whole number from " + std::to_string(least) + " to " +
                              std::to_string(most));
        return value;
    }

    std::vector<ColumnChoice> columns(const Node& root) const {
        std::vector<ColumnChoice> choices;
        const Node* found = root.find("columns");
        if (!found) return choices;
        if (!found->is(Node::Kind::object)) refuse("/columns", "expected headings and roles");
        std::string roles;
        for (const auto role : role_words) roles += std::string(role) + ", ";
        for (const Member& member : found->members) {
            const bool known =
                member.value.is(Node::Kind::text) &&
                (member.value.text == "ignore" ||
                 std::ranges::find(role_words, member.value.text) != role_words.end());
            if (!known) refuse("/columns/" + member.key, "expected one of " + roles + "ignore");
            choices.push_back({member.key, member.value.text});
        }
        return choices;
    }

    ListAnswer answer(const Node& node, const std::string& place) const {
        check_keys(node, answer_keys, place);
        ListAnswer answer;
        answer.reason = text(node, "reason", place);
        if (answer.reason.empty()) refuse(place, "has no reason; expected one of a question");
        answer.sheet = text(node, "sheet", place);
        answer.type = text(node, "type", place);
        if (const Node* row = node.find("row"))
            answer.row = whole(*row, place + "/row", 1, most_rows);
        const Node* does = node.find("answer");
        if (!does) refuse(place, "has no answer; expected " + expectation());
        read_answer(*does, place + "/answer", answer);
        return answer;
    }

    static std::string expectation() {
        return "accept, leave_out, count, an object of signals, or { \"panel\": … }";
    }

    void read_answer(const Node& node, const std::string& place, ListAnswer& answer) const {
        if (node.is(Node::Kind::object) && !node.members.empty())
            return read_signals(node, place, answer);
        const auto found = std::ranges::find(answer_words, node.text, &AnswerWord::word);
        if (!node.is(Node::Kind::text) || found == answer_words.end())
            refuse(place, "expected " + expectation());
        answer.does = found->does;
    }

    void read_signals(const Node& node, const std::string& place, ListAnswer& answer) const {
        answer.panel = text(node, "panel", place);
        answer.does = answer.panel.empty() ? Does::signals : Does::panel;
        for (const Member& member : node.members) {
            if (member.key == "panel" && node.members.size() == 1) continue;
            if (!rules_.find_signal(member.key))
                refuse(place + "/" + member.key, "is no signal; expected " + expectation());
            answer.signals[member.key] =
                whole(member.value, place + "/" + member.key, 1, most_pieces);
        }
    }

    std::string name_;
    const RuleBook& rules_;
};

void put_text(Node& object, const char* key, const std::string& text) {
    if (!text.empty()) object.member(key) = Node::make_text(text);
}

Node answer_node(const ListAnswer& answer) {
    Node node = Node::make_object();
    put_text(node, "reason", answer.reason);
    put_text(node, "sheet", answer.sheet);
    if (answer.row) node.member("row") = Node::make_number(std::to_string(*answer.row));
    put_text(node, "type", answer.type);
    const auto word = std::ranges::find(answer_words, answer.does, &AnswerWord::does);
    Node& does = node.member("answer");
    if (word != answer_words.end()) {
        does = Node::make_text(std::string(word->word));
        return node;
    }
    does = Node::make_object();
    put_text(does, "panel", answer.panel);
    for (const auto& [signal, count] : answer.signals)
        does.member(signal) = Node::make_number(std::to_string(count));
    return node;
}

} // namespace

ListAnswers read_list_answers(const std::string& name, const std::string& text,
                              const RuleBook& rules) {
    return AnswersReader(name, rules).read(parse_json(name, text).root);
}

std::string list_answers_text(const ListAnswers& answers) {
    Node root = Node::make_object();
    put_text(root, "format", std::string(format));
    put_text(root, "encoding", answers.encoding);
    put_text(root, "delimiter", answers.delimiter);
    if (answers.table.heading_row)
        root.member("heading_row") = Node::make_number(std::to_string(*answers.table.heading_row));
    if (!answers.table.columns.empty()) {
        Node& columns = root.member("columns") = Node::make_object();
        for (const ColumnChoice& choice : answers.table.columns)
            columns.member(choice.column) = Node::make_text(choice.role);
    }
    if (!answers.answers.empty()) {
        Node& list = root.member("answers") = Node::make_list();
        for (const ListAnswer& answer : answers.answers) list.items.push_back(answer_node(answer));
    }
    return json_text(root);
}

} // namespace backplate
