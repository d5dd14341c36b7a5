// Parts of an earlier bid that are delivered no more: trade-practice 5, pain points 9 and 22.
#include <algorithm>
#include <catch2/catch.hpp>

#include "pricing/price_job.h"
#include "reports/wording.h"
#include "tests/pricing/sample_books.h"

using namespace backplate;

TEST_CASE("parts that a job was built from before and that are gone are named, none else") {
    BidRequest request = request_of(box_request(R"({"signal": "DI", "count": 8})"));
    request.saved = SavedAs{8, 1, 7, 2, {"KT-FUU", "VC-208", "ZZ-1"}};
    const PriceBook book = demo_book();
    const auto said = [&] {
        Work work;
        const Estimate estimate = price_job(request, book, starter_rules(), work);
        const auto finding = std::ranges::find(estimate.findings, "PART_GONE", &Finding::code);
        return finding == estimate.findings.end() ? std::string()
                                                  : finding_text(*finding, starter_rules());
    };
    CHECK(said() == "VC-208, built into job 7 revision 2, is discontinued and not chosen any more; "
                    "its successor is VC-201. Also: ZZ-1 (no part of the price book, successor not "
                    "named).");
    request.saved->from_parts = {"KT-FUU"}; // current, though this job needs none
    CHECK(said().empty());
    request.saved.reset();
    CHECK(said().empty());
}
