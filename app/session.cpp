#include "app/session.h"

#include <algorithm>
#include <filesystem>

#include "catalog/cells/table.h"
#include "catalog/exchange/request_json.h"
#include "pricing/job/inherited.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

std::string parent_of(const std::string& pointer) { return pointer.substr(0, pointer.rfind('/')); }

std::string last_step(const std::string& pointer) { return pointer.substr(pointer.rfind('/') + 1); }

/// The tree is read before anything is made on the way, so an absent value stays absent.
Node* existing(Node& root, const std::string& pointer) {
    return at_pointer(root, pointer) ? make_at_pointer(root, pointer) : nullptr;
}

void remove_value(Node& root, std::string pointer) {
    while (!pointer.empty()) {
        const std::string parent_pointer = parent_of(pointer);
        Node* parent = existing(root, parent_pointer);
        if (!parent || !parent->is(Node::Kind::object)) return;
        parent->erase(last_step(pointer));
        if (!parent->members.empty()) return;
        pointer = parent_pointer;
    }
}

/// Whether a text that takes the place of another one leaves its comments where they are: nothing
/// changed, or all stand at the top.
bool leaves_comments(const std::string& before, const std::string& now) {
    const std::string comments = comments_of(before);
    return comments.empty() || now == before ||
           (before.starts_with(comments) && now.starts_with(comments));
}

/// A file that is no request may be replaced: the user chose it.
bool harms_comments(const std::string& path, const std::string& now) {
    if (!std::filesystem::exists(path)) return false;
    try {
        const std::string before = read_file(path);
        return parse_json(path, before).has_comments && !leaves_comments(before, now);
    } catch (const BadInput&) {
        return false;
    }
}

} // namespace

Node blank_request() {
    Node request = Node::make_object();
    request.member("format") = Node::make_text("backplate-request/1");
    Node box = Node::make_object();
    box.member("name") = Node::make_text("CP1");
    box.member("points") = Node::make_list();
    Node boxes = Node::make_list();
    boxes.items.push_back(std::move(box));
    request.member("boxes") = std::move(boxes);
    return request;
}

Node duplicate_request(const Node& request) {
    Node copy = request;
    Node* job = copy.find("job");
    if (!job || !job->is(Node::Kind::object)) return copy;
    for (const char* key : {"date", "due", "enquiry"}) job->erase(key);
    if (Node* title = job->find("title"); title && title->is(Node::Kind::text))
        title->text += " (copy)";
    return copy;
}

Session::Session() { restart(blank_request(), ""); }

const Node* Session::value(std::string_view pointer) const {
    return at_pointer(*request(), pointer);
}

void Session::set_value(const std::string& pointer, std::optional<Node> value) {
    Node changed = *request();
    if (!value) {
        remove_value(changed, pointer);
    } else if (Node* target = make_at_pointer(changed, pointer)) {
        *target = *std::move(value);
    }
    if (!(changed == *request())) add_step(std::move(changed), pointer);
}

void Session::add_step(Node request, const std::string& pointer) {
    const bool goes_on = !pointer.empty() && pointer == open_pointer_ && !can_redo();
    steps_.resize(current_ + 1);
    if (!goes_on) steps_.push_back({nullptr, steps_.back().confirmed});
    steps_.back().request = std::make_shared<const Node>(std::move(request));
    current_ = steps_.size() - 1;
    open_pointer_ = pointer;
}

void Session::undo() {
    if (can_undo()) --current_;
    end_step();
}

void Session::redo() {
    if (can_redo()) ++current_;
    end_step();
}

std::string Session::title() const {
    const Node* title = value("/job/title");
    return title && title->is(Node::Kind::text) ? title->text : std::string();
}

void Session::replace(Node request) {
    end_step();
    if (!(request == *this->request())) add_step(std::move(request), "");
    end_step();
}

void Session::recover(Node request, const std::string& file, std::set<std::string> confirmed) {
    if (file_ != file || file.empty()) restart(blank_request(), file);
    end_step();
    if (request == *this->request() && confirmed == this->confirmed()) return;
    add_step(std::move(request), "");
    steps_[current_].confirmed = std::move(confirmed);
    end_step();
}

void Session::open(std::shared_ptr<const OpenJob> job) {
    const std::string& text = job->job.latest().request;
    restart(parse_json(job->place(), text).root, job->place(), text);
    job_ = std::move(job);
}

void Session::saved_in(std::shared_ptr<const OpenJob> job) {
    file_ = job->place();
    job_ = std::move(job);
    saved_text_ = job_->job.latest().request;
    Node held = parse_json(file_, saved_text_).root;
    const auto same =
        std::ranges::find_if(steps_, [&](const Step& step) { return *step.request == held; });
    saved_ = same != steps_.end() ? same->request : std::make_shared<const Node>(std::move(held));
    if (*request() == *saved_) saved_ = request();
    saved_confirmed_ = confirmed();
    end_step();
}

std::vector<InheritedValue> Session::open_values() const {
    if (!job_ || !job_->job.copied_from) return {};
    auto open = still_unconfirmed(job_->job, inherited_values(*request()));
    std::erase_if(open,
                  [&](const InheritedValue& value) { return confirmed().contains(value.field); });
    return open;
}

std::map<std::string, std::string> Session::unconfirmed() const {
    std::map<std::string, std::string> places;
    for (const InheritedValue& value : open_values())
        places.emplace(pointer_of(*request(), value.field), value.field);
    return places;
}

void Session::confirm(const std::vector<std::string>& fields) {
    if (fields.empty()) return;
    end_step();
    steps_.resize(current_ + 1);
    steps_.push_back(steps_.back());
    ++current_;
    steps_[current_].confirmed.insert(fields.begin(), fields.end());
    end_step();
}

std::optional<SavedAs> Session::saved_as() const {
    return job_ ? std::optional(job_->saved) : std::nullopt;
}

std::optional<Inherited> Session::inherited() const {
    const auto open = open_values();
    if (open.empty()) return std::nullopt;
    return inherited_from(job_->job.copied_from->job, open);
}

void Session::start(Node request) { restart(std::move(request), ""); }

void Session::open(const std::string& path) {
    std::string text = read_file(path);
    Node request = parse_json(path, text).root;
    restart(std::move(request), path, std::move(text));
}

std::string Session::text() const {
    if (!saved_text_.empty() && *request() == *saved_) return saved_text_;
    return json_text(*request(), comments_of(saved_text_));
}

bool Session::moves_comments() const { return !leaves_comments(saved_text_, text()); }

void Session::save_as(const std::string& path) {
    std::string written = text();
    if (harms_comments(path, written))
        throw BadInput(path + ": holds comments that saving would move or lose; give a new name");
    write_file(path, written);
    file_ = path;
    job_.reset();
    saved_ = request();
    saved_text_ = std::move(written);
    saved_confirmed_ = confirmed();
    end_step();
}

void Session::restart(Node request, std::string file, std::string text) {
    steps_.assign(1, {std::make_shared<const Node>(std::move(request)), {}});
    current_ = 0;
    job_.reset();
    saved_ = this->request();
    saved_text_ = std::move(text);
    saved_confirmed_.clear();
    file_ = std::move(file);
    end_step();
}

} // namespace backplate
