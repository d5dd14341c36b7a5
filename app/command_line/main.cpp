#include <exception>
#include <iostream>

#include "app/command_line/arguments.h"
#include "app/command_line/commands.h"
#include "pricing/values/faults.h"
#include "pricing/values/work.h"

namespace {

void print_chain(const std::exception& fault) {
    std::cerr << fault.what();
    try {
        std::rethrow_if_nested(fault);
    } catch (const std::exception& cause) {
        std::cerr << ": ";
        print_chain(cause);
    }
}

int failed(const std::exception& fault, int status) {
    std::cerr << "backplate: ";
    print_chain(fault);
    std::cerr << "\n";
    return status;
}

} // namespace

/// The one place where faults become words and exit statuses.
int main(int count, char** words) {
    using namespace backplate;
    try {
        const Parsed parsed = parse_arguments(count, words);
        if (parsed.run) return parsed.run();
        (parsed.status == done ? std::cout : std::cerr) << parsed.text;
        return parsed.status;
    } catch (const BadInput& fault) {
        return failed(fault, bad_input);
    } catch (const OutsideFault& fault) {
        return failed(fault, outside_failed);
    } catch (const Stopped& fault) {
        return failed(fault, interrupted);
    } catch (const std::exception& fault) {
        std::cerr << "backplate: a fault of the program itself: ";
        print_chain(fault);
        std::cerr << "\nNothing was written.\n";
        return outside_failed;
    }
}
