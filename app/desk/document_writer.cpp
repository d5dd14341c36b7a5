#include "app/desk/document_writer.h"

#include <filesystem>

#include <wx/stdpaths.h>
#include <wx/utils.h>
#include <wx/window.h>

#include "app/desk/documents_dialog.h"

namespace backplate {

DocumentWriter::DocumentWriter(wxWindow& window, DeskState& state, Calls calls)
    : window_(window), state_(state), calls_(std::move(calls)) {}

/// Beside the request's file, else where the last documents went, else the user's documents.
std::string DocumentWriter::usual_folder() const {
    if (!folder_.empty()) return folder_;
    const std::filesystem::path file(state_.session.file());
    if (!file.empty() && !state_.session.job())
        return std::filesystem::absolute(file).parent_path().string();
    return wxStandardPaths::Get().GetDocumentsDir().utf8_string();
}

void DocumentWriter::ask() {
    if (!state_.estimate() || state_.stale())
        return calls_.say("There is no estimate of what stands here yet: see the faults below");
    DocumentsDialog dialog(&window_, state_, usual_folder());
    if (dialog.ShowModal() == wxID_OK) write(dialog.wish());
}

void DocumentWriter::write(DocumentWish wish) {
    folder_ = wish.folder;
    thread_ = std::jthread([this, wish = std::move(wish), answer = state_.good,
                            inputs = state_.inputs](const std::stop_token& stop) {
        Work work;
        work.stop = stop;
        std::vector<WrittenDocument> written;
        std::string fault;
        try {
            written = write_documents(*answer->estimate, *inputs, wish, work);
        } catch (const Stopped&) {
            return;
        } catch (const std::exception& failure) {
            fault = failure.what();
        }
        window_.CallAfter([this, written, fault] { report(written, fault); });
    });
}

void DocumentWriter::report(std::vector<WrittenDocument> written, const std::string& fault) {
    if (!fault.empty()) return calls_.say_fault(fault);
    written_ = std::move(written);
    std::string text;
    for (const WrittenDocument& each : written_)
        text += (text.empty() ? "Written: " : ", ") +
                std::filesystem::path(each.path).filename().string();
    calls_.say(text.empty() ? "No document was wanted" : text + " (Ctrl+Shift+E opens the folder)");
    state_.look();
}

void DocumentWriter::open_folder() const {
    wxLaunchDefaultApplication(wxString::FromUTF8(usual_folder()));
}

} // namespace backplate
