#include "app/command_line/job_arguments.h"

#include <CLI/CLI.hpp>

#include "app/command_line/jobs.h"

namespace backplate {
namespace {

using Common = std::shared_ptr<const CommonArguments>;

/// A command of jobs with arguments of its own, which live as long as it.
template <class Arguments>
std::pair<CLI::App*, Arguments*> command(CLI::App& group, const Common& common,
                                         const AddCommand& add, const char* name, const char* text,
                                         int (*run)(const Arguments&, const CommonArguments&)) {
    const auto arguments = std::make_shared<Arguments>();
    CLI::App* made =
        add(group, name, text, [arguments, common, run] { return run(*arguments, *common); });
    return {made, arguments.get()};
}

void add_number(CLI::App& command, std::string& number) {
    command.add_option("NUMBER", number, "Number of a saved job")->required();
}

void add_reading(CLI::App& group, const Common& common, const AddCommand& add) {
    auto [list, query] = command<JobQuery>(group, common, add, "list",
                                           "Saved jobs that hold every text", run_jobs_list);
    list->add_option("TEXT", query->texts, "Words of number, title, state, due day or price");
    list->add_option("--state", query->state, "enquiry, estimating, sent, won, lost or withdrawn");
    auto [show, shown] = command<ShowJob>(group, common, add, "show",
                                          "One job: revisions, states, documents", run_jobs_show);
    show->add_option("NUMBER", shown->number, "Number of a saved job, or job:NUMBER/REVISION")
        ->required();
    show->add_option("--difference", shown->difference,
                     "What two revisions differ in, or jobs as job:NUMBER")
        ->expected(2);
    show->add_option("--as-sent", shown->as_sent, "Folder for what was sent, byte for byte");
    show->add_flag("--request", shown->request, "Print the request as it was given");
    auto [similar, asked] = command<SimilarJobs>(
        group, common, add, "similar", "Saved jobs with points in common, the likest first",
        run_jobs_similar);
    similar->add_option("REQUEST", asked->request, "Request file, -, or job:NUMBER")->required();
    similar->add_option("--most", asked->most, "At most so many")->check(CLI::Range(1, 1000));
    auto [reprice, priced] = command<RepriceJob>(
        group, common, add, "reprice", "A job as last priced beside today's prices and rules",
        run_jobs_reprice);
    add_number(*reprice, priced->number);
    reprice->add_option("--against", priced->against,
                        "Set it beside another job or revision, job:NUMBER or job:NUMBER/REVISION");
}

void add_making(CLI::App& group, const Common& common, const AddCommand& add) {
    auto [save, saved] =
        command<SaveJob>(group, common, add, "save", "Save a request as a job", run_jobs_save);
    save->add_option("REQUEST", saved->request, "Request file, -, or job:NUMBER to price it anew")
        ->required();
    save->add_option("--title", saved->title, "Title in lists; else that of the request");
    save->add_option("--number", saved->number, "Job whose revision in work is changed");
    save->add_option("--date", saved->date, "Day it came in or was estimated; else today");
    auto [copy, copied] =
        command<JobWords>(group, common, add, "copy",
                          "A new job from another one, every value to be confirmed", run_jobs_copy);
    add_number(*copy, copied->number);
    copy->add_option("--title", copied->text, "Title in lists");
    auto [revise, revised] =
        command<JobWords>(group, common, add, "revise",
                          "Open the next revision; the last one stays", run_jobs_revise);
    add_number(*revise, revised->number);
    revise->add_option("--reason", revised->text, "Why");
    auto [confirm, confirmed] = command<ConfirmJob>(
        group, common, add, "confirm", "Confirm values of a copied job; no field: list them",
        run_jobs_confirm);
    add_number(*confirm, confirmed->number);
    confirm->add_option("FIELD", confirmed->fields, "Fields, with all that stands below them");
    confirm->add_flag("--all", confirmed->all, "Every value");
}

void add_closing(CLI::App& group, const Common& common, const AddCommand& add) {
    auto [send, sent] = command<SendJob>(group, common, add, "send",
                                         "Freeze a revision with its documents", run_jobs_send);
    add_number(*send, sent->number);
    send->add_option("--into", sent->into, "Folder for what is sent");
    send->add_option("--date", sent->date, "Day it was sent; else today");
    auto [outcome, made] = command<JobOutcome>(group, common, add, "outcome",
                                               "Record won, lost or withdrawn", run_jobs_outcome);
    add_number(*outcome, made->number);
    outcome->add_option("OUTCOME", made->outcome, "won, lost or withdrawn")->required();
    outcome->add_option("--date", made->date, "Day of the outcome, 2026-11-24; else today");
    outcome->add_option("--reason", made->reason, "Why; needed for lost and withdrawn");
    auto [exported, to] = command<JobFile>(
        group, common, add, "export", "Write a job as one file for a colleague", run_jobs_export);
    add_number(*exported, to->number);
    exported->add_option("FILE", to->file, "File to write")->required();
    auto [imported, from] = command<std::string>(group, common, add, "import",
                                                 "Take a job out of such a file", run_jobs_import);
    imported->add_option("FILE", *from, "File written by jobs export, or -")->required();
}

} // namespace

void add_jobs(CLI::App& app, const Common& common, const AddCommand& add) {
    CLI::App* group = app.add_subcommand("jobs", "Saved jobs");
    group->require_subcommand(1);
    add_reading(*group, common, add);
    add_making(*group, common, add);
    add_closing(*group, common, add);
}

} // namespace backplate
