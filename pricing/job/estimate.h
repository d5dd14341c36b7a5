#pragma once

#include <optional>
#include <string>
#include <vector>

#include "pricing/request/bid_request.h"
#include "pricing/values/basis.h"
#include "pricing/values/finding.h"
#include "pricing/values/money.h"
#include "pricing/values/units.h"

namespace backplate {

/// What the estimate says of one signal in one box.
struct PointResult {
    std::string box, signal;
    int used = 0, required = 0, fitted = 0, headroom = 0;
};

struct ModuleResult {
    std::string part, role; ///< controller, head, feed, module
    int quantity = 0;
};

/// A channel of a module; numbers count from 1, in the order of its groups.
struct ChannelResult {
    int number = 0, group = 0;
    std::string signal;      ///< empty: idle, no signal of the box may use it
    std::string tag, device; ///< of the point; empty: none stated
    bool spare = false;      ///< no point stands on it
    std::string fed_from;    ///< what feeds the field device: box or field; empty: idle
};

struct PlaceResult {
    std::string part;
    std::vector<ChannelResult> channels;
};

struct StationResult {
    std::string name;
    std::vector<PlaceResult> places;
};

struct Derating {
    std::optional<double> temperature; ///< unknown where the air at the supply is
    double altitude = 1, input = 1, mounting = 1, utilisation = 1;
};

struct PartCount {
    std::string part;
    int quantity = 0;
};

struct SupplyResult {
    std::string group = "all";
    Amperes load, load_all_on, rated; ///< rated: of n units where n plus one
    std::optional<Amperes> required;
    std::string part;
    int quantity = 1;
    std::string arrangement = "single"; ///< single, parallel, one_plus_one, n_plus_one
    std::optional<Celsius> air;
    Derating derating;
    std::vector<PartCount> parts; ///< decoupling, backup, protection of a group of its own
    double volts = 24;            ///< of the loads
    bool alternating = false;
    std::optional<double> selection_va;        ///< of a control transformer
    std::optional<Amperes> primary, secondary; ///< ratings of its protection
};

/// A cheaper stage of cooling than the one taken, and why it was passed over.
struct PassedStage {
    std::string stage, part; ///< part: empty for a sealed box
    std::string reason;
};

struct HeatResult {
    Watts inside;
    std::optional<Celsius> mid, top, second_method_top; ///< nothing where the box is unknown
    Celsius limit;                ///< lowest limit of a part, less the reserve
    std::string stage = "sealed"; ///< empty: no verdict
    std::vector<PartCount> parts;
    std::vector<PassedStage> passed_over;
    std::optional<double> flow_m3h; ///< of filter fans, with clogged filters
};

struct EnclosureResult {
    std::string part;                                    ///< empty: the client's
    int quantity = 1;                                    ///< above 1: a suite, side by side
    std::optional<double> width_mm, height_mm, depth_mm; ///< of each
    std::string protection, material;                    ///< empty: unknown
    double room_left_percent = 0;
    double plate_width_mm = 0, plate_height_mm = 0;
};

/// What a device is fixed to. `inside`: nothing of its own (it states no size on the rail, stands
/// on another device or hangs in the box).
enum class Face { plate, door, wall, inside };

/// A device in its place; millimetres from the upper left corner of its face.
struct PlacedDevice {
    std::string id; ///< letter of its class and number, once in a box: "Q1", "A3"; terminals "X1:7"
    std::string part; ///< empty: equipment by text
    std::string text;
    std::string kind; ///< of the part; equipment by text: "equipment"
    std::string band; ///< mains, supply, platform, other, terminals; empty off the plate
    Face face = Face::plate;
    bool placed = true; ///< false: its size is not stated, or its face has no room left for it
    int row = 0;        ///< in Layout::rows
    int enclosure = 0;  ///< of a suite, from the left
    int station = -1, place = -1; ///< in BoxResult::stations
    double x_mm = 0, y_mm = 0, width_mm = 0, height_mm = 0, depth_mm = 0;
    bool round = false; ///< in the door: the part states a height and no width
};

/// A row of a plate between two ducts. Its rail lies in its middle.
struct LayoutRow {
    int enclosure = 0;
    double y_mm = 0, height_mm = 0;
    double used_mm = 0; ///< of the rail, clearances, partitions and ends of strips included
    bool terminals = false;
};

/// Terminals side by side under one name.
struct TerminalStrip {
    std::string id;
    bool mains = false; ///< incoming conductors and signals at mains voltage
    int row = 0, pieces = 0;
    double x_mm = 0, width_mm = 0; ///< with its ends
};

/// A station that goes on in a further row, where its bus needs an extension.
struct BusBreak {
    int station = 0, row = 0; ///< row: the one it goes on in
};

/// Plate below the lowest duct.
struct FreePlate {
    double y_mm = 0, height_mm = 0;
};

/// Where everything stands. Rails are as long as the plate is wide, less the side ducts and a
/// clearance; the rows of terminals are the lowest, and below them the cables enter.
struct Layout {
    double plate_width_mm = 0, plate_height_mm = 0, duct_mm = 0, rail_mm = 0;
    double rail_x_mm = 0;
    std::vector<FreePlate> free; ///< of every plate; a suite has one in each enclosure
    std::vector<LayoutRow> rows; ///< from the top, then those of the next plate
    std::vector<TerminalStrip> strips;
    std::vector<BusBreak> breaks;
    std::vector<PlacedDevice> devices;
    double deepest_mm = 0, deepest_door_mm = 0;
    std::optional<double> usable_depth_mm; ///< nothing: a plate without a box
};

/// A load behind a 24 V channel.
struct DistributedLoad {
    std::string text;     ///< part, or signal with its channels
    Amperes current;      ///< everything on
    bool goes_on = false; ///< the rest of it stands at another channel
};

/// A 24 V channel with what it feeds.
struct DistributedGroup {
    std::size_t supply = 0; ///< place in BoxResult::supplies of what feeds it
    std::string id;         ///< of the channel in the layout; empty: before the channels
    std::string part;       ///< empty: before the channels
    Amperes rated;
    std::vector<DistributedLoad> loads;
};

struct IncomingResult {
    Amperes load, device;
    std::string conductor, part;
    Amperes conductor_ampacity;          ///< where it lies
    std::optional<double> supply_wire_a; ///< what the 24 V wires of a supply carry where they lie
    std::optional<double> bending_mm;    ///< room at its terminals; nothing: none is asked
};

/// 24 V channels of the box.
struct ProtectionResult {
    std::string part;
    int channels = 0;
};

/// Basis: weakest_part, stated_current (the client's value was kept to), combination (a documented
/// one raises it), default_value (of a rule row), not_determined (weakest_part states no rating).
struct ShortCircuitResult {
    std::optional<double> stated_ka;
    std::string weakest_part, basis;
};

struct BoxResult {
    std::string name;
    int quantity = 1;
    std::vector<ModuleResult> modules;
    std::vector<StationResult> stations;
    std::vector<SupplyResult> supplies;
    HeatResult heat;
    std::vector<EnclosureResult> enclosures;
    std::optional<IncomingResult> incoming;
    std::optional<ProtectionResult> protection;
    std::optional<ShortCircuitResult> short_circuit;
    std::optional<int> terminals, wires;
    Layout layout;
    std::vector<DistributedGroup> distribution; ///< of the 24 V
    std::int64_t batch = 1000000;  ///< hours that learn of all boxes in those of one, millionths
    Money material, labour, price; ///< of all boxes of the kind; price: their share of the job's
};

struct SystemResult {
    std::string name, platform;
    std::vector<std::string> boxes;
    bool proven_cheapest = true;
    Money bound_gap;
};

struct BillLine {
    int line = 0;
    std::string box, part, description, role;
    std::int64_t quantity = 0;
    std::string unit = "piece";
    std::optional<Money> list, unit_net, line_net, line_all;
    std::optional<Date> price_date;
    std::optional<int> lead_days;
    std::string note;
    std::string charge; ///< rule that adds the line; empty: an article, equipment, sundries
    std::optional<Percent> share; ///< of a charge in percent, or of the sundries
    std::string share_of;         ///< material, labour or direct
    std::optional<Date> valid_until;
    int months_uncovered = 0; ///< months of the offer after the end of the price's validity
    std::string maker;
    std::int64_t to_buy = 0;       ///< pieces for all boxes, in packs and minimum orders
    std::int64_t rest_charged = 0; ///< pieces of it beyond the need that the job pays
    bool allowance = false;        ///< no offer stands behind the price
};

struct LabourLine {
    std::string box; ///< empty: the job
    std::string activity, work_class;
    Hours once, each, hours; ///< each: one box before learning; hours: the job
    Money rate, cost;
    double low_cost = 0, high_cost = 0; ///< for the range only
};

struct PriceResult {
    std::string currency;
    int digits = 2;
    Money material, freight, labour, direct, contingency, overhead, cost, margin, concession,
        rounding, price;
    std::optional<Money> tax;
    Money p50, p80, base;
};

struct RatioResult {
    std::string name, unit;
    double value = 0, low = 0, high = 0;
    int digits = 2;
};

/// A sentence of the offer.
struct OfferText {
    std::string section; ///< scope, option, exclusion, assumption, caution, terms
    std::string subject, text;
    std::string rule;                    ///< texts/ROW
    std::string box;                     ///< empty: the whole job, or every box alike
    std::vector<std::string> instead_of; ///< findings whose caution it says already
};

/// Price of one more point of a signal in one box.
struct UnitPrice {
    std::string box, signal;
    Money price;                      ///< in a channel that is fitted and free
    std::optional<Money> with_module; ///< with a further module; nothing where none carries it now
    std::string module;
    Money direct; ///< direct cost behind the price
    std::optional<Money> direct_with_module;
};

/// What another whole panel of the same job changes.
struct Difference {
    Money price;
    std::optional<double> width_mm;  ///< of all boxes side by side; nothing where one is unknown
    std::optional<double> height_mm; ///< of the highest box
    std::optional<double> inside_w;  ///< heat of all boxes
    Hours hours;
    std::optional<int> lead_days; ///< of the part that takes longest
    int part_kinds = 0;           ///< different parts on the bill
};

/// An option of the request, priced by a run of its own.
struct OptionResult {
    std::string title, kind;
    bool buildable = true;
    std::optional<Money> price; ///< of the whole job with the option
    std::optional<Difference> difference;
    std::string limits;  ///< why nothing builds it
    std::string offered; ///< the title for the client: parts by description, not by key
};

struct Estimate {
    int prices_issue = 1, rules_issue = 1;
    bool demo_data = false;
    bool buildable = true;
    BidRequest request;
    std::vector<Finding> findings; ///< gravest first
    std::vector<PointResult> points;
    std::vector<SystemResult> systems;
    std::vector<BoxResult> boxes;
    std::vector<BillLine> bill;
    std::vector<LabourLine> labour;
    std::optional<int> delivery_weeks;
    std::string critical_part;
    std::optional<PriceResult> price; ///< nothing where nothing builds it
    std::vector<RatioResult> ratios;
    std::vector<OfferText> offer_texts; ///< none where nothing builds it
    std::vector<UnitPrice> unit_prices; ///< where the circumstances ask for them
    std::vector<OptionResult> options;  ///< in the order of the request
    std::vector<BasisEntry> basis;
};

} // namespace backplate
