#include "app/command_line/arguments.h"

#include <algorithm>
#include <memory>
#include <sstream>
#include <utility>

#include <CLI/CLI.hpp>

#include "app/command_line/commands.h"
#include "app/command_line/job_arguments.h"
#include "pricing/request/check_request.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

constexpr const char* about =
    "Estimates control cabinets around programmable controllers: from an I/O list to modules, "
    "24 V supply, heat, enclosure, hours and price.";

/// Everything the options write into; lives until the run is over.
struct Words {
    CommonArguments common;
    TakeoffArguments takeoff;
    EstimateArguments estimate;
    AlternativesArguments alternatives;
    MixArguments mix;
    QuoteArguments quote;
    TableArguments table;
    PartQuery query;
    TemplateArguments part_template;
    PriceListArguments price_list;
    std::vector<std::string> names;
    std::function<int()> run;
};
using Shared = std::shared_ptr<Words>;

void add_common(CLI::App& command, const Shared& words) {
    command.add_option("--library", words->common.library,
                       "Library file; ':starter:' uses the starter data and writes nothing");
    command.add_flag("--json", words->common.json, "Print the result as JSON");
}

/// A command of `app`, which is the program or one of its groups.
CLI::App* add_command(CLI::App& app, const Shared& words, const char* name, const char* text,
                      int (*run)(Words&)) {
    CLI::App* command = app.add_subcommand(name, text);
    add_common(*command, words);
    command->callback([words, run] {
        if (!words->run) words->run = [words, run] { return run(*words); };
    });
    return command;
}

void add_verb(CLI::App& group, const Shared& words, const char* verb, const char* text,
              const char* path_name, int (*run)(Words&)) {
    CLI::App* command = group.add_subcommand(verb, text);
    add_common(*command, words);
    if (path_name) command->add_option(path_name, words->table.path, "")->required();
    command->callback([words, verb, run] {
        words->table.verb = verb;
        words->run = [words, run] { return run(*words); };
    });
}

int parts(Words& words) { return run_parts(words.table, words.common); }
int rules(Words& words) { return run_rules(words.table, words.common); }
int library(Words& words) { return run_library(words.table, words.common); }

void add_takeoff(CLI::App& app, const Shared& words) {
    CLI::App* command =
        add_command(app, words, "takeoff", "Count points by signal and box in a client's I/O list",
                    [](Words& w) { return run_takeoff(w.takeoff, w.common); });
    TakeoffArguments& takeoff = words->takeoff;
    CLI::Option* list =
        command->add_option("LIST", takeoff.list, "I/O list (.csv .tsv .txt .xlsx .ods)");
    command->add_option("--sheet", takeoff.sheet, "Read only this sheet of a workbook");
    command->add_option("--answers", takeoff.answers, "Columns and answers to questions (JSON)");
    command->add_option("--into", takeoff.into, "Request file to make or to renew");
    CLI::Option* client =
        command->add_option("--client", takeoff.client, "Offer the answers to this client's lists");
    command->add_flag("--recall", takeoff.recall, "Give those answers again")->needs(client);
    command->add_flag("--remember", takeoff.remember, "Keep the answers given for this client")
        ->needs(client);
    CLI::Option* against = command->add_option("--against", takeoff.against,
                                               "Earlier revision: say what changed since");
    command->add_option("--request", takeoff.request, "Price the change in this request")
        ->needs(against);
    CLI::Option* example =
        command->add_flag("--example", takeoff.example, "Print a commented file of answers");
    command->parse_complete_callback([list, example] {
        if (list->count() == 0 && example->count() == 0) throw CLI::RequiredError("LIST");
    });
}

void add_estimate(CLI::App& app, const Shared& words) {
    CLI::App* command = add_command(app, words, "estimate", "Size and cost a request",
                                    [](Words& w) { return run_estimate(w.estimate, w.common); });
    CLI::Option* request =
        command->add_option("REQUEST", words->estimate.request, "Request file, -, or job:NUMBER");
    CLI::Option* example =
        command->add_option("--example", words->estimate.practice,
                            "Print a commented blank request (iec, north_america)");
    example->expected(0, 1)->check(CLI::IsMember({"iec", "north_america"}));
    command->parse_complete_callback([words, request, example] {
        words->estimate.example = example->count() > 0;
        if (!words->estimate.example && request->count() == 0)
            throw CLI::RequiredError("REQUEST (a file, - or job:NUMBER), or --example");
    });
}

void add_alternatives(CLI::App& app, const Shared& words) {
    CLI::App* command = add_command(
        app, words, "alternatives", "Other platforms, mixes and boxes, each a whole costed panel",
        [](Words& w) { return run_alternatives(w.alternatives, w.common); });
    command->add_option("REQUEST", words->alternatives.request, "Request file, or -")->required();
    command->add_option("--most", words->alternatives.most, "At most so many, the cheapest")
        ->check(CLI::Range(1, 100));
    command
        ->add_option("--take", words->alternatives.take,
                     "Print the request with the change of the Nth instead, for a new file")
        ->check(CLI::Range(1, 100));
}

void add_mix(CLI::App& app, const Shared& words) {
    CLI::App* command =
        add_command(app, words, "mix", "Bare module-mix problems, for checking the search",
                    [](Words& w) { return run_mix(w.mix); });
    command->add_option("INSTANCE", words->mix.instances, "Instance files")->required();
    command->add_flag("--tradeoffs", words->mix.tradeoffs,
                      "Every choice that no other beats in cost, width, heat and current");
    command->add_flag("--timing", words->mix.timing, "Seconds of each instance");
}

void add_quote(CLI::App& app, const Shared& words) {
    CLI::App* command = add_command(app, words, "quote", "Write the documents of a request",
                                    [](Words& w) { return run_quote(w.quote, w.common); });
    command->add_option("REQUEST", words->quote.request, "Request file, -, or job:NUMBER")
        ->required();
    command->add_option("--workbook", words->quote.workbook, "Internal quote workbook (.xlsx)");
    command->add_option("--client", words->quote.client,
                        "The client's edition (.xlsx): no cost, norm, margin or internal note");
    command->add_option("--enquiry", words->quote.enquiry,
                        "What suppliers are to be asked for (.xlsx): lines without a valid price");
    command->add_option("--drawing", words->quote.drawing,
                        "Panels to scale, 24 V, modules and channels (.pdf; .svg and .png: the "
                        "sheets below each other)");
    command->add_flag(
        "--draft", words->quote.draft,
        "Write client's edition and drawing in spite of a stop, marked DRAFT on every "
        "page");
}

/// A list with one of the supplier's options is a price list, else a file or folder of parts.
int import_parts(Words& words) {
    PriceListArguments& list = words.price_list;
    list.list = words.table.path;
    if (list.supplier || !list.map.empty()) return run_price_list(list, words.common);
    if (list.preview || list.accept_suspicious || list.discontinue_gone || !list.write_map.empty())
        throw BadInput("parts import: --preview, --accept-suspicious, --discontinue-gone and "
                       "--write-map are for a supplier's price list; expected --map MAP.json or "
                       "--supplier beside them");
    return run_parts({"import", words.table.path}, words.common);
}

void add_import(CLI::App& group, const Shared& words) {
    CLI::App* command = add_command(
        group, words, "import",
        "FILE adds and replaces parts; a DIR makes the price book equal to it; with --map or "
        "--supplier a supplier's price list changes prices of parts that exist",
        import_parts);
    PriceListArguments& list = words->price_list;
    command->add_option("DIR|FILE", words->table.path, "Parts, or a price list")->required();
    command->add_option("--map", list.map, "Columns of a supplier's price list (.json)");
    command->add_flag("--supplier", list.supplier,
                      "A supplier's price list, its columns found by their headings");
    command->add_flag("--preview", list.preview, "Only say what the price list would change");
    command->add_flag("--accept-suspicious", list.accept_suspicious,
                      "Take suspicious lines of the price list too");
    command->add_flag("--discontinue-gone", list.discontinue_gone,
                      "Parts that the price list leaves out are no longer chosen");
    command->add_option("--write-map", list.write_map, "Write the map that was used (.json)");
}

void add_parts(CLI::App& app, const Shared& words) {
    CLI::App* group = app.add_subcommand("parts", "The price book");
    group->require_subcommand(1);
    CLI::App* find = add_command(*group, words, "find", "Parts that hold every text and condition",
                                 [](Words& w) { return run_parts_find(w.query, w.common); });
    find->add_option("TEXT", words->query.texts, "Words of key, description, maker ...");
    find->add_option("--kind", words->query.kind, "Kind: controller, module, supply ...");
    find->add_option("--platform", words->query.platform, "Platform of controllers and modules");
    find->add_option("--signal", words->query.signal, "A channel serves this signal");
    find->add_option("--maker", words->query.maker, "Maker");
    find->add_option("--state", words->query.state, "current, phasing_out or discontinued");
    CLI::App* show = add_command(*group, words, "show", "Every field of parts, and what they need",
                                 [](Words& w) { return run_parts_show(w.names, w.common); });
    show->add_option("PART", words->names, "Keys of parts")->required();
    CLI::App* blank = add_command(
        *group, words, "template", "A blank CSV for a platform of your own; --json: every column",
        [](Words& w) { return run_parts_template(w.part_template, w.common); });
    blank->add_option("FILE", words->part_template.file, "CSV to write, else standard output");
    blank->add_option("--platform", words->part_template.platform, "Name of the platform");
    add_import(*group, words);
    add_verb(*group, words, "export", "Write the price book as CSV files", "DIR", parts);
    add_verb(*group, words, "check", "Say what parts and platforms lack", nullptr, parts);
}

void add_rules(CLI::App& app, const Shared& words) {
    CLI::App* group = app.add_subcommand("rules", "The rule tables");
    group->require_subcommand(1);
    CLI::App* show =
        add_command(*group, words, "show", "The tables, the rows of one, or one row in full",
                    [](Words& w) { return run_rules_show(w.table.path, w.common); });
    show->add_option("TABLE[/ROW]", words->table.path, "Table, or row of a table");
    add_verb(*group, words, "import", "FILE replaces the tables it names; a DIR replaces them all",
             "DIR|FILE", rules);
    add_verb(*group, words, "export", "Write the rule tables as CSV files", "DIR", rules);
    add_verb(*group, words, "check", "Judge every row against its range", nullptr, rules);
}

void add_library(CLI::App& app, const Shared& words) {
    CLI::App* group = app.add_subcommand("library", "The library file itself");
    group->require_subcommand(1);
    add_verb(*group, words, "check", "Is the file sound", nullptr, library);
    add_verb(*group, words, "backup", "Copy the library, also while it is in use", "FILE", library);
    add_verb(*group, words, "changes", "Every change set: number, time, person, reason, rows",
             nullptr, library);
    add_verb(*group, words, "undo", "Take a change set back by a new one", "NUMBER", library);
}

/// A command whose arguments live with its run.
AddCommand command_adder(const Shared& words) {
    return [words](CLI::App& group, const char* name, const char* text, std::function<int()> run) {
        CLI::App* command = group.add_subcommand(name, text);
        add_common(*command, words);
        command->callback(
            [words, run = std::move(run)] { words->run = [words, run] { return run(); }; });
        return command;
    };
}

std::vector<std::string> commands_of(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::App* command : app.get_subcommands({})) names.push_back(command->get_name());
    return names;
}

std::string one_of(const std::vector<std::string>& names) {
    std::string text = "expected one of ";
    for (const std::string& name : names) text += (&name == &names.front() ? "" : ", ") + name;
    return text;
}

/// The first word that is no command where one is due, and the commands there are; empty: each is.
std::string unknown_command(const CLI::App& app, int count, char** words) {
    const CLI::App* group = &app;
    std::string of;
    for (int i = 1; i < count && group->get_require_subcommand_min() > 0; ++i) {
        const std::string word = words[i];
        if (word == "--library") ++i;
        if (word.empty() || word[0] == '-') continue;
        const auto names = commands_of(*group);
        if (std::ranges::find(names, word) == names.end()) {
            const std::string nearest = nearest_word(word, names);
            return "backplate: '" + word + "' is no command" + of + "; " +
                   (nearest.empty() ? "" : "nearest: " + nearest + "; ") + one_of(names) + "\n";
        }
        group = group->get_subcommand(word);
        of = " of " + word;
    }
    if (group->get_require_subcommand_min() == 0) return {};
    return "backplate: a command" + of + " is missing; " + one_of(commands_of(*group)) + "\n";
}

} // namespace

Parsed parse_arguments(int count, char** raw) {
    const auto words = std::make_shared<Words>();
    CLI::App app{about, "backplate"};
    app.set_version_flag("--version", std::string("backplate ") + BACKPLATE_VERSION);
    app.add_option("--library", words->common.library,
                   "Library file; ':starter:' uses the starter data and writes nothing");
    app.require_subcommand(1);
    add_takeoff(app, words);
    add_estimate(app, words);
    add_alternatives(app, words);
    add_quote(app, words);
    add_mix(app, words);
    add_parts(app, words);
    add_rules(app, words);
    add_jobs(app, {words, &words->common}, command_adder(words));
    add_library(app, words);
    try {
        app.parse(count, raw);
    } catch (const CLI::ParseError& error) {
        std::ostringstream out, fault;
        const int status = app.exit(error, out, fault);
        if (status == 0) return {{}, out.str(), done};
        std::string text = unknown_command(app, count, raw);
        if (text.empty()) text = "backplate: " + std::string(error.what()) + "\n";
        return {{}, text, bad_input};
    }
    return {std::exchange(words->run, {}), {}, done}; // which holds the words: no circle is left
}

} // namespace backplate
