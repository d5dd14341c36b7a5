#pragma once

#include <cmath>
#include <initializer_list>
#include <optional>
#include <stdexcept>
#include <string>
#include <type_traits>
#include <vector>

#include "pricing/job/estimate.h"
#include "reports/json_writer.h"

namespace backplate {

/// Writes figures as the contract prints them: money as text in `digits`, physics with so many
/// decimals, unknown as null. Throws std::logic_error where a figure is not finite.
class FigureWriter {
public:
    explicit FigureWriter(int digits) : digits_(digits) {}

protected:
    template <class Items, class Write>
    void list(const char* key, const Items& items, const Write& write) {
        json_.begin_list(key);
        for (const auto& item : items) {
            json_.begin_object();
            write(item);
            json_.end_object();
        }
        json_.end_list();
    }
    void integer(const char* key, std::int64_t value) { json_.number(key, steps_text(value, 0)); }
    void physics(const char* key, double value, int places = 1) {
        if (!std::isfinite(value)) throw std::logic_error(std::string(key) + " is not finite");
        json_.number(key, number_text(value, places));
    }
    template <class Quantity>
    void physics(const char* key, const std::optional<Quantity>& value, int places = 1) {
        if (!value)
            json_.null(key);
        else if constexpr (std::is_arithmetic_v<Quantity>)
            physics(key, *value, places);
        else
            physics(key, value->value, places);
    }
    void part_counts(const char* key, const std::vector<PartCount>& parts) {
        list(key, parts, [this](const PartCount& part) {
            json_.text("part", part.part);
            integer("quantity", part.quantity);
        });
    }
    void money(const char* key, const std::optional<Money>& value) {
        json_.text_or_null(key, value ? value->text(digits_) : std::string());
    }
    void unit_money(const char* key, const std::optional<Money>& value) {
        json_.text_or_null(key, value ? value->unit_text(digits_) : std::string());
    }

    void difference(const char* key, const std::optional<Difference>& difference) {
        if (!difference)
            return unknown(key, {"price", "width_mm", "height_mm", "inside_w", "hours", "lead_days",
                                 "part_kinds"});
        json_.begin_object(key);
        money("price", difference->price);
        physics("width_mm", difference->width_mm);
        physics("height_mm", difference->height_mm);
        physics("inside_w", difference->inside_w);
        json_.number("hours", difference->hours.text());
        if (difference->lead_days)
            integer("lead_days", *difference->lead_days);
        else
            json_.null("lead_days");
        integer("part_kinds", difference->part_kinds);
        json_.end_object();
    }

    /// An object whose members nothing is known of: its keys stay.
    void unknown(const char* key, std::initializer_list<const char*> members) {
        json_.begin_object(key);
        for (const char* member : members) json_.null(member);
        json_.end_object();
    }

    JsonWriter json_;

private:
    int digits_;
};

} // namespace backplate
