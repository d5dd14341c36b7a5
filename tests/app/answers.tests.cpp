#include "app/engine_thread.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <stop_token>
#include <utility>
#include <vector>

#include "app/session.h"
#include "catalog/exchange/request_json.h"

using namespace backplate;

namespace {

/// Points of two kinds, with the starter data: small, and built in more than one way.
Question small_job() {
    Node points = Node::make_list();
    for (const auto& [signal, count] : {std::pair("DI", "24"), std::pair("AI_MA", "6")}) {
        Node point = Node::make_object();
        point.member("signal") = Node::make_text(signal);
        point.member("count") = Node::make_number(count);
        points.items.push_back(std::move(point));
    }
    Session session;
    session.set_value("/boxes/0/points", std::move(points));
    Question question;
    question.inputs = std::make_shared<const Inputs>(load_inputs(":starter:"));
    question.request = session.request();
    question.today = Date::of(2026, 11, 24);
    return question;
}

std::size_t found_in(const Answer& answer) {
    return answer.alternatives ? answer.alternatives->alternatives.size() : 0;
}

} // namespace

TEST_CASE("the estimate comes first, then one alternative after the other, then all, then steps") {
    std::vector<Answer> answers;
    Work work;
    answer_question(small_job(), work, [&](const Answer& answer) { answers.push_back(answer); });
    REQUIRE(answers.size() >= 5);
    CHECK(answers.front().estimate);
    CHECK_FALSE(answers.front().alternatives);
    std::size_t found = 0;
    std::size_t at = 1;
    for (; at < answers.size() && answers[at].looking; ++at) {
        CHECK(found_in(answers[at]) == found + 1);
        found = found_in(answers[at]);
    }
    CHECK(found >= 2);
    REQUIRE(at < answers.size());
    CHECK(answers[at].alternatives);
    CHECK_FALSE(answers[at].steps);
    CHECK(answers.back().steps);
}

TEST_CASE("an alternative is handed out before the next one is tried") {
    std::stop_source stop;
    Work work;
    work.stop = stop.get_token();
    std::size_t most = 0;
    const auto hand_out = [&](const Answer& answer) {
        most = std::max(most, found_in(answer));
        if (most == 1) stop.request_stop();
    };
    CHECK_THROWS_AS(answer_question(small_job(), work, hand_out), Stopped);
    CHECK(most == 1);
}

TEST_CASE("a job that nothing builds is answered with boxes parted, and without steps") {
    Question question = small_job();
    Node request = *question.request;
    Node& box = request.find("boxes")->items[0];
    box.find("points")->items[0].member("count") = Node::make_number("70");
    box.member("site") =
        parse_json("site", R"({"max_mm": {"width": 600, "height": 800, "depth": 300}})").root;
    box.member("choices") = parse_json("choices", R"({"platforms": ["slice"]})").root;
    question.request = std::make_shared<const Node>(std::move(request));
    std::vector<Answer> answers;
    Work work;
    answer_question(question, work, [&](const Answer& answer) { answers.push_back(answer); });
    REQUIRE(answers.size() >= 3);
    CHECK_FALSE(answers.front().estimate->buildable);
    CHECK_FALSE(answers.front().alternatives);
    CHECK(found_in(answers.back()) >= 2);
    CHECK_FALSE(answers.back().looking);
    CHECK_FALSE(answers.back().steps);
}
