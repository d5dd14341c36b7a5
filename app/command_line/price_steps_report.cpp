#include "app/command_line/price_steps_report.h"

#include <fmt/format.h>

#include "app/command_line/counted.h"
#include "reports/price_steps_text.h"

namespace backplate {
namespace {

class Report {
public:
    explicit Report(const PriceResult& price) : price_(price) {}

    std::string signal(const PriceSteps& found) const {
        std::string text =
            fmt::format("  {} {}{}, {} now{}: {}\n", found.box, found.signal,
                        found.id.empty() ? "" : " (" + found.id + ")", counted(found.used, "point"),
                        found.boxes == 1 ? "" : fmt::format(" in each of {} boxes", found.boxes),
                        free_points(found));
        for (const PriceStep& step : found.steps) text += line(step, found);
        return text;
    }

private:
    std::string amount(Money money) const {
        return money.rounded(price_.digits).text(price_.digits);
    }

    std::string each(const std::optional<Money>& price) const {
        return price ? " at " + amount(*price) + " each" : "";
    }

    std::string free_points(const PriceSteps& found) const {
        if (found.free_points == 0) return "the next one is a step";
        const bool end = found.steps.empty();
        return fmt::format("{}{} without a step{}", end ? "at least " : "",
                           counted(found.free_points, "further point"), each(found.point_price));
    }

    static std::string with(const PriceStep& step) {
        return "with " + std::to_string(step.points) + " more";
    }

    std::string line(const PriceStep& step, const PriceSteps& found) const {
        const std::string before = step.point_price && &step != &found.steps.front()
                                       ? " (those before it" + each(step.point_price) + ")"
                                       : "";
        if (!step.price)
            return fmt::format("    {}: {}{}\n", with(step), step_text(step, found.box), before);
        const Money more = *step.difference();
        return fmt::format("    {}: {} ({}{}): {}{}\n", with(step), amount(*step.price),
                           more < Money() ? "" : "+", amount(more), step_text(step, found.box),
                           before);
    }

    const PriceResult& price_;
};

} // namespace

std::string price_steps_report(const FoundSteps& found, const PriceResult& price) {
    std::string text;
    const Report report(price);
    for (const PriceSteps& signal : found.signals)
        if (signal.looked_at > 0) text += report.signal(signal);
    if (text.empty()) return {};
    return fmt::format(
        "\nFurther points, price of the job with each ({} whole panels priced; points "
        "between steps take wiring, software and test, before rounding)\n{}",
        found.runs, text);
}

} // namespace backplate
