#include "reports/json_writer.h"

#include "pricing/request/node_values.h"

namespace backplate {

void JsonWriter::prefix(std::string_view key) {
    if (!filled_.empty()) {
        out_ += filled_.back() ? ",\n" : "\n";
        filled_.back() = true;
        out_.append(2 * filled_.size(), ' ');
    }
    if (!key.empty()) out_ += json_quoted(key) + ": ";
}

void JsonWriter::open(std::string_view key, char bracket) {
    prefix(key);
    out_ += bracket;
    filled_.push_back(false);
}

void JsonWriter::close(char bracket) {
    const bool filled = filled_.back();
    filled_.pop_back();
    if (filled) {
        out_ += '\n';
        out_.append(2 * filled_.size(), ' ');
    }
    out_ += bracket;
}

void JsonWriter::begin_object(std::string_view key) { open(key, '{'); }
void JsonWriter::end_object() { close('}'); }
void JsonWriter::begin_list(std::string_view key) { open(key, '['); }
void JsonWriter::end_list() { close(']'); }

void JsonWriter::text(std::string_view key, std::string_view value) {
    prefix(key);
    out_ += json_quoted(value);
}

void JsonWriter::text_or_null(std::string_view key, std::string_view value) {
    if (value.empty())
        null(key);
    else
        text(key, value);
}

void JsonWriter::number(std::string_view key, std::string_view literal) {
    prefix(key);
    out_ += literal;
}

void JsonWriter::flag(std::string_view key, bool value) { number(key, value ? "true" : "false"); }
void JsonWriter::null(std::string_view key) { number(key, "null"); }

void JsonWriter::node(std::string_view key, const Node& value) {
    switch (value.kind) {
    case Node::Kind::null: null(key); break;
    case Node::Kind::flag: flag(key, value.flag); break;
    case Node::Kind::number: number(key, value.text); break;
    case Node::Kind::text: text(key, value.text); break;
    case Node::Kind::list:
        begin_list(key);
        for (const Node& item : value.items) node({}, item);
        end_list();
        break;
    case Node::Kind::object:
        begin_object(key);
        for (const Member& member : value.members) node(member.key, member.value);
        end_object();
        break;
    }
}

std::string JsonWriter::take() {
    out_ += '\n';
    return std::move(out_);
}

} // namespace backplate
