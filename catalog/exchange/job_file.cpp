#include "catalog/exchange/job_file.h"

#include <algorithm>
#include <tuple>

#include "catalog/exchange/base64.h"
#include "catalog/exchange/estimate_file.h"
#include "catalog/exchange/node_reader.h"
#include "catalog/exchange/request_json.h"
#include "pricing/request/node_values.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

constexpr const char* format_name = "backplate-job/1";
constexpr int most_number = 1'000'000'000;

// ---- writing

Node text_node(const std::string& text) { return Node::make_text(text); }
Node number_node(int value) { return Node::make_number(steps_text(value, 0)); }

template <class Items, class Write> Node list_node(const Items& items, const Write& write) {
    Node list = Node::make_list();
    for (const auto& item : items) list.items.push_back(write(item));
    return list;
}

Node row_node(const UsedRow& row) {
    Node node = Node::make_object();
    node.member("table") = text_node(row.table);
    node.member("key") = text_node(row.key);
    node.member("cells") = parse_json("cells of " + row.table + "/" + row.key, row.cells).root;
    return node;
}

Node document_node(const SentDocument& document) {
    Node node = Node::make_object();
    node.member("name") = text_node(document.name);
    node.member("base64") = text_node(base64(document.bytes));
    return node;
}

Node revision_node(const JobRevision& revision) {
    Node node = Node::make_object();
    node.member("revision") = number_node(revision.number);
    node.member("saved_at") = text_node(revision.saved_at);
    node.member("person") = text_node(revision.person);
    node.member("sent_at") = revision.sent() ? text_node(revision.sent_at) : Node::make_null();
    node.member("request") = text_node(revision.request);
    node.member("estimate") = text_node(revision.estimate);
    node.member("rows") = list_node(revision.rows, row_node);
    node.member("documents") = list_node(revision.documents, document_node);
    return node;
}

Node state_node(const StateChange& change) {
    Node node = Node::make_object();
    node.member("revision") = number_node(change.revision);
    node.member("state") = text_node(std::string(state_word(change.state)));
    node.member("day") = text_node(change.day.text());
    node.member("reason") = text_node(change.reason);
    node.member("at") = text_node(change.at);
    node.member("person") = text_node(change.person);
    return node;
}

Node inherited_node(const InheritedValue& value) {
    Node node = Node::make_object();
    node.member("field") = text_node(value.field);
    node.member("value") = value.value.empty() ? Node::make_null() : text_node(value.value);
    return node;
}

Node template_node(const std::optional<Template>& copied_from) {
    if (!copied_from) return Node::make_null();
    Node node = Node::make_object();
    node.member("job") = number_node(copied_from->job);
    node.member("revision") = number_node(copied_from->revision);
    return node;
}

// ---- reading

int number_of(const NodeReader& reader) { return static_cast<int>(reader.whole(1, most_number)); }

std::string filled(const NodeReader& reader) {
    if (reader.text().empty()) reader.refuse("a text that says something");
    return reader.text();
}

/// 2026-11-24T09:30:00Z
std::string moment(const NodeReader& reader) {
    constexpr std::string_view form = "0000-00-00T00:00:00Z";
    const std::string text = reader.text();
    bool fits = text.size() == form.size() && Date::parse(text.substr(0, 10));
    for (std::size_t i = 0; fits && i < form.size(); ++i)
        fits = form[i] == '0' ? text[i] >= '0' && text[i] <= '9' : text[i] == form[i];
    if (!fits) reader.refuse("a time as 2026-11-24T09:30:00Z");
    return text;
}

UsedRow read_row(const NodeReader& reader) {
    reader.require_keys({"table", "key", "cells"});
    const NodeReader cells = reader.member("cells");
    if (!cells.node().is(Node::Kind::object)) cells.refuse("an object of texts");
    std::string text = "{";
    std::vector<Member> members = cells.node().members;
    std::ranges::sort(members, {}, &Member::key);
    for (const Member& member : members)
        text += (text.size() == 1 ? "" : ",") + json_quoted(member.key) + ":" +
                json_quoted(cells.member(member.key).text());
    return {filled(reader.member("table")), filled(reader.member("key")), text + "}"};
}

/// A plain file name: it is written into a folder of the user's choice.
std::string file_name(const NodeReader& reader) {
    constexpr std::size_t longest = 100;
    const std::string name = reader.text();
    const auto plain = [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
               c == '-' || c == '_' || c == '.';
    };
    if (name.empty() || name.size() > longest || name[0] == '.' || name[0] == '-' ||
        !std::ranges::all_of(name, plain))
        reader.refuse("a file name of letters, digits, - _ and .");
    return name;
}

SentDocument read_document(const NodeReader& reader) {
    reader.require_keys({"name", "base64"});
    auto bytes = from_base64(reader.member("base64").text());
    if (!bytes) reader.member("base64").refuse("bytes in base64");
    return {file_name(reader.member("name")), *std::move(bytes)};
}

/// Names that may stand once.
template <class Items, class Key>
void require_unique(const NodeReader& reader, const Items& items, const Key& key) {
    std::vector<std::string> names;
    for (const auto& item : items) names.push_back(key(item));
    std::ranges::sort(names);
    if (std::ranges::adjacent_find(names) != names.end()) reader.refuse("every name in it once");
}

void require_request(const std::string& name, const NodeReader& reader) {
    const ParsedJson parsed = parse_json(name + ": text of " + reader.pointer(), reader.text());
    const Node* format = parsed.root.find("format");
    if (!format || !format->is(Node::Kind::text) || format->text != "backplate-request/1")
        reader.refuse("a backplate-request/1");
}

JobRevision read_revision(const std::string& name, const NodeReader& reader, int number) {
    reader.require_keys(
        {"revision", "saved_at", "person", "sent_at", "request", "estimate", "rows", "documents"});
    if (number_of(reader.member("revision")) != number)
        reader.member("revision").refuse("revision " + steps_text(number, 0));
    require_request(name, reader.member("request"));
    std::vector<UsedRow> rows;
    for (const NodeReader& row : reader.member("rows").items()) rows.push_back(read_row(row));
    std::ranges::sort(rows, {}, [](const UsedRow& row) { return std::tie(row.table, row.key); });
    require_unique(reader.member("rows"), rows,
                   [](const UsedRow& row) { return row.table + "\n" + row.key; });
    const NodeReader estimate = reader.member("estimate");
    JobRevision revision =
        revision_of(name + ": text of " + estimate.pointer(), reader.member("request").text(),
                    estimate.text(), std::move(rows));
    revision.number = number;
    revision.saved_at = moment(reader.member("saved_at"));
    revision.person = reader.member("person").text();
    if (!reader.member("sent_at").is_null()) revision.sent_at = moment(reader.member("sent_at"));
    for (const NodeReader& document : reader.member("documents").items())
        revision.documents.push_back(read_document(document));
    std::ranges::sort(revision.documents, {}, &SentDocument::name);
    require_unique(reader.member("documents"), revision.documents,
                   [](const SentDocument& document) { return document.name; });
    if (revision.sent() == revision.documents.empty())
        reader.member("documents").refuse("documents where the revision was sent, else none");
    return revision;
}

StateChange read_state(const NodeReader& reader, const Job& job) {
    reader.require_keys({"revision", "state", "day", "reason", "at", "person"});
    const auto state = find_state(reader.member("state").text());
    if (!state) reader.member("state").refuse("enquiry, estimating, sent, won, lost or withdrawn");
    const auto day = Date::parse(reader.member("day").text());
    if (!day) reader.member("day").refuse("a day as 2026-11-24");
    const int revision = number_of(reader.member("revision"));
    const int least = job.states.empty() ? 1 : job.states.back().revision;
    if (revision < least || revision > job.latest().number)
        reader.member("revision").refuse("a revision of the job, none before the last state's");
    const JobRevision& named = job.revisions[static_cast<std::size_t>(revision) - 1];
    if (*state == JobState::sent && !named.sent())
        reader.member("state").refuse("no sent state of a revision that was not sent");
    return {revision,
            *state,
            *day,
            reader.member("reason").text(),
            moment(reader.member("at")),
            reader.member("person").text()};
}

/// The last state fits the last revision: a sent one is sent or has an outcome.
void require_last_state(const NodeReader& reader, const Job& job) {
    if (job.states.empty()) reader.refuse("at least one state");
    const JobState state = job.state().state;
    const bool in_work = state == JobState::enquiry || state == JobState::estimating;
    const bool outcome =
        state == JobState::sent || state == JobState::won || state == JobState::lost;
    if (job.state().revision != job.latest().number || (in_work && job.latest().sent()) ||
        (outcome && !job.latest().sent()))
        reader.refuse("a last state that fits the last revision");
}

void require_sent_states(const NodeReader& reader, const Job& job) {
    for (const JobRevision& revision : job.revisions) {
        const bool said = std::ranges::any_of(job.states, [&](const StateChange& change) {
            return change.state == JobState::sent && change.revision == revision.number;
        });
        if (revision.sent() && !said) reader.refuse("a state sent of every revision that was sent");
    }
}

InheritedValue read_inherited(const NodeReader& reader) {
    reader.require_keys({"field", "value"});
    const std::string field = filled(reader.member("field"));
    if (field[0] != '/') reader.member("field").refuse("a JSON pointer");
    return {field, reader.member("value").text_or_null()};
}

std::optional<Template> read_template(const NodeReader& reader) {
    if (reader.is_null()) return std::nullopt;
    reader.require_keys({"job", "revision"});
    return Template{number_of(reader.member("job")), number_of(reader.member("revision"))};
}

Job read_members(const std::string& name, const NodeReader& root) {
    if (const NodeReader format = root.member("format"); format.text() != format_name)
        format.refuse(std::string("\"") + format_name + "\"");
    root.require_keys({"format", "number", "title", "origin", "copied_from", "revisions", "states",
                       "unconfirmed"});
    Job job;
    job.number = number_of(root.member("number"));
    job.title = root.member("title").text();
    job.origin = root.member("origin").text();
    job.copied_from = read_template(root.member("copied_from"));
    for (const NodeReader& each : root.member("revisions").items())
        job.revisions.push_back(
            read_revision(name, each, static_cast<int>(job.revisions.size()) + 1));
    if (job.revisions.empty()) root.member("revisions").refuse("at least one revision");
    for (const NodeReader& each : root.member("states").items())
        job.states.push_back(read_state(each, job));
    require_last_state(root.member("states"), job);
    require_sent_states(root.member("states"), job);
    for (const NodeReader& each : root.member("unconfirmed").items())
        job.unconfirmed.push_back(read_inherited(each));
    std::ranges::sort(job.unconfirmed, {}, &InheritedValue::field);
    require_unique(root.member("unconfirmed"), job.unconfirmed,
                   [](const InheritedValue& value) { return value.field; });
    if (!job.unconfirmed.empty() && !job.copied_from)
        root.member("unconfirmed").refuse("nothing where the job is no copy");
    return job;
}

} // namespace

JobRevision revision_of(const std::string& name, std::string request, std::string estimate,
                        std::vector<UsedRow> rows) {
    const EstimateRecord record = read_estimate(name, estimate);
    JobRevision revision;
    revision.request = std::move(request);
    revision.estimate = std::move(estimate);
    revision.prices_issue = record.prices_issue;
    revision.rules_issue = record.rules_issue;
    revision.demo_data = record.demo_data;
    revision.due = record.due;
    if (record.priced) {
        revision.price = record.priced->price.text(record.priced->digits);
        revision.currency = record.priced->currency;
    }
    revision.rows = std::move(rows);
    return revision;
}

std::string job_text(const Job& job) {
    Node node = Node::make_object();
    node.member("format") = text_node(format_name);
    node.member("number") = number_node(job.number);
    node.member("title") = text_node(job.title);
    node.member("origin") = text_node(job.origin);
    node.member("copied_from") = template_node(job.copied_from);
    node.member("revisions") = list_node(job.revisions, revision_node);
    node.member("states") = list_node(job.states, state_node);
    node.member("unconfirmed") = list_node(job.unconfirmed, inherited_node);
    return json_text(node);
}

Job read_job_text(const std::string& name, const std::string& text) {
    const ParsedJson parsed = parse_json(name, text);
    return read_members(name, NodeReader(name, parsed.root));
}

} // namespace backplate
