#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/command_line/commands.h"

namespace backplate {

/// `jobs list TEXT…`: each text stands in number, title, state or price, capitals or not.
struct JobQuery {
    std::vector<std::string> texts;
    std::string state; ///< empty: any
};

struct ShowJob {
    std::string number;
    std::vector<std::string> difference; ///< two revisions; empty: none
    std::string as_sent;                 ///< folder for what was sent; empty: none
    bool request = false;                ///< print the request as it was given
};

struct SaveJob {
    std::string request;
    std::optional<std::string> title;
    std::string number; ///< empty: a new job, or the one that `request` names
    std::string date;   ///< day of it; empty: today
};

/// A job, and a text that the command takes.
struct JobWords {
    std::string number;
    std::optional<std::string> text;
};

struct ConfirmJob {
    std::string number;
    std::vector<std::string> fields;
    bool all = false;
};

struct SendJob {
    std::string number, into; ///< into: folder for what was sent; empty: none
    std::string date;         ///< day of it; empty: today
};

struct RepriceJob {
    std::string number;
    std::string against; ///< the job or revision to set beside; empty: the job as last priced
};

struct SimilarJobs {
    std::string request; ///< file, -, or job:NUMBER
    int most = 8;
};

struct JobOutcome {
    std::string number, outcome, date, reason; ///< date: empty: today
};

struct JobFile {
    std::string number, file;
};

// As the commands of commands.h.
int run_jobs_list(const JobQuery& query, const CommonArguments& common);
int run_jobs_show(const ShowJob& arguments, const CommonArguments& common);
int run_jobs_save(const SaveJob& arguments, const CommonArguments& common);
int run_jobs_copy(const JobWords& arguments, const CommonArguments& common);   ///< text: title
int run_jobs_revise(const JobWords& arguments, const CommonArguments& common); ///< text: reason
int run_jobs_confirm(const ConfirmJob& arguments, const CommonArguments& common);
int run_jobs_send(const SendJob& arguments, const CommonArguments& common);
int run_jobs_outcome(const JobOutcome& arguments, const CommonArguments& common);
int run_jobs_reprice(const RepriceJob& arguments, const CommonArguments& common);
/// Saved jobs with points in common, the likest first.
int run_jobs_similar(const SimilarJobs& arguments, const CommonArguments& common);
int run_jobs_export(const JobFile& arguments, const CommonArguments& common);
int run_jobs_import(const std::string& file, const CommonArguments& common);

} // namespace backplate
