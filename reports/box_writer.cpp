#include "reports/box_writer.h"

namespace backplate {

void BoxWriter::box_members(const BoxResult& box) {
    json_.text("name", box.name);
    integer("quantity", box.quantity);
    json_.number("batch_factor",
                 steps_text(multiply_divide(box.batch, 1, 1000, Rounding::half_away), 3));
    list("modules", box.modules, [this](const ModuleResult& module) {
        json_.text("part", module.part);
        json_.text("role", module.role);
        integer("quantity", module.quantity);
    });
    stations(box);
    list("supplies", box.supplies, [this](const SupplyResult& supply) { supply_members(supply); });
    heat(box);
    enclosures(box);
    incoming(box);
    if (box.terminals)
        integer("terminals", *box.terminals);
    else
        json_.null("terminals");
    if (box.wires)
        integer("wires", *box.wires);
    else
        json_.null("wires");
    if (!buildable_) {
        unknown("price", {"material", "labour", "price"});
        return;
    }
    json_.begin_object("price");
    money("material", box.material);
    money("labour", box.labour);
    money("price", box.price);
    json_.end_object();
}

void BoxWriter::stations(const BoxResult& box) {
    list("stations", box.stations, [this](const StationResult& station) {
        json_.text("name", station.name);
        list("places", station.places, [this](const PlaceResult& place) {
            json_.text("part", place.part);
            list("channels", place.channels, [this](const ChannelResult& channel) {
                integer("number", channel.number);
                integer("group", channel.group);
                json_.text_or_null("signal", channel.signal);
                json_.text_or_null("tag", channel.tag);
                json_.text_or_null("device", channel.device);
                json_.flag("spare", channel.spare);
                json_.text_or_null("fed_from", channel.fed_from);
            });
        });
    });
}

void BoxWriter::supply_members(const SupplyResult& supply) {
    json_.text("group", supply.group);
    physics("load_a", supply.load.value, 2);
    physics("load_all_on_a", supply.load_all_on.value, 2);
    physics("required_a", supply.required, 2);
    physics("rated_a", supply.rated.value, 2);
    json_.text("part", supply.part);
    integer("quantity", supply.quantity);
    json_.text("arrangement", supply.arrangement);
    physics("air_c", supply.air);
    json_.begin_object("derating");
    physics("temperature", supply.derating.temperature, 3);
    physics("altitude", supply.derating.altitude, 3);
    physics("input", supply.derating.input, 3);
    physics("mounting", supply.derating.mounting, 3);
    physics("utilisation", supply.derating.utilisation, 3);
    json_.end_object();
    if (!supply.parts.empty()) part_counts("parts", supply.parts); // beyond the contract
    if (supply.group != "other_voltage") return;
    physics("volts", supply.volts);
    json_.text("current", supply.alternating ? "ac" : "dc");
    if (supply.selection_va) physics("selection_va", *supply.selection_va);
    if (supply.primary) physics("primary_a", supply.primary->value, 2);
    if (supply.secondary) physics("secondary_a", supply.secondary->value, 2);
}

void BoxWriter::heat(const BoxResult& box) {
    if (!buildable_) {
        unknown("heat", {"inside_w", "mid_c", "top_c", "second_method_top_c", "stage", "parts"});
        return;
    }
    json_.begin_object("heat");
    physics("inside_w", box.heat.inside.value);
    physics("mid_c", box.heat.mid);
    physics("top_c", box.heat.top);
    physics("second_method_top_c", box.heat.second_method_top);
    json_.text_or_null("stage", box.heat.stage);
    part_counts("parts", box.heat.parts);
    if (box.heat.flow_m3h) physics("flow_m3h", box.heat.flow_m3h); // beyond the contract
    if (!box.heat.passed_over.empty())
        list("passed_over", box.heat.passed_over, [this](const PassedStage& passed) {
            json_.text("stage", passed.stage);
            json_.text_or_null("part", passed.part);
            json_.text("reason", passed.reason);
        });
    json_.end_object();
}

void BoxWriter::enclosures(const BoxResult& box) {
    list("enclosures", box.enclosures, [this](const EnclosureResult& enclosure) {
        json_.text_or_null("part", enclosure.part);
        integer("quantity", enclosure.quantity);
        physics("width_mm", enclosure.width_mm);
        physics("height_mm", enclosure.height_mm);
        physics("depth_mm", enclosure.depth_mm);
        json_.text_or_null("protection", enclosure.protection);
        json_.text_or_null("material", enclosure.material);
        physics("room_left_percent", enclosure.room_left_percent);
        if (enclosure.width_mm) return;
        physics("plate_width_mm", enclosure.plate_width_mm); // beyond the contract
        physics("plate_height_mm", enclosure.plate_height_mm);
    });
}

void BoxWriter::protection(const BoxResult& box) { // beyond the contract: the 24 V channels
    if (!box.protection) return unknown("protection", {"part", "channels"});
    json_.begin_object("protection");
    json_.text("part", box.protection->part);
    integer("channels", box.protection->channels);
    json_.end_object();
}

void BoxWriter::incoming(const BoxResult& box) {
    if (box.incoming) {
        json_.begin_object("incoming");
        physics("load_a", box.incoming->load.value, 2);
        physics("device_a", box.incoming->device.value, 2);
        json_.text("conductor", box.incoming->conductor);
        json_.text("part", box.incoming->part);
        physics("conductor_a", box.incoming->conductor_ampacity.value,
                2); // beyond the contract, as what follows
        physics("supply_wire_a", box.incoming->supply_wire_a, 2);
        physics("bending_mm", box.incoming->bending_mm);
        json_.end_object();
    } else {
        unknown("incoming", {"load_a", "device_a", "conductor", "part", "conductor_a",
                             "supply_wire_a", "bending_mm"});
    }
    protection(box);
    if (!box.short_circuit) {
        unknown("short_circuit", {"stated_ka", "weakest_part", "basis"});
        return;
    }
    json_.begin_object("short_circuit");
    physics("stated_ka", box.short_circuit->stated_ka);
    json_.text("weakest_part", box.short_circuit->weakest_part);
    json_.text("basis", box.short_circuit->basis);
    json_.end_object();
}

} // namespace backplate
