#include <cmath>

#include <fmt/format.h>

#include "site_file/keys.hpp"
#include "site_file/section_readers.hpp"

namespace spadework::site_file {

namespace {

constexpr MethodKind method_kinds[] = {MethodKind::open_cut, MethodKind::plough, MethodKind::narrow_trench,
                                       MethodKind::bore};

/// The keys that all ways of laying cable have.
void read_common(Fields& fields, OpeningMethod& method) {
    method.labour_hours_per_metre = fields.number("labour");
    method.plant_per_metre = fields.price("plant");
    method.material_per_metre = fields.price("material");
    method.set_up = fields.money("set-up");
    method.pull_hours_per_metre = fields.number("pull");
}

OpeningMethod read_method(Fields fields) {
    OpeningMethod method;
    method.id = fields.id("id");
    const int kind = fields.choice("kind");
    if (kind >= 0) method.kind = method_kinds[kind];
    read_common(fields, method);
    method.reinstatement_per_metre = fields.price("reinstatement");
    method.depth = fields.length("depth");
    method.duct_per_metre = fields.price("duct");
    return method;
}

/// Text of an item's id for its path, before the item is read: the id, or its number in the list.
std::string label_of(const Document& document, NodeId item, std::size_t number) {
    const NodeId id = document.find(item, "id");
    if (id != no_node && document.at(id).kind == NodeKind::scalar) return document.at(id).text;
    return std::to_string(number);
}

/// Makes opening a metre so many times as dear.
void make_harder(OpeningMethod& method, double difficulty) {
    const auto times = [difficulty](UnitPrice price) {
        return UnitPrice::from_thousandths(std::llround(static_cast<double>(price.thousandths()) * difficulty));
    };
    method.labour_hours_per_metre *= difficulty;
    method.plant_per_metre = times(method.plant_per_metre);
    method.material_per_metre = times(method.material_per_metre);
    method.reinstatement_per_metre = times(method.reinstatement_per_metre);
}

Ground read_ground(Fields fields, const std::string& id, Reading& reading) {
    Ground ground;
    ground.id = id;
    ground.name = fields.text("name");
    if (ground.name.empty()) ground.name = id;
    const double difficulty = fields.number("difficulty");
    NameIndex ids("method of ground " + quoted(id) + " named");
    for (const NodeId item : fields.items("methods")) {
        Fields method = fields.item("methods", item, label_of(fields.document(), item, ground.methods.size()));
        const SourcePosition where = method.position("id");
        ground.methods.push_back(read_method(std::move(method)));
        if (difficulty != 1) make_harder(ground.methods.back(), difficulty);
        const std::string& method_id = ground.methods.back().id;
        if (!method_id.empty()) ids.add(method_id, 0, where, reading);
    }
    return ground;
}

}  // namespace

void read_grounds(const Section& section, Reading& reading, Draft& draft) {
    if (section.node == no_node) return;
    const Document& document = *section.document;
    const std::vector<NodeId> children = document.children(section.node);
    if (document.at(section.node).kind != NodeKind::mapping || children.empty()) {
        reading.error(document.position(section.node),
                      fmt::format("grounds is {}", children.empty() ? "empty" : description(document.at(section.node))),
                      "a mapping of names, each describing a ground");
        return;
    }
    for (std::size_t i = 0; i + 1 < children.size(); i += 2) {
        const Node& name = document.at(children[i]);
        const SourcePosition where = document.position(children[i]);
        const std::string problem = name.kind == NodeKind::scalar ? problem_of_id(name.text) : "not a text";
        if (!problem.empty()) {
            reading.error(where, fmt::format("name of a ground is {}, {}", description(name), problem),
                          "one line of text, at most 200 bytes");
        }
        if (!draft.grounds.add(name.text, static_cast<int>(draft.scenario.grounds.size()), where, reading)) continue;
        Fields fields(reading, document, children[i + 1], ground_record(), "grounds[" + name.text + "]");
        draft.scenario.grounds.push_back(read_ground(std::move(fields), name.text, reading));
    }
}

OpeningMethod read_existing_duct(Fields fields) {
    OpeningMethod method;
    read_common(fields, method);
    method.id = "existing duct";
    method.kind = MethodKind::existing_duct;
    return method;
}

OpeningMethod read_pole_line(Fields fields) {
    OpeningMethod method;
    read_common(fields, method);
    method.id = "pole line";
    method.kind = MethodKind::pole_line;
    return method;
}

}  // namespace spadework::site_file
