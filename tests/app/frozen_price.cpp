// The cost step over a frozen design with one line of the bill changed:
//   frozen_price REQUEST LINE unit_net|quantity VALUE    prints the price
// The design stays as the request asked; only that line's figure is another. For comparing with a
// workbook whose same cell was changed.
#include <exception>
#include <iostream>
#include <string>

#include "app/inputs.h"
#include "app/request_input.h"
#include "pricing/cost/bill.h"
#include "pricing/cost/roll_up.h"
#include "pricing/price_job.h"

int main(int count, char** words) {
    using namespace backplate;
    if (count != 5) return 2;
    try {
        const Inputs inputs = load_inputs(":starter:");
        const BidRequest request = read_request(words[1], inputs);
        Work work;
        Estimate estimate = price_job(request, *inputs.prices, *inputs.rules, work);
        BillLine& line = estimate.bill.at(std::stoul(words[2]) - 1);
        if (std::string(words[3]) == "quantity")
            line.quantity = std::stoll(words[4]);
        else
            line.unit_net = Money::parse(words[4]).value();
        const int digits = inputs.rules->digits_of(request.currency);
        reprice(estimate.bill, estimate.labour, request, *inputs.rules, digits);
        const PriceResult price = roll_up(estimate.bill, estimate.labour, request, *inputs.rules);
        std::cout << price.price.text(digits) << "\n";
        return 0;
    } catch (const std::exception& fault) {
        std::cerr << fault.what() << "\n";
        return 1;
    }
}
