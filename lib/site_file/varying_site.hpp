#pragma once

// A site at other values than the likely ones. The file is parsed once; setting values reads again no more than the
// sections that hold them, with the reader that read them first, so that a site with a value set is the site of a file
// with that number in it.

#include <deque>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "diagnostics/diagnostic.hpp"
#include "scenario/range.hpp"
#include "scenario/scenario.hpp"
#include "site_file/document.hpp"
#include "site_file/moved_figures.hpp"
#include "site_file/reading.hpp"
#include "site_file/sources.hpp"

namespace spadework::site_file {

/// A place or segment of the map that holds a range.
struct MapItem {
    std::string id;
    NodeId node = no_node;
    bool is_place = false;
};

/// The parts of a site file that hold values which change.
struct VaryingParts {
    Section grounds, existing_duct, pole_line, catalogue, labour, rules, growth;
    const Document* map = nullptr;
    std::vector<MapItem> items;
};

/// The whole site with numbers in place of some of those written, or nothing where they make errors.
using SiteAgain = std::function<std::optional<Scenario>(const Replacements&)>;

class VaryingSite {
public:
    /// The ranges in reading order; every key once.
    [[nodiscard]] const std::vector<UncertainValue>& values() const { return values_; }
    /// Whether any of them is a length, so that routes and cables change with it and not prices alone.
    [[nodiscard]] bool lengths_vary() const { return lengths_vary_; }

    /// Sets all ranges in a scenario read from this file; it may have more segments by now. One number a range, in the
    /// units of the file, within the range. Any number of threads may do so at a time.
    void set(std::span<const double> numbers, Scenario& scenario) const;

    /// Sets numbers of the file, ranges or not, each by its key as `check --show-defaults` lists it; all others are
    /// those of the file. What is wrong with them, or nothing; then the scenario is as it was. Of the map's places,
    /// segments and areas only the ranges have keys: those of values().
    Diagnostics set_keys(const std::vector<std::pair<std::string, double>>& numbers, Scenario& scenario) const;

private:
    friend std::shared_ptr<const VaryingSite> varying_site(const Document& main, Sources& sources,
                                                           const SiteAgain& again, Scenario& scenario,
                                                           Reading& reading);

    void read_again(const VaryingParts& parts, bool keys, Reading& reading, Scenario& scenario) const;
    void read_grounds_again(const Section& section, Reading& reading, Scenario& scenario) const;
    void learn_parts(const Document& main, Sources& sources, const Reading& reading);
    void learn_dearer_grounds(const Scenario& scenario);
    void reach_the_rest(const SiteAgain& again, const Scenario& scenario, Reading& reading);
    void check_extremes(const Document& main, Scenario scenario, Reading& reading) const;

    /// A ground with what overlays make dearer in it: index into the grounds as read, and by how much.
    struct DearerGround {
        std::string id;
        std::size_t like = 0;
        UnitPrice extra;
    };

    std::deque<Document> documents_;
    std::vector<FoundRange> found_;
    std::vector<UncertainValue> values_;
    bool lengths_vary_ = false;
    bool feet_ = false;
    Currency currency_;
    VaryingParts all_;      ///< Every section there is.
    VaryingParts touched_;  ///< Those that hold ranges.
    MovedFigures moved_;    ///< By ranges of a map that is worked out of what the file says.
    std::vector<DearerGround> dearer_;
};

/// Keeps what is needed of a file just read without errors; where it has ranges, the scenario's note says so. Reports
/// ranges that may not stand where they do. Takes the documents from the sources.
std::shared_ptr<const VaryingSite> varying_site(const Document& main, Sources& sources, const SiteAgain& again,
                                                Scenario& scenario, Reading& reading);

}  // namespace spadework::site_file
