#include <algorithm>
#include <atomic>
#include <filesystem>
#include <optional>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/core.h>
#include <wx/app.h>
#include <wx/msgdlg.h>

#include "app/desk/desk_frame.h"
#include "app/desk/display.h"
#include "app/desk/handler_clock.h"
#include "app/job_saving.h"
#include "app/stored_data.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

namespace fs = std::filesystem;

struct DeskArguments {
    std::string library, request, dump;
};

std::atomic<int> asserts_met{0};

void on_assert(const wxString& file, int line, const wxString& function, const wxString& condition,
               const wxString& message) {
    ++asserts_met;
    fmt::print(stderr, "backplate-desk: assertion {} in {} ({}:{}) {}\n", condition.utf8_string(),
               function.utf8_string(), file.utf8_string(), line, message.utf8_string());
}

/// The first request of the demo folder beside the prices; empty where there is none.
std::string demo_request() {
    const fs::path folder = fs::path(data_folders().prices).parent_path() / "requests";
    std::vector<std::string> files;
    std::error_code none;
    for (const auto& entry : fs::directory_iterator(folder, none))
        if (entry.path().extension() == ".json") files.push_back(entry.path().string());
    return files.empty() ? std::string() : *std::min_element(files.begin(), files.end());
}

/// The status to end with, or nothing where the program goes on.
std::optional<int> read_arguments(int count, char** values, DeskArguments& arguments) {
    CLI::App app{"Backplate: sizes and prices control cabinets"};
    app.set_version_flag("--version", program_version());
    app.add_option("--library", arguments.library, "Library file, or :starter:");
    app.add_option("REQUEST", arguments.request, "Request file to open, or job:NUMBER");
    app.add_option("--ui-dump", arguments.dump, "Write what is shown as JSON")->group("");
    try {
        app.parse(count, values);
    } catch (const CLI::ParseError& fault) {
        return app.exit(fault) == 0 ? 0 : 2;
    }
    return std::nullopt;
}

} // namespace

int assertions_met() { return asserts_met; }

class DeskApp : public wxApp {
public:
    DeskApp(std::shared_ptr<const Inputs> inputs, Session session, DeskStart start)
        : inputs_(std::move(inputs)), session_(std::move(session)), start_(std::move(start)) {}

    bool OnInit() override {
        SetAppName("backplate-desk");
        SetAppDisplayName("Backplate");
        wxSetAssertHandler(on_assert);
        frame_ = new DeskFrame(std::move(inputs_), std::move(session_), std::move(start_));
        frame_->Show();
        return true;
    }

    /// Idle time is left out: what is done in it is for tests.
    void CallEventHandler(wxEvtHandler* handler, wxEventFunctor& functor,
                          wxEvent& event) const override {
        if (event.GetEventType() == wxEVT_IDLE)
            return wxApp::CallEventHandler(handler, functor, event);
        const HandlerClock clock(event.GetClassInfo()->GetClassName());
        wxApp::CallEventHandler(handler, functor, event);
    }

    /// The event is lost, the request is not: the window goes on with the last whole step.
    bool OnExceptionInMainLoop() override {
        try {
            throw;
        } catch (const std::exception& fault) {
            frame_->say_fault(std::string("This step failed and changed nothing: ") + fault.what());
        }
        return true;
    }

private:
    std::shared_ptr<const Inputs> inputs_;
    Session session_;
    DeskStart start_;
    DeskFrame* frame_ = nullptr;
};

namespace {

Session first_session(const std::string& request, const std::string& library) {
    Session session;
    if (const auto job = job_reference(request)) {
        session.open(open_job(library, *job));
        return session;
    }
    const std::string path = request.empty() ? demo_request() : request;
    if (!path.empty()) session.open(path);
    return session;
}

int run(const DeskArguments& arguments, char* program) {
    auto inputs = std::make_shared<const Inputs>(load_inputs(arguments.library));
    need_display();
    const std::string folder = is_starter(arguments.library)
                                   ? ""
                                   : fs::path(default_library_path()).parent_path().string();
    wxApp::SetInstance(new DeskApp(std::move(inputs),
                                   first_session(arguments.request, arguments.library),
                                   {arguments.dump, folder, !arguments.request.empty()}));
    int alone = 1;
    char* values[] = {program, nullptr};
    return wxEntry(alone, values);
}

} // namespace
} // namespace backplate

int main(int argc, char** argv) {
    using namespace backplate;
    DeskArguments arguments;
    if (const auto status = read_arguments(argc, argv, arguments)) return *status;
    try {
        return run(arguments, argv[0]);
    } catch (const BadInput& fault) {
        fmt::print(stderr, "backplate-desk: {}\n", fault.what());
        return 2;
    } catch (const std::exception& fault) {
        fmt::print(stderr, "backplate-desk: {}\n", fault.what());
        return 3;
    }
}
