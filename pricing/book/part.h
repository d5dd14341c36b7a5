#pragma once

#include <optional>
#include <string>
#include <vector>

#include "pricing/values/date.h"
#include "pricing/values/money.h"
#include "pricing/values/units.h"

namespace backplate {

/// Some channels of a module that share their properties.
struct ChannelGroup {
    int channels = 0;
    std::vector<std::string> signals; ///< what each channel may serve, one at a time
    double channel_a = 0;           ///< inputs: own current drawn; outputs and loops: most it gives
    std::optional<double> common_a; ///< most that all channels of the group give together
    bool isolated = false;          ///< channel from channel
    bool hart = false;
    bool one_signal = false; ///< selectable group by group: all its channels serve one signal
    std::string condition;   ///< in words; the match holds only under it
    friend bool operator==(const ChannelGroup&, const ChannelGroup&) = default;
};

struct Accessory {
    std::string part;
    int quantity = 1;
    friend bool operator==(const Accessory&, const Accessory&) = default;
};

/// A documented combination: with this part before it the article stands so much.
struct Combination {
    std::string part;
    double ka = 0;
    friend bool operator==(const Combination&, const Combination&) = default;
};

/// A net price worked out once for a part that changes no more. A copy knows none, for it may
/// change.
class KnownNet {
public:
    KnownNet() = default;
    KnownNet(const KnownNet&) noexcept {}
    KnownNet& operator=(const KnownNet&) noexcept {
        known_ = false;
        return *this;
    }
    void keep(std::optional<Money> net) {
        net_ = net;
        known_ = true;
    }
    bool known() const { return known_; }
    std::optional<Money> net() const { return net_; }
    friend bool operator==(const KnownNet&, const KnownNet&) { return true; }

private:
    std::optional<Money> net_;
    bool known_ = false;
};

/// What an article is and does: two that are equal in all of it serve a panel alike. Electrical,
/// thermal and size data are of one piece; what a data sheet does not state stays empty and is
/// never read as 0 without a finding.
struct PartFacts {
    std::string kind;     ///< a word of the kinds in part_fields
    std::string function; ///< what it does within its kind, as rule rows name it: "relay, slim"
    std::string platform; ///< controllers, heads, feeds, modules; "compact" where not stated
    std::string unit = "piece";
    std::string approvals; ///< words of site.approvals, joined by ;
    std::string practice;  ///< iec, north_america, or empty: both

    // size
    std::optional<double> width_mm, height_mm, depth_mm;
    double length_mm = 2000; ///< rail, duct: one piece (usual length, electrical-facts 4)

    // electrical and thermal
    std::optional<double> own_a; ///< own current at 24 V, channels apart
    std::optional<double> own_w; ///< own heat where it is not own_a × 24 V (cooling, mains devices)
    std::vector<ChannelGroup> groups;
    int places = 0;       ///< controllers, heads: places it gives; modules, feeds: places it takes
    double bus_ma = 0;    ///< controllers, heads, feeds: gives; modules: takes
    int stations_max = 0; ///< controllers: heads it may lead
    std::vector<Accessory> accessories;
    std::optional<double> rated_a; ///< supplies, breakers, channels, switches
    std::string efficiency_row;    ///< supplies: row group of the loss table
    std::optional<double> rated_ka;
    std::vector<Combination> combinations; ///< documented short-circuit ratings behind other parts
    std::optional<double> tight_factor;    ///< supplies: of the rating, others close beside it
    std::optional<double> inrush_a;        ///< supplies: peak current when switched on
    std::optional<double> min_c, max_c;
    std::optional<double> input_min_v, input_max_v;
    int phases = 1;
    std::optional<int> poles; ///< breakers, switches: conductors opened; empty: as many as phases
    std::string input_form;   ///< of the mains: ac, dc, ac_dc; empty: ac
    std::optional<double> section_mm2; ///< wires: cross-section; terminals: largest that fits
    std::optional<double> output_v;    ///< supplies, transformers; empty: 24 V DC
    std::optional<double> rated_va;    ///< transformers
    std::optional<double> capacity_wh; ///< backup: usable energy of one piece
    bool pair = false;                 ///< controllers: two of them may run as a redundant pair

    // enclosures and cooling
    std::string ip_mark;   ///< IP54, IP66/IP67 …
    std::string type_mark; ///< Type 12 …
    std::string material;
    std::string finish;                 ///< row of the solar table: "light grey"
    std::string mounting;               ///< wall or floor
    std::optional<double> prep_minutes; ///< enclosures: in place of the row "prepare enclosure"
    double cutout_factor = 1;           ///< enclosures: on the minutes of every opening
    std::optional<double> plate_width_mm, plate_height_mm, usable_depth_mm;
    std::string stage;                   ///< cooling: the stage it makes
    std::optional<double> flow_m3h;      ///< installed flow, with filter and outlet
    std::optional<double> cooling_w;     ///< useful cooling at 35/35 °C
    std::optional<double> cooling_hot_w; ///< cooling units: the same at 35 °C inside, 50 °C outside
    std::optional<double> cooling_w_k;   ///< air exchangers: useful cooling per kelvin at sea level
    friend bool operator==(const PartFacts&, const PartFacts&) = default;
};

/// One article of the price book: its name and terms of purchase beside what it is and does.
struct Part : PartFacts {
    std::string key;
    std::string description;
    std::string maker;

    // price
    std::optional<Money> list;
    std::vector<Percent> discounts;
    std::optional<Date> price_date;
    std::optional<Date> valid_until;
    std::optional<int> lead_days;
    int pack = 1;
    int minimum_order = 1;    ///< pieces
    std::optional<int> stock; ///< pieces in the shop's own store
    std::string rest_to;      ///< stock or job
    std::string state = "current";
    std::string successor;
    bool allowance = false; ///< a figure by hand, without an offer behind it
    bool demo = false;
    KnownNet known_net; ///< kept by the price book

    /// Is the word among its approvals.
    bool states_approval(const std::string& word) const;
    /// Net price of one piece to ten-thousandths; nothing where no price is known.
    std::optional<Money> net() const { return known_net.known() ? known_net.net() : net_anew(); }
    /// The same from list price and discounts as they stand.
    std::optional<Money> net_anew() const;
    friend bool operator==(const Part&, const Part&) = default;
};

/// A named channel group's text form, "DI*8" or "AI_MA|AI_V|RTD*4@0.025": signals * channels @
/// channel_a / common_a + isolated + hart + one_signal + if(condition). Used by the CSV and the
/// editor.
std::optional<std::vector<ChannelGroup>> parse_groups(const std::string& text);
std::string groups_text(const std::vector<ChannelGroup>& groups);

} // namespace backplate
