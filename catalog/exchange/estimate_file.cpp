#include "catalog/exchange/estimate_file.h"

#include <algorithm>
#include <map>

#include "catalog/exchange/node_reader.h"
#include "catalog/exchange/request_json.h"
#include "pricing/values/faults.h"

namespace backplate {
namespace {

constexpr std::int64_t most = 1'000'000'000;

int count_of(const NodeReader& reader) { return static_cast<int>(reader.whole(0, most)); }

std::int64_t pieces(std::int64_t quantity, std::int64_t boxes) {
    return multiply_divide(quantity, boxes, 1, Rounding::half_away);
}

/// Decimals of an amount as it is printed.
int digits_of(const std::string& amount) {
    const auto point = amount.find('.');
    return point == std::string::npos ? 0 : static_cast<int>(amount.size() - point - 1);
}

class Reader {
public:
    Reader(const std::string& name, const Node& root) : root_(name, root) {}

    EstimateRecord read() {
        const NodeReader format = root_.member("format");
        if (format.text() != "backplate-estimate/1") format.refuse("\"backplate-estimate/1\"");
        EstimateRecord record;
        const NodeReader issue = root_.member("issue");
        record.prices_issue = static_cast<int>(issue.member("prices").whole(0, most));
        record.rules_issue = static_cast<int>(issue.member("rules").whole(0, most));
        record.due = of_request("/job/due");
        record.title = of_request("/job/title");
        record.demo_data = root_.member("demo_data").flag();
        read_boxes(record);
        read_points(record);
        for (const NodeReader& each : root_.member("assumptions").items())
            record.assumptions.push_back({each.member("field").text(), each.member("text").text()});
        if (root_.member("buildable").flag()) record.priced = priced();
        return record;
    }

private:
    std::string of_request(const char* pointer) {
        const Node* found = at_pointer(root_.member("request").node(), pointer);
        return found && found->is(Node::Kind::text) ? found->text : std::string();
    }

    void read_points(EstimateRecord& record) {
        for (const NodeReader& each : root_.member("points").items()) {
            const NodeReader fitted = each.member("fitted");
            record.points.push_back(
                {each.member("box").text(), each.member("signal").text(),
                 count_of(each.member("used")), count_of(each.member("required")),
                 fitted.is_null() ? std::nullopt : std::optional(count_of(fitted)),
                 static_cast<int>(boxes_of(each))});
        }
    }

    void read_boxes(EstimateRecord& record) {
        for (const NodeReader& box : root_.member("boxes").items()) {
            const std::string name = box.member("name").text();
            record.boxes.push_back(name);
            boxes_[name] = box.member("quantity").whole(1, most);
            for (const NodeReader& module : box.member("modules").items())
                record.modules.push_back(
                    {name, module.member("part").text(), count_of(module.member("quantity"))});
        }
    }

    /// How often the box is built that the entry belongs to.
    std::int64_t boxes_of(const NodeReader& entry) const {
        const auto boxes = boxes_.find(entry.member("box").text());
        if (boxes == boxes_.end()) entry.member("box").refuse("the name of a box");
        return boxes->second;
    }

    PricedLine bill_line(const NodeReader& line) {
        const std::string box = line.member("box").text(),
                          part = line.member("part").text_or_null();
        const std::string described = line.member("description").text();
        return {box,
                (part.empty() ? described : part) + ", " + line.member("role").text(),
                part.empty() ? described : part + ", " + described,
                pieces(line.member("quantity").whole(0, most), boxes_of(line)),
                line.member("unit_net").money_or_null(),
                line.member("line_all").money_or_null().value_or(Money{}),
                part};
    }

    static PricedLine labour_line(const NodeReader& line) {
        const std::string activity = line.member("activity").text();
        return {line.member("box").text_or_null(),
                activity,
                activity + ", " + line.member("class").text(),
                line.member("hours").hours().steps(),
                line.member("rate").money(),
                line.member("cost").money()};
    }

    PricedJob priced() {
        PricedJob job;
        const NodeReader price = root_.member("price");
        job.currency = price.member("currency").text();
        for (const NodeReader& line : root_.member("bill").items())
            job.bill.push_back(bill_line(line));
        for (const NodeReader& line : root_.member("labour").items())
            job.labour.push_back(labour_line(line));
        job.freight = price.member("freight").money();
        job.contingency = price.member("contingency").money();
        job.overhead = price.member("overhead").money();
        job.margin = price.member("margin").money();
        job.concession = price.member("concession").money();
        job.rounding = price.member("rounding").money();
        job.price = price.member("price").money();
        job.digits = std::min(digits_of(price.member("price").text()), Money::places);
        if (!adds_up(job)) price.member("price").refuse("the sum of bill, labour and price chain");
        return job;
    }

    NodeReader root_;
    std::map<std::string, std::int64_t> boxes_; ///< quantity by name
};

} // namespace

EstimateRecord read_estimate(const std::string& name, const std::string& text) {
    const ParsedJson parsed = parse_json(name, text);
    try {
        return Reader(name, parsed.root).read();
    } catch (const OverflowError&) {
        throw BadInput(name + ": /price: amounts are too large, expected sums within their range");
    }
}

} // namespace backplate
