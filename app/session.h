#pragma once

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "app/job_saving.h"
#include "pricing/request/node.h"

namespace backplate {

/// The request of another bid like this one: no days, no enquiry, "copy" in its title.
Node duplicate_request(const Node& request);

/// A request as a new bid starts with: the format and one box without points.
Node blank_request();

/// One open request: what was sent, its file, and every step back and forth. A step is a whole
/// tree behind a pointer, so undo can neither miss a value nor change another.
class Session {
public:
    using Tree = std::shared_ptr<const Node>;

    Session();

    const Tree& request() const { return steps_[current_].request; }
    /// The value at a JSON pointer, or null where it is absent.
    const Node* value(std::string_view pointer) const;
    /// Writes a value; nothing removes it together with objects that it leaves empty. Absent
    /// objects on the way are made; an element that a list does not have is left alone. Changes
    /// of one pointer in a row are one step until end_step.
    void set_value(const std::string& pointer, std::optional<Node> value);
    /// The next change starts a step of its own (the cursor left the field).
    void end_step() { open_pointer_.clear(); }

    bool can_undo() const { return current_ > 0; }
    bool can_redo() const { return current_ + 1 < steps_.size(); }
    void undo();
    void redo();

    /// A path, or "job:3" for a job of the library; empty: never saved.
    const std::string& file() const { return file_; }
    bool dirty() const { return request() != saved_ || confirmed() != saved_confirmed_; }
    std::string title() const; ///< of the job; empty where none was given

    /// Puts another tree in the place of the request: one step.
    void replace(Node request);

    /// A new request that no file holds yet.
    void start(Node request);
    /// What a draft kept of a request and its confirmed fields: a step after what is open where
    /// that is the draft's file, else after a blank one.
    void recover(Node request, const std::string& file, std::set<std::string> confirmed = {});
    /// Works on the last revision of a saved job.
    void open(std::shared_ptr<const OpenJob> job);
    const OpenJob* job() const { return job_.get(); } ///< null: no saved job
    /// The job as the library holds it now; where the request in view differs, it stays to be
    /// saved.
    void saved_in(std::shared_ptr<const OpenJob> job);

    /// Values that came from the job's template and wait to be confirmed: the field that names each
    /// by its place in the request.
    std::map<std::string, std::string> unconfirmed() const;
    /// Confirms fields that `unconfirmed` names: one step.
    void confirm(const std::vector<std::string>& fields);
    const std::set<std::string>& confirmed() const { return steps_[current_].confirmed; }
    std::optional<SavedAs> saved_as() const;
    std::optional<Inherited> inherited() const;
    /// Throws BadInput or OutsideFault and changes nothing where the file cannot be used.
    void open(const std::string& path);
    /// The request as text to be saved: what was opened as it stands where nothing changed, else
    /// with its comments at the top.
    std::string text() const;
    /// Whether that takes comments away from what they speak of.
    bool moves_comments() const;
    /// Throws OutsideFault; throws BadInput for a file whose comments saving would lose or move.
    void save_as(const std::string& path);

private:
    void restart(Node request, std::string file, std::string text = "");
    void add_step(Node request, const std::string& pointer);

    struct Step {
        Tree request;
        std::set<std::string> confirmed; ///< fields, since the job was saved
    };
    std::vector<InheritedValue> open_values() const;

    std::vector<Step> steps_;
    std::size_t current_ = 0;
    std::string open_pointer_; ///< whose changes go on in the current step
    Tree saved_;
    std::string saved_text_; ///< of `saved_`, as it was read or written; empty: no text yet
    std::set<std::string> saved_confirmed_;
    std::string file_;
    std::shared_ptr<const OpenJob> job_;
};

} // namespace backplate
