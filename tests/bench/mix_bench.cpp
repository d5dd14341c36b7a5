/// mix_bench ROUNDS SECONDS: bare mixes by our search, GLPK and CBC, one after the other in one
/// process, round by round. Lines of standard input: INSTANCE.json, id of a family, its program as
/// free MPS. Times are of the processor, the least of the rounds, from the instance or program in
/// memory to counts; of the settings of a general solver the faster one counts. Exit status 1 where
/// an answer differs. mix_bench.py writes the programs and runs this.
#include <coin/Cbc_C_Interface.h>
#include <glpk.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <iostream>
#include <limits>
#include <memory>
#include <sstream>
#include <string>

#include "catalog/exchange/mix_instance.h"

namespace backplate {
namespace {

constexpr double none = std::numeric_limits<double>::infinity();

/// Cost in cents, infinite where there is no choice; milliseconds.
struct Run {
    bool settled = false;
    double cost = none, time = none;
};

template <class Solve> Run timed(const Solve& solve) {
    const std::clock_t start = std::clock();
    Run run = solve();
    run.time = static_cast<double>(std::clock() - start) * 1000 / CLOCKS_PER_SEC;
    return run;
}

Run by_search(const BareMix& mix, const BareFamily& family) {
    Work work;
    const BareAnswer answer = least_cost(mix, family, work);
    return {answer.proven, answer.feasible ? static_cast<double>(answer.sums[0]) : none, none};
}

struct EndGlpk {
    void operator()(glp_prob* program) const { glp_delete_prob(program); }
};

Run by_glpk(glp_prob* made, bool cuts, int seconds) {
    const std::unique_ptr<glp_prob, EndGlpk> program(glp_create_prob());
    glp_copy_prob(program.get(), made, GLP_ON);
    glp_iocp settings;
    glp_init_iocp(&settings);
    settings.msg_lev = GLP_MSG_OFF;
    settings.presolve = GLP_ON;
    settings.tm_lim = seconds * 1000;
    for (int* cut :
         {&settings.gmi_cuts, &settings.mir_cuts, &settings.cov_cuts, &settings.clq_cuts})
        *cut = cuts ? GLP_ON : GLP_OFF;
    const int failed = glp_intopt(program.get(), &settings);
    if (failed == GLP_ENOPFS || failed == GLP_ENODFS) return {true, none, none};
    const int status = glp_mip_status(program.get());
    if (failed != 0 || (status != GLP_OPT && status != GLP_NOFEAS)) return {};
    return {true, status == GLP_OPT ? glp_mip_obj_val(program.get()) : none, none};
}

Run by_cbc(Cbc_Model* made, bool cuts, int seconds) {
    Cbc_Model* model = Cbc_clone(made);
    Cbc_setLogLevel(model, 0);
    Cbc_setMaximumSeconds(model, seconds);
    Cbc_setAllowableGap(model, 0);
    Cbc_setAllowableFractionGap(model, 0);
    Cbc_setParameter(model, "cuts", cuts ? "on" : "off");
    Cbc_solve(model);
    Run run;
    if (Cbc_isProvenOptimal(model))
        run = {true, Cbc_getObjValue(model), none};
    else
        run.settled = Cbc_isProvenInfeasible(model) != 0;
    Cbc_deleteModel(model);
    return run;
}

/// The least time of a solver; an answer where any run gave one.
void add(Run& least, const Run& run) {
    if (!run.settled) return;
    least = {true, run.cost, std::min(least.time, run.time)};
}

std::string text(const Run& run) {
    if (!run.settled) return "no answer";
    char words[64];
    std::snprintf(words, sizeof words, "%.2f ms", run.time);
    return words;
}

bool same(const Run& ours, const Run& other) {
    if (!other.settled) return true;
    return ours.settled && (ours.cost == other.cost || std::abs(ours.cost - other.cost) < 0.5);
}

/// False where the answers differ.
bool compare(const std::string& path, const std::string& id, const std::string& program, int rounds,
             int seconds) {
    std::ifstream file(path);
    std::ostringstream content;
    content << file.rdbuf();
    const BareMix mix = read_mix_instance(path, content.str());
    const BareFamily* family = nullptr;
    for (const BareFamily& each : mix.families)
        if (each.id == id) family = &each;
    const std::unique_ptr<glp_prob, EndGlpk> glpk(glp_create_prob());
    Cbc_Model* cbc = Cbc_newModel();
    Cbc_setLogLevel(cbc, 0);
    if (!family || glp_read_mps(glpk.get(), GLP_MPS_FILE, nullptr, program.c_str()) != 0 ||
        Cbc_readMps(cbc, program.c_str()) != 0) {
        std::cout << path << ", " << id << ": cannot be read" << std::endl;
        return false;
    }
    Run ours, of_glpk, of_cbc;
    for (int round = 0; round < rounds; ++round) {
        add(ours, timed([&] { return by_search(mix, *family); }));
        for (const bool cuts : {true, false}) {
            add(of_glpk, timed([&] { return by_glpk(glpk.get(), cuts, seconds); }));
            add(of_cbc, timed([&] { return by_cbc(cbc, cuts, seconds); }));
        }
    }
    Cbc_deleteModel(cbc);
    const bool agree = same(ours, of_glpk) && same(ours, of_cbc);
    std::cout << path.substr(path.rfind('/') + 1) << ", " << id << ": " << text(ours) << ", GLPK "
              << text(of_glpk) << ", CBC " << text(of_cbc) << (agree ? "" : ": DIFFERENT ANSWERS")
              << std::endl;
    return agree;
}

} // namespace
} // namespace backplate

int main(int argc, char** argv) {
    const int rounds = argc > 1 ? std::atoi(argv[1]) : 3;
    const int seconds = argc > 2 ? std::atoi(argv[2]) : 10;
    glp_term_out(GLP_OFF);
    bool agree = true;
    int judged = 0;
    std::string instance, family, program;
    while (std::getline(std::cin, instance) && std::getline(std::cin, family) &&
           std::getline(std::cin, program)) {
        agree = backplate::compare(instance, family, program, rounds, seconds) && agree;
        ++judged;
    }
    std::cout << judged << " families compared" << std::endl;
    return agree && judged > 0 ? 0 : 1;
}
