#include "app/engine_thread.h"

#include <utility>

#include "pricing/price_job.h"
#include "pricing/request/check_request.h"

namespace backplate {

Answer answer_question(const Question& question, Work& work) {
    const Inputs& inputs = *question.inputs;
    Answer answer;
    CheckedRequest checked = check_request(*question.request, *inputs.rules, question.today);
    answer.faults = std::move(checked.faults);
    if (checked.request)
        answer.estimate = price_job(*checked.request, *inputs.prices, *inputs.rules, work);
    return answer;
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

void EngineThread::serve(const std::stop_token& quit) {
    while (true) {
        std::unique_lock lock(mutex_);
        if (!arrived_.wait(lock, quit, [this] { return waiting_ != nullptr; })) return;
        if (quit.stop_requested()) return;
        const auto question = std::exchange(waiting_, nullptr);
        running_ = std::stop_source();
        const std::stop_token stop = running_.get_token();
        lock.unlock();

        auto answer = run_one(*question, stop);
        if (answer && !stop.stop_requested() && !quit.stop_requested()) receive_(std::move(answer));
    }
}

std::shared_ptr<const Answer> EngineThread::run_one(const Question& question,
                                                    std::stop_token stop) const {
    Work work;
    work.stop = std::move(stop);
    Answer answer;
    try {
        answer = run_(question, work);
    } catch (const Stopped&) {
        return nullptr;
    } catch (const std::exception& fault) {
        answer = {};
        answer.error = fault.what();
    }
    answer.generation = question.generation;
    return std::make_shared<const Answer>(std::move(answer));
}

} // namespace backplate
