#include "app/drafts.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <utility>

#include "catalog/cells/table.h"
#include "catalog/exchange/request_json.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

namespace fs = std::filesystem;

constexpr const char* draft_format = "backplate-draft/1";

std::string lock_of(const std::string& draft) { return draft + ".lock"; }

/// An open, locked file; -1 where another process holds it or it cannot be made.
int take_lock(const std::string& path) {
    const int file = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    if (file >= 0 && ::flock(file, LOCK_EX | LOCK_NB) == 0) return file;
    if (file >= 0) ::close(file);
    return -1;
}

bool is_left(const std::string& draft) {
    const int file = take_lock(lock_of(draft));
    if (file >= 0) ::close(file);
    return file >= 0;
}

std::int64_t written_at(const std::string& path) {
    struct stat status {};
    return ::stat(path.c_str(), &status) == 0 ? status.st_mtime : 0;
}

std::optional<Draft> read_draft(const std::string& path) {
    try {
        const Node root = parse_json(path, read_file(path)).root;
        const Node* format = root.find("format");
        const Node* request = root.find("request");
        if (!format || format->text != draft_format || !request) return std::nullopt;
        const Node* file = root.find("file");
        const Node* confirmed = root.find("confirmed");
        Draft draft{path, file ? file->text : "", *request, {}, written_at(path)};
        if (confirmed)
            for (const Node& field : confirmed->items) draft.confirmed.insert(field.text);
        return draft;
    } catch (const std::exception&) {
        return std::nullopt;
    }
}

std::string draft_text(const Node& request, const std::string& file,
                       const std::set<std::string>& confirmed) {
    Node root = Node::make_object();
    root.member("format") = Node::make_text(draft_format);
    root.member("file") = Node::make_text(file);
    root.member("request") = request;
    Node fields = Node::make_list();
    for (const std::string& field : confirmed) fields.items.push_back(Node::make_text(field));
    root.member("confirmed") = std::move(fields);
    return json_text(root);
}

} // namespace

std::string Draft::title() const {
    const Node* title = at_pointer(request, "/job/title");
    return title && title->is(Node::Kind::text) ? title->text : std::string();
}

std::vector<Draft> left_drafts(const std::string& folder) {
    std::vector<Draft> drafts;
    std::error_code none;
    if (folder.empty()) return drafts;
    for (const auto& entry : fs::directory_iterator(folder, none)) {
        if (entry.path().extension() != ".json" || !is_left(entry.path().string())) continue;
        if (auto draft = read_draft(entry.path().string())) drafts.push_back(*std::move(draft));
    }
    std::ranges::sort(drafts, [](const Draft& a, const Draft& b) {
        return a.written != b.written ? a.written > b.written : a.path > b.path;
    });
    return drafts;
}

void drop_draft(const std::string& path) {
    ::unlink(path.c_str());
    ::unlink(lock_of(path).c_str());
}

DraftKeeper::DraftKeeper(std::string folder, Kept kept)
    : folder_(std::move(folder)), kept_(std::move(kept)),
      thread_([this](const std::stop_token& quit) { serve(quit); }) {}

DraftKeeper::~DraftKeeper() {
    thread_.request_stop();
    thread_.join();
    if (waiting_) carry_out(*waiting_);
    if (lock_ >= 0) ::close(lock_);
    if (!name_.empty() && !fs::exists(path())) ::unlink(lock_of(path()).c_str());
}

std::string DraftKeeper::path() const { return folder_ + "/" + name_ + ".json"; }

/// A name that no other window has; its lock is held from before the draft is there.
void DraftKeeper::begin() {
    if (lock_ >= 0) return;
    fs::create_directories(folder_);
    const auto now = std::chrono::system_clock::now().time_since_epoch().count();
    name_ = std::to_string(now) + "-" + std::to_string(::getpid()) + "-" + std::to_string(++begun_);
    lock_ = take_lock(lock_of(path()));
    if (lock_ < 0) throw OutsideFault(folder_ + ": no draft can be kept here");
}

bool DraftKeeper::adopt(const std::string& draft) {
    const std::lock_guard lock(file_mutex_);
    const int file = lock_ < 0 ? take_lock(lock_of(draft)) : -1;
    if (file < 0) return false;
    lock_ = file;
    name_ = fs::path(draft).stem().string();
    return true;
}

void DraftKeeper::keep(Tree request, const std::string& file, std::uint64_t stamp,
                       std::set<std::string> confirmed) {
    if (folder_.empty()) return;
    {
        const std::lock_guard lock(mutex_);
        waiting_ = Task{std::move(request), file, stamp, std::move(confirmed)};
    }
    arrived_.notify_one();
}

void DraftKeeper::leave() {
    std::optional<Task> last;
    {
        const std::lock_guard lock(mutex_);
        last = std::exchange(waiting_, std::nullopt);
    }
    if (last) carry_out(*last);
    const std::lock_guard lock(file_mutex_);
    if (lock_ >= 0) ::close(std::exchange(lock_, -1));
    if (!name_.empty() && !fs::exists(path())) ::unlink(lock_of(path()).c_str());
    name_.clear();
}

void DraftKeeper::serve(const std::stop_token& quit) {
    while (true) {
        std::optional<Task> task;
        {
            std::unique_lock lock(mutex_);
            if (!arrived_.wait(lock, quit, [this] { return waiting_.has_value(); })) return;
            if (quit.stop_requested()) return;
            task = std::exchange(waiting_, std::nullopt);
        }
        carry_out(*task);
    }
}

void DraftKeeper::carry_out(const Task& task) {
    std::string fault;
    try {
        const std::lock_guard lock(file_mutex_);
        if (task.request) {
            begin();
            write_file(path(), draft_text(*task.request, task.file, task.confirmed));
        } else if (lock_ >= 0) {
            ::unlink(path().c_str());
        }
    } catch (const std::exception& failure) {
        fault = failure.what();
    }
    kept_(task.stamp, fault);
}

} // namespace backplate
