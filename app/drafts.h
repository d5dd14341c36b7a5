#pragma once

#include <condition_variable>
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <thread>
#include <vector>

#include "pricing/request/node.h"

namespace backplate {

/// What was kept of a request whose changes no file holds.
struct Draft {
    std::string path; ///< of the draft itself
    std::string file; ///< of the request; empty: never saved
    Node request;
    std::set<std::string> confirmed; ///< fields of a copied job
    std::int64_t written = 0;        ///< seconds since 1970

    std::string title() const; ///< of the job; empty where it has none
};

/// The drafts in a folder whose window is gone, the newest first. A file that is no draft is left
/// alone. An empty folder name holds none.
std::vector<Draft> left_drafts(const std::string& folder);

/// Removes a draft that was taken over or is not wanted; none there is no fault.
void drop_draft(const std::string& path);

/// Keeps the newest state of one open request in a folder, on a thread of its own: written beside,
/// synced, then put in the place of the one before. While the object lives its draft belongs to it
/// (a lock file says so, which ends with the process).
class DraftKeeper {
public:
    using Tree = std::shared_ptr<const Node>;
    /// Called on the keeper's thread when a state is safe (or needs no draft), or could not be
    /// kept.
    using Kept = std::function<void(std::uint64_t stamp, const std::string& fault)>;

    /// `folder` is made when first needed; empty: nothing is kept and nothing called.
    DraftKeeper(std::string folder, Kept kept);
    ~DraftKeeper(); ///< writes what still waits
    DraftKeeper(const DraftKeeper&) = delete;
    DraftKeeper& operator=(const DraftKeeper&) = delete;

    /// The newest state wins; a null tree says that the file holds everything.
    void keep(Tree request, const std::string& file, std::uint64_t stamp,
              std::set<std::string> confirmed = {});
    /// Goes on in a left draft instead of a new one; false where another window has it.
    bool adopt(const std::string& draft);
    /// Leaves the draft for a later window and begins another one.
    void leave();

private:
    struct Task {
        Tree request;
        std::string file;
        std::uint64_t stamp = 0;
        std::set<std::string> confirmed;
    };
    void serve(const std::stop_token& quit);
    void carry_out(const Task& task);
    void begin();
    std::string path() const;

    std::string folder_, name_;
    Kept kept_;
    int lock_ = -1;
    int begun_ = 0;
    std::mutex mutex_;      ///< of what waits
    std::mutex file_mutex_; ///< of the draft's name and files
    std::condition_variable_any arrived_;
    std::optional<Task> waiting_;
    std::jthread thread_; ///< last: starts when everything else stands
};

} // namespace backplate
