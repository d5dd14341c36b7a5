#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "pricing/request/node.h"
#include "pricing/values/date.h"
#include "pricing/values/finding.h"
#include "pricing/values/money.h"

namespace backplate {

enum class SpareBasis { of_used, of_installed };
enum class SpareKind { unstated, wired, installed, slot };

/// A figure for every signal with exceptions.
template <class Value> struct BySignal {
    Value fallback{};
    std::map<std::string, Value> exceptions;
    Value of(const std::string& signal) const {
        const auto found = exceptions.find(signal);
        return found == exceptions.end() ? fallback : found->second;
    }
};

struct SpareRule {
    SpareBasis basis = SpareBasis::of_used;
    BySignal<Percent> percent;
    BySignal<int> minimum_channels, minimum_modules;
    SpareKind kind = SpareKind::unstated;
    bool over_job = false;
    bool stated = false; ///< something of it was sent
    /// Spare channels are wired to terminals (unstated counts as wired).
    bool wired() const { return kind == SpareKind::wired || kind == SpareKind::unstated; }
};

struct ListedPoint {
    std::string tag, text, device;
};

/// Points that come with an assembly: so many for each piece of it.
struct AssemblyPoints {
    std::size_t assembly = 0; ///< place in the box's assemblies, for pointers
    int quantity = 0;
    std::string rule, per_piece; ///< `table/row` and its value
};

/// Points of one signal with equal needs.
struct PointLine {
    std::string signal;
    int count = 0;
    std::string wiring;
    double amps = 0;
    std::optional<double> volts;
    Percent on_together = Percent::whole(100);
    bool fed_from_box = false;
    std::string via; ///< empty: wired direct
    bool isolated = false, hart = false;
    std::string id, note;
    std::vector<ListedPoint> list;
    std::size_t index = 0;                     ///< place in the box's points, for pointers
    std::optional<AssemblyPoints> of_assembly; ///< empty: a line of the request itself
};

struct Equipment {
    std::string part, text; ///< exactly one
    int quantity = 1;
    std::string where; ///< rail, plate, door, outside; empty: from the price book, else rail
    std::optional<double> volts, amps; ///< at another voltage than the control supply's
    std::string current;               ///< of these: ac, dc; empty: none
    std::optional<double> watts, amps_24v, width_mm, height_mm, depth_mm;
    std::optional<Money> price;
    std::optional<Hours> hours;
    std::size_t index = 0;
};

struct Site {
    double ambient_low_c = 5, ambient_high_c = 40;
    double humidity_percent = 85, altitude_m = 1000;
    std::string place, dust, corrosion, protection, mounting;
    std::vector<std::string> approvals;
    std::optional<double> max_width_mm, max_height_mm, max_depth_mm;
    double volts = 230;
    int phases = 1;
    double hz = 50;
    bool neutral = true;
    int feeds = 1;
    std::optional<double> fault_current_ka;
};

/// A ready assembly of the rule tables: points, parts, wires and hours in one.
struct AskedAssembly {
    std::string name;
    int quantity = 1;
    std::size_t index = 0;
};

struct KeptPart {
    std::string part;
    int quantity = 1;
};

struct ReplacedPart {
    std::string part, by;
};

/// Whose box it is.
enum class EnclosureChoice { choose, part, by_client, plate_only, existing_plate };

struct Choices {
    std::vector<std::string> platforms;
    std::vector<KeptPart> keep;
    std::vector<std::string> exclude;
    std::vector<ReplacedPart> replace;
    std::vector<std::string> prefer_makers;
    bool in_stock_only = false, redundant_supply = false, redundant_controller = false;
    bool separate_output_supply = false; ///< switched loads on a supply of their own
    double backup_minutes = 0;
    Percent room, future_load;
    std::optional<double> inside_max_c;
    std::string cooling = "any", material = "any";
    EnclosureChoice enclosure = EnclosureChoice::choose;
    std::string enclosure_part;                     ///< where it is `part`, else empty
    double plate_width_mm = 0, plate_height_mm = 0; ///< where it is `existing_plate`
};

struct BoxWork {
    int screens = 0, soft_points = 0, network_devices = 0, loops = 0;
    std::string repeat_of; ///< another box, whose one-off hours count for this one too
};

/// Where the controller of a box's stations is: in the box, in another one, or nowhere (a box with
/// equipment only).
enum class ControlledBy { own, other_box, none };

/// The line between a box and its controller.
struct Link {
    std::string medium;
    double length_m = 0;
};

struct Box {
    std::string name;
    int quantity = 1;   ///< in the job: the stated one, times the systems it belongs to
    int per_system = 1; ///< as stated
    ControlledBy controlled_by = ControlledBy::own;
    std::size_t controller_box = 0; ///< place of the box with the controller; its own where none
    Link link;                      ///< counts where another box has the controller
    std::vector<PointLine> points;
    std::vector<AskedAssembly> assemblies;
    BoxWork work;
    Site site;
    std::vector<Equipment> equipment;
    Choices choices;
    std::size_t index = 0;
};

struct Commercial {
    std::optional<Percent> margin, markup; ///< exactly one stands after defaults
    Percent concession, contingency;
    std::optional<Money> target_price;
    std::optional<Percent> tax;
    std::string delivery_term;
};

struct ScopeOfSupply {
    std::string drawings, software, works_test, commissioning, packing, transport, documents;
    int languages = 1;
    double witness_days = 0, site_days = 0;
};

struct BidRequest;

/// A variant that is priced beside the base and never inside it.
struct AskedOption {
    std::string title, kind;                   ///< kind: instead, added, omitted
    std::shared_ptr<const BidRequest> changed; ///< the whole job with its change, no options
};

/// Values of a saved job that came from another one and that nobody confirmed yet.
struct Inherited {
    int job = 0; ///< number of the template
    int count = 0;
    std::string places{}; ///< parts of the request with the number of their values
};

/// Where a request is saved, and the parts that the revision it was made from rests on.
struct SavedAs {
    int job = 0, revision = 0; ///< job 0: not numbered yet
    int from_job = 0,
        from_revision = 0; ///< the template of a copy, or the revision before; 0: none
    std::vector<std::string> from_parts{};
};

/// A checked request: every value present, within its range, and equal to `filled`.
struct BidRequest {
    Node sent;   ///< as it came
    Node filled; ///< with every default, echoed in the estimate
    std::vector<Assumption> assumptions;
    std::optional<SavedAs> saved;       ///< nothing: not out of the library
    std::optional<Inherited> inherited; ///< nothing: no saved copy, or all of it confirmed

    std::string title, client, enquiry, prepared_by;
    Date date;
    std::optional<Date> due;
    int valid_days = 30;
    std::optional<int> deliver_weeks;
    std::string currency = "EUR";
    bool north_america = false;
    bool inch = false;
    int estimate_class = 3;
    SpareRule spare;
    ScopeOfSupply scope;
    std::vector<Box> boxes;
    std::vector<std::string> circumstances;
    Commercial commercial;
    std::vector<AskedOption> options;
    std::uint32_t seed = 1;
};

/// One fault of a request: where and what was expected.
struct RequestFault {
    std::string where; ///< JSON pointer
    std::string text;  ///< "'DX' is no signal; nearest: DI"
};

} // namespace backplate
