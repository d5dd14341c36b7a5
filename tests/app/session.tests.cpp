#include "app/session.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

#include "catalog/cells/table.h"
#include "catalog/exchange/request_json.h"
#include "pricing/values/faults.h"
#include "tests/app/scratch_folder.h"

using namespace backplate;

namespace {

std::string text_at(const Session& session, const std::string& pointer) {
    const Node* node = session.value(pointer);
    return node ? node->text : "(absent)";
}

} // namespace

TEST_CASE("a new session holds one box without points and nothing to undo") {
    const Session session;
    CHECK(text_at(session, "/format") == "backplate-request/1");
    CHECK(text_at(session, "/boxes/0/name") == "CP1");
    CHECK_FALSE(session.can_undo());
    CHECK_FALSE(session.can_redo());
    CHECK_FALSE(session.dirty());
    CHECK(session.file().empty());
}

TEST_CASE("a value makes its way and takes it along when it goes") {
    Session session;
    const Node before = *session.request();
    session.set_value("/boxes/0/site/max_mm/width", Node::make_number("800"));
    CHECK(text_at(session, "/boxes/0/site/max_mm/width") == "800");
    session.set_value("/boxes/0/site/max_mm/width", std::nullopt);
    CHECK(session.value("/boxes/0/site") == nullptr);
    CHECK(*session.request() == before);
}

TEST_CASE("removing leaves what else an object holds, and what was never there") {
    Session session;
    session.set_value("/job/title", Node::make_text("Lock gates"));
    session.set_value("/job/client", Node::make_text("Invented canal trust"));
    session.set_value("/job/client", std::nullopt);
    CHECK(session.title() == "Lock gates");
    const auto before = session.request();
    session.set_value("/spare/percent", std::nullopt);
    session.set_value("/boxes/7/name", Node::make_text("no such box"));
    CHECK(session.request() == before);
}

TEST_CASE("changes of one pointer are one step until the cursor leaves") {
    Session session;
    for (const char* typed : {"L", "Lo", "Loc", "Lock"})
        session.set_value("/job/title", Node::make_text(typed));
    session.end_step();
    session.set_value("/job/title", Node::make_text("Locks"));
    session.undo();
    CHECK(session.title() == "Lock");
    session.undo();
    CHECK(session.title().empty());
    CHECK_FALSE(session.can_undo());
}

TEST_CASE("a change after undo ends what could be redone") {
    Session session;
    session.set_value("/job/title", Node::make_text("one"));
    session.set_value("/job/client", Node::make_text("two"));
    session.undo();
    session.set_value("/job/title", Node::make_text("three"));
    CHECK_FALSE(session.can_redo());
    session.undo();
    CHECK(session.title() == "one");
}

TEST_CASE("undo and redo pass through the same states over random edits") {
    const unsigned seed = GENERATE(1U, 2U, 3U, 4U, 5U);
    std::mt19937 draw(seed);
    const std::vector<std::string> pointers{"/job/title", "/spare/percent", "/boxes/0/name",
                                            "/boxes/0/site/altitude_m", "/boxes/0/points"};
    Session session;
    std::vector<Node> states{*session.request()};
    for (int edit = 0; edit < 300; ++edit) {
        std::optional<Node> value;
        if (draw() % 4 != 0) value = Node::make_number(std::to_string(draw() % 5));
        session.set_value(pointers[draw() % pointers.size()], std::move(value));
        session.end_step();
        if (!(*session.request() == states.back())) states.push_back(*session.request());
    }
    REQUIRE(states.size() > 100);
    for (std::size_t i = states.size() - 1; i > 0; --i) {
        REQUIRE(*session.request() == states[i]);
        session.undo();
    }
    CHECK(*session.request() == states.front());
    CHECK_FALSE(session.can_undo());
    for (std::size_t i = 1; i < states.size(); ++i) {
        session.redo();
        REQUIRE(*session.request() == states[i]);
    }
    CHECK_FALSE(session.can_redo());
}

TEST_CASE("saving cleans, editing soils, undo back to the saved state cleans again") {
    const ScratchFolder folder;
    Session session;
    session.set_value("/job/title", Node::make_text("Weir"));
    CHECK(session.dirty());
    session.save_as(folder.file("weir.json"));
    CHECK_FALSE(session.dirty());
    CHECK(session.file() == folder.file("weir.json"));
    session.set_value("/job/title", Node::make_text("Weirs"));
    CHECK(session.dirty());
    session.undo();
    CHECK_FALSE(session.dirty());
}

TEST_CASE("what was saved opens to the same tree with nothing to undo") {
    const ScratchFolder folder;
    Session session;
    session.set_value("/spare/percent", Node::make_number("12.50"));
    session.save_as(folder.file("a.json"));
    Session other;
    other.set_value("/job/title", Node::make_text("gone"));
    other.open(folder.file("a.json"));
    CHECK(*other.request() == *session.request());
    CHECK(text_at(other, "/spare/percent") == "12.50");
    CHECK_FALSE(other.can_undo());
    CHECK_FALSE(other.dirty());
}

TEST_CASE("a file with comments is never written over while they speak of a place in it") {
    const ScratchFolder folder;
    const std::string path = folder.file("commented.json");
    const std::string text = "{ \"format\": \"backplate-request/1\", // first version\n"
                             "  \"boxes\": [ { \"points\": [] } ] /* one box */ }\n";
    write_file(path, text);
    Session session;
    session.open(path);
    CHECK(session.text() == text);
    CHECK_FALSE(session.moves_comments());
    session.set_value("/job/title", Node::make_text("Sluice"));
    CHECK(session.moves_comments());
    CHECK_THROWS_AS(session.save_as(path), BadInput);
    CHECK(read_file(path) == text);
    CHECK(session.dirty());
    session.undo();
    session.save_as(path); // nothing changed
    CHECK(read_file(path) == text);
}

TEST_CASE("the comments of a request go along to another file, and stay in it") {
    const ScratchFolder folder;
    write_file(folder.file("commented.json"), "{ \"format\": \"backplate-request/1\", // first\n"
                                              "  /* and second */ \"boxes\": [] }\n");
    Session session;
    session.open(folder.file("commented.json"));
    session.set_value("/job/title", Node::make_text("Sluice // no comment"));
    const std::string path = folder.file("new.json");
    session.save_as(path);
    CHECK_FALSE(session.dirty());
    CHECK(read_file(path).starts_with("// first\n/* and second */\n{"));
    CHECK(parse_json(path, read_file(path)).root == *session.request());
    session.set_value("/job/title", Node::make_text("Weir"));
    CHECK_FALSE(session.moves_comments());
    session.save_as(path);
    CHECK(read_file(path).starts_with("// first\n/* and second */\n{"));
    Session other;
    CHECK_THROWS_AS(other.save_as(path), BadInput); // has other comments: none
}

TEST_CASE("a file that cannot be used leaves the session as it is") {
    const ScratchFolder folder;
    Session session;
    session.set_value("/job/title", Node::make_text("Kept"));
    write_file(folder.file("broken.json"), "{ \"format\": ");
    CHECK_THROWS_AS(session.open(folder.file("broken.json")), BadInput);
    CHECK_THROWS_AS(session.open(folder.file("absent.json")), BadInput);
    CHECK(session.title() == "Kept");
    CHECK(session.can_undo());
}

TEST_CASE("a tree put in place of the request is a step of its own every time") {
    Session session;
    Node one = *session.request();
    one.member("boxes").items[0].member("name") = Node::make_text("A");
    Node two = one;
    two.member("boxes").items[0].member("name") = Node::make_text("B");
    session.replace(one);
    session.replace(two);
    session.replace(two); // the same: no step
    session.undo();
    CHECK(text_at(session, "/boxes/0/name") == "A");
    session.undo();
    CHECK(text_at(session, "/boxes/0/name") == "CP1");
    CHECK_FALSE(session.can_undo());
}

TEST_CASE("what a draft kept stands one step after what its file holds") {
    const ScratchFolder folder;
    const std::string file = folder.file("bid.json");
    Session first;
    first.set_value("/job/title", Node::make_text("as saved"));
    first.save_as(file);
    first.set_value("/job/title", Node::make_text("as kept"));
    Session second;
    second.open(file);
    second.recover(*first.request(), file);
    CHECK(text_at(second, "/job/title") == "as kept");
    CHECK(second.dirty());
    CHECK(second.file() == file);
    second.undo();
    CHECK(text_at(second, "/job/title") == "as saved");
    CHECK_FALSE(second.dirty());
}

TEST_CASE("a draft whose file is gone stands alone and keeps the name") {
    Session session;
    Node request = blank_request();
    request.member("job") = Node::make_object();
    session.recover(request, "/nowhere/bid.json");
    CHECK(*session.request() == request);
    CHECK(session.file() == "/nowhere/bid.json");
    CHECK(session.dirty());
}

TEST_CASE("a duplicate leaves out the days and the enquiry") {
    Session session;
    for (const char* key : {"title", "date", "due", "enquiry", "client"})
        session.set_value(std::string("/job/") + key, Node::make_text(key));
    const Node copy = duplicate_request(*session.request());
    CHECK(at_pointer(copy, "/job/title")->text == "title (copy)");
    CHECK(at_pointer(copy, "/job/client")->text == "client");
    for (const char* key : {"/job/date", "/job/due", "/job/enquiry"})
        CHECK(at_pointer(copy, key) == nullptr);
}

TEST_CASE("what a draft kept is one step with the fields that were confirmed") {
    Session session;
    Node changed = *session.request();
    changed.member("spare") = Node::make_object();
    session.recover(changed, "", {"spare/percent"});
    CHECK(session.confirmed() == std::set<std::string>{"spare/percent"});
    CHECK(session.dirty());
    session.undo();
    CHECK(session.confirmed().empty());
    CHECK_FALSE(session.can_undo());
    session.recover(*session.request(), "", {}); // nothing to bring back
    CHECK_FALSE(session.can_undo());
    session.recover(*session.request(), "", {"site"}); // confirmed and nothing else
    CHECK(session.dirty());
}
