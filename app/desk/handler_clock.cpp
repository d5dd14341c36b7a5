#include "app/desk/handler_clock.h"

#include <ctime>

namespace backplate {
namespace {

SlowestHandler slowest;
double inside = 0; // milliseconds of the handlers that ended inside the running one

double processor_ms() {
    std::timespec now{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) / 1e6;
}

} // namespace

const SlowestHandler& slowest_handler() { return slowest; }

HandlerClock::HandlerClock(const wchar_t* event)
    : event_(event), began_(processor_ms()), inside_before_(inside) {
    inside = 0;
}

HandlerClock::~HandlerClock() {
    const double taken = processor_ms() - began_;
    if (taken - inside > slowest.milliseconds) slowest = {taken - inside, std::wstring(event_)};
    inside = inside_before_ + taken;
}

} // namespace backplate
