#include "app/engine_thread.h"

#include <algorithm>
#include <utility>

#include "pricing/price_job.h"
#include "pricing/request/check_request.h"

namespace backplate {

namespace {

constexpr std::size_t most_alternatives = 9; // as many as have a key of their own

/// Alternatives and price steps: each a whole run of the job, many of them.
void look_further(const Inputs& inputs, Answer& answer, const Work& work, const HandOut& hand_out) {
    const auto fresh = [&] {
        Work further;
        further.stop = work.stop;
        return further;
    };
    Work first = fresh();
    answer.looking = true;
    const auto one_more = [&](const Alternatives& found) {
        auto so_far = std::make_shared<Alternatives>(found);
        std::ranges::stable_sort(so_far->alternatives, {}, &Alternative::price);
        answer.alternatives = std::move(so_far);
        hand_out(answer);
    };
    answer.alternatives = std::make_shared<const Alternatives>(
        find_alternatives(answer.estimate->request, *inputs.prices, *inputs.rules,
                          most_alternatives, first, one_more));
    answer.looking = false;
    hand_out(answer);
    if (!answer.estimate->buildable) return;
    Work second = fresh();
    answer.steps = std::make_shared<const FoundSteps>(
        price_steps(*answer.estimate, *inputs.prices, *inputs.rules, second));
    hand_out(answer);
}

} // namespace

void answer_question(const Question& question, Work& work, const HandOut& hand_out) {
    const Inputs& inputs = *question.inputs;
    Answer answer;
    CheckedRequest checked = check_request(*question.request, *inputs.rules, question.today);
    answer.faults = std::move(checked.faults);
    if (checked.request) {
        checked.request->inherited = question.inherited;
        checked.request->saved = question.saved;
    }
    if (checked.request)
        answer.estimate = std::make_shared<const Estimate>(
            price_job(*checked.request, *inputs.prices, *inputs.rules, work));
    hand_out(answer);
    if (!answer.estimate) return;
    try {
        look_further(inputs, answer, work, hand_out);
    } catch (const Stopped&) {
        throw;
    } catch (const std::exception& fault) {
        answer.further_error = fault.what();
        hand_out(answer);
    }
}

EngineThread::EngineThread(Receive receive, Run run)
    : receive_(std::move(receive)), run_(std::move(run)),
      thread_([this](const std::stop_token& quit) { serve(quit); }) {}

EngineThread::~EngineThread() {
    thread_.request_stop();
    const std::lock_guard lock(mutex_);
    running_.request_stop();
}

void EngineThread::ask(std::shared_ptr<const Question> question) {
    {
        const std::lock_guard lock(mutex_);
        waiting_ = std::move(question);
        running_.request_stop();
    }
    arrived_.notify_one();
}

void EngineThread::stop() {
    const std::lock_guard lock(mutex_);
    running_.request_stop();
}

void EngineThread::serve(const std::stop_token& quit) {
    while (true) {
        std::unique_lock lock(mutex_);
        if (!arrived_.wait(lock, quit, [this] { return waiting_ != nullptr; })) return;
        if (quit.stop_requested()) return;
        const auto question = std::exchange(waiting_, nullptr);
        running_ = std::stop_source();
        const std::stop_token stop = running_.get_token();
        lock.unlock();

        run_one(*question, stop, quit);
    }
}

void EngineThread::run_one(const Question& question, const std::stop_token& stop,
                           const std::stop_token& quit) const {
    Work work;
    work.stop = stop;
    const auto hand_out = [&](Answer answer) {
        if (stop.stop_requested() || quit.stop_requested()) return;
        answer.generation = question.generation;
        receive_(std::make_shared<const Answer>(std::move(answer)));
    };
    try {
        run_(question, work, hand_out);
    } catch (const Stopped&) { // a newer question waits
    } catch (const std::exception& fault) {
        Answer answer;
        answer.error = fault.what();
        hand_out(std::move(answer));
    }
}

} // namespace backplate
