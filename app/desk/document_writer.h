#pragma once

#include <functional>
#include <string>
#include <thread>
#include <vector>

#include "app/desk/desk_state.h"
#include "app/documents.h"

class wxWindow;

namespace backplate {

/// Asks which documents are wanted and writes those of the estimate in view on a thread of its
/// own; the window hears of it when they are complete.
class DocumentWriter {
public:
    struct Calls {
        std::function<void(const std::string&)> say, say_fault;
    };
    DocumentWriter(wxWindow& window, DeskState& state, Calls calls);

    void ask();
    void open_folder() const;
    const std::vector<WrittenDocument>& written() const { return written_; }

private:
    void write(DocumentWish wish);
    void report(std::vector<WrittenDocument> written, const std::string& fault);
    std::string usual_folder() const;

    wxWindow& window_;
    DeskState& state_;
    Calls calls_;
    std::string folder_; ///< of the last documents
    std::vector<WrittenDocument> written_;
    std::jthread thread_; ///< last: ends first
};

} // namespace backplate
