#include "app/engine_thread.h"

#include <catch2/catch.hpp>

#include <atomic>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <stdexcept>
#include <vector>

using namespace backplate;
using namespace std::chrono_literals;

namespace {

constexpr auto limit = 10s; // a machine at rest needs milliseconds

std::shared_ptr<const Question> question(std::uint64_t generation) {
    Question asked;
    asked.generation = generation;
    return std::make_shared<const Question>(std::move(asked));
}

/// Collects answers and lets the test wait for one.
class Answers {
public:
    EngineThread::Receive receiver() {
        return [this](std::shared_ptr<const Answer> answer) {
            const std::lock_guard lock(mutex_);
            all_.push_back(std::move(answer));
            came_.notify_all();
        };
    }
    bool wait_for(std::uint64_t generation) {
        std::unique_lock lock(mutex_);
        return came_.wait_for(
            lock, limit, [&] { return !all_.empty() && all_.back()->generation == generation; });
    }
    std::vector<std::shared_ptr<const Answer>> all() {
        const std::lock_guard lock(mutex_);
        return all_;
    }

private:
    std::mutex mutex_;
    std::condition_variable came_;
    std::vector<std::shared_ptr<const Answer>> all_;
};

/// A door that the run stands before until the test opens it.
class Door {
public:
    void reach_and_wait(const std::stop_token& stop) {
        std::unique_lock lock(mutex_);
        ++reached_;
        moved_.notify_all();
        moved_.wait(lock, stop, [&] { return open_; });
    }
    bool wait_until_reached(int times) {
        std::unique_lock lock(mutex_);
        return moved_.wait_for(lock, limit, [&] { return reached_ >= times; });
    }
    void open() {
        const std::lock_guard lock(mutex_);
        open_ = true;
        moved_.notify_all();
    }

private:
    std::mutex mutex_;
    std::condition_variable_any moved_;
    int reached_ = 0;
    bool open_ = false;
};

} // namespace

TEST_CASE("a question asked gets its own generation back") {
    Answers answers;
    EngineThread engine(answers.receiver(),
                        [](const Question&, Work&, const HandOut& hand_out) { hand_out({}); });
    engine.ask(question(7));
    REQUIRE(answers.wait_for(7));
    engine.ask(question(8));
    REQUIRE(answers.wait_for(8));
    CHECK(answers.all().size() == 2);
}

TEST_CASE("the newest question stops the one that runs and drops the ones that wait") {
    Answers answers;
    Door door;
    std::atomic<int> stopped{0};
    std::mutex mutex;
    std::vector<std::uint64_t> begun;
    EngineThread engine(answers.receiver(),
                        [&](const Question& asked, Work& work, const HandOut& hand_out) {
                            {
                                const std::lock_guard lock(mutex);
                                begun.push_back(asked.generation);
                            }
                            if (asked.generation == 1) {
                                door.reach_and_wait(work.stop);
                                if (work.stop.stop_requested()) ++stopped;
                                work.check_stop();
                            }
                            hand_out({});
                        });
    engine.ask(question(1));
    REQUIRE(door.wait_until_reached(1));
    for (std::uint64_t generation = 2; generation <= 20; ++generation)
        engine.ask(question(generation));
    REQUIRE(answers.wait_for(20));
    CHECK(stopped == 1);
    const auto all = answers.all();
    for (std::size_t i = 1; i < all.size(); ++i) CHECK(all[i - 1]->generation < all[i]->generation);
    CHECK(all.front()->generation != 1);
    const std::lock_guard lock(mutex);
    CHECK(begun.front() == 1);
    CHECK(begun.back() == 20);
}

TEST_CASE("an answer that ends after a newer question was asked is not handed out") {
    Answers answers;
    Door door;
    EngineThread engine(answers.receiver(),
                        [&](const Question& asked, Work&, const HandOut& hand_out) {
                            if (asked.generation == 1) door.reach_and_wait({}); // deaf to its stop
                            hand_out({});
                        });
    engine.ask(question(1));
    REQUIRE(door.wait_until_reached(1));
    engine.ask(question(2));
    door.open();
    REQUIRE(answers.wait_for(2));
    CHECK(answers.all().size() == 1);
}

TEST_CASE("what goes wrong in a run becomes the answer's text and the thread goes on") {
    Answers answers;
    EngineThread engine(answers.receiver(),
                        [](const Question& asked, Work&, const HandOut& hand_out) {
                            if (asked.generation == 1)
                                throw std::runtime_error("the table is empty");
                            hand_out({});
                        });
    engine.ask(question(1));
    REQUIRE(answers.wait_for(1));
    CHECK(answers.all().back()->error == "the table is empty");
    engine.ask(question(2));
    REQUIRE(answers.wait_for(2));
    CHECK(answers.all().back()->error.empty());
}

TEST_CASE("ending the thread stops what runs and hands nothing out") {
    Answers answers;
    Door door;
    {
        EngineThread engine(answers.receiver(),
                            [&](const Question&, Work& work, const HandOut& hand_out) {
                                door.reach_and_wait(work.stop);
                                hand_out({});
                            });
        engine.ask(question(1));
        REQUIRE(door.wait_until_reached(1));
        engine.ask(question(2));
        REQUIRE(door.wait_until_reached(2));
    }
    CHECK(answers.all().empty());
}

TEST_CASE("what comes later has the generation of its question, until a newer one is asked") {
    Answers answers;
    Door door;
    EngineThread engine(answers.receiver(), [&](const Question& asked, Work&, const HandOut& out) {
        Answer answer;
        out(answer);
        if (asked.generation == 1) door.reach_and_wait({}); // deaf to its stop
        answer.steps = std::make_shared<const FoundSteps>();
        out(answer);
    });
    engine.ask(question(1));
    REQUIRE(door.wait_until_reached(1));
    CHECK(answers.wait_for(1));
    engine.ask(question(2));
    door.open();
    REQUIRE(answers.wait_for(2));
    while (!answers.all().back()->steps) std::this_thread::sleep_for(1ms);
    const auto all = answers.all();
    REQUIRE(all.size() == 3); // nothing further of the first
    CHECK(all[0]->generation == 1);
    CHECK(all[1]->generation == 2);
    CHECK(all[2]->generation == 2);
}
