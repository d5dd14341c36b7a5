#pragma once

#include <string>
#include <vector>

namespace backplate {

/// Exit statuses of the contract.
enum ExitStatus {
    done = 0,
    not_as_asked = 1,
    bad_input = 2,
    outside_failed = 3,
    interrupted = 130
};

struct CommonArguments {
    std::string library;
    bool json = false;
};

struct TakeoffArguments {
    std::string list, sheet, answers, into;
    std::string client;    ///< whose earlier answers are offered
    bool recall = false;   ///< those answers are given again
    bool remember = false; ///< the answers of the file are kept for the client
    std::string against;   ///< an earlier revision of the list
    std::string request;   ///< what the difference of the two does to its price
    bool example = false;  ///< print commented answers
};

struct EstimateArguments {
    std::string request;
    bool example = false;
    std::string practice; ///< of the example: iec or north_america; empty: iec
};

struct AlternativesArguments {
    std::string request;
    int most = 8;
    int take = 0; ///< prints the request with this one taken; 0: none
};

struct QuoteArguments {
    std::string request, workbook;
    std::string client;  ///< the client's edition; empty: none
    bool draft = false;  ///< write it in spite of a stop, marked
    std::string enquiry; ///< what suppliers are to be asked for; empty: none
    std::string drawing; ///< .pdf, .svg or .png; empty: none
};

/// `parts import DIR|FILE`, `rules export DIR`, `library check`: verb and its path (or empty).
struct TableArguments {
    std::string verb, path;
};

/// `parts find TEXT…`: each that is not empty must hold.
struct PartQuery {
    std::vector<std::string> texts; ///< each stands in key, kind, function, description, maker or
                                    ///< platform, capitals or not
    std::string kind, platform, signal, maker, state;
};

/// `parts import LIST --map MAP.json`: a supplier's price list.
struct PriceListArguments {
    std::string list, map, write_map; ///< map empty: columns by their headings
    bool supplier = false;            ///< such a list without a map
    bool preview = false, accept_suspicious = false;
    bool discontinue_gone = false; ///< parts that the list leaves out
};

struct TemplateArguments {
    std::string file; ///< empty: standard output
    std::string platform = "own";
};

/// `mix INSTANCE…`: bare module-mix problems.
struct MixArguments {
    std::vector<std::string> instances;
    bool tradeoffs = false, timing = false;
};

// Each command: results on standard output, messages on standard error, returns the exit status.
// BadInput and OutsideFault are put into words in main.
int run_takeoff(const TakeoffArguments& arguments, const CommonArguments& common);
int run_estimate(const EstimateArguments& arguments, const CommonArguments& common);
int run_alternatives(const AlternativesArguments& arguments, const CommonArguments& common);
int run_quote(const QuoteArguments& arguments, const CommonArguments& common);
/// One line of JSON for each instance; 1 where an answer is not proven.
int run_mix(const MixArguments& arguments);
int run_parts(const TableArguments& arguments, const CommonArguments& common);
int run_parts_find(const PartQuery& query, const CommonArguments& common);
int run_parts_show(const std::vector<std::string>& parts, const CommonArguments& common);
/// With --json the columns of a parts file in place of the text.
int run_parts_template(const TemplateArguments& arguments, const CommonArguments& common);
/// Prices of a supplier's list for parts that exist: one change set, or with `preview` none.
int run_price_list(const PriceListArguments& arguments, const CommonArguments& common);
int run_rules(const TableArguments& arguments, const CommonArguments& common);
/// `name`: empty (the tables), TABLE, or TABLE/ROW.
int run_rules_show(const std::string& name, const CommonArguments& common);
int run_library(const TableArguments& arguments, const CommonArguments& common);

} // namespace backplate
