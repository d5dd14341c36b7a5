#pragma once

#include <condition_variable>
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <stop_token>
#include <string>
#include <thread>
#include <vector>

#include "app/inputs.h"
#include "pricing/job/alternatives.h"
#include "pricing/job/price_steps.h"
#include "pricing/request/bid_request.h"
#include "pricing/values/work.h"

namespace backplate {

/// What the engine is asked: one state of the request with one issue of prices and rules.
struct Question {
    std::uint64_t generation = 0;
    std::shared_ptr<const Inputs> inputs;
    std::shared_ptr<const Node> request;
    Date today;
    std::optional<Inherited> inherited = {}; ///< of a copy with values to be confirmed
    std::optional<SavedAs> saved = {};       ///< the job that the request is
};

/// One of the three: an estimate, the faults of the request, or why neither could be made. What
/// takes further runs comes later, as another answer of the same generation.
struct Answer {
    std::uint64_t generation = 0;
    std::shared_ptr<const Estimate> estimate;
    std::vector<RequestFault> faults;
    std::string error;
    std::shared_ptr<const Alternatives> alternatives; ///< null: not looked for yet
    bool looking = false;                             ///< for more alternatives than these
    std::shared_ptr<const FoundSteps> steps;          ///< null: not looked for yet
    std::string further_error;                        ///< why there are none of the two
};

/// Takes an answer as far as it goes; may be called again with what was added to it.
using HandOut = std::function<void(const Answer&)>;

/// Checks the request and prices it, then looks for alternatives, then for price steps; hands out
/// after each. Throws Stopped.
void answer_question(const Question& question, Work& work, const HandOut& hand_out);

/// Answers questions on a thread of its own. The newest question wins: an older one that waits is
/// dropped, one that runs is stopped, and neither gets a further answer. Answers come in the order
/// of their questions. `receive` is called on the engine's thread.
class EngineThread {
public:
    using Run = std::function<void(const Question&, Work&, const HandOut&)>;
    using Receive = std::function<void(std::shared_ptr<const Answer>)>;

    explicit EngineThread(Receive receive, Run run = answer_question);
    ~EngineThread(); ///< stops what runs; nothing is received afterwards
    EngineThread(const EngineThread&) = delete;
    EngineThread& operator=(const EngineThread&) = delete;

    void ask(std::shared_ptr<const Question> question);
    /// Stops what runs without another question; what was handed out stays.
    void stop();

private:
    void serve(const std::stop_token& quit);
    void run_one(const Question& question, const std::stop_token& stop,
                 const std::stop_token& quit) const;

    Receive receive_;
    Run run_;
    std::mutex mutex_;
    std::condition_variable_any arrived_;
    std::shared_ptr<const Question> waiting_;
    std::stop_source running_;
    std::jthread thread_; ///< last: starts when everything else stands
};

} // namespace backplate
