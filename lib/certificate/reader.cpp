#include "certificate/reader.hpp"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "certificate/seal.hpp"
#include "diagnostics/shown_text.hpp"
#include "plan_file/plan_words.hpp"
#include "strands/strand_need.hpp"

namespace spadework::certificate {

namespace {

constexpr Range any_money{-1'000'000'000'000'000'000, 1'000'000'000'000'000'000};

bool is_of_the_format(const JsonValue& value, Problems& problems) {
    for (const auto& [key, member] : value.members) {
        if (key == "format" && member.text != "spadework-certificate") {
            problems.add(member, in_words(member), "text 'spadework-certificate'");
        }
        if (key == "version" && (member.kind != JsonKind::number || member.number != format_version)) {
            problems.add(member, "a certificate of version " + in_words(member),
                         fmt::format("version {}", format_version));
        }
    }
    return problems.none();
}

/// Why the certificate is of another site; "" when it is of this one.
std::string how_site_differs(const Scenario& scenario, const Certificate& certificate) {
    if (certificate.site_name != scenario.name) {
        return fmt::format("it is of the site {}, not of '{}'", shown(certificate.site_name, 200), scenario.name);
    }
    if (certificate.site_digest != scenario.digest) {
        return fmt::format("the site's files have changed since: digest {} then, {} now", certificate.site_digest,
                           scenario.digest);
    }
    return "";
}

/// A checksum as it is written: no more than 16 hexadecimal digits.
std::string checksum_text(const JsonValue& value, Problems& problems) {
    const std::string digits = text(value, problems);
    if (digits.size() > 16 || digits.find_first_not_of("0123456789abcdef") != std::string::npos) {
        problems.add(value, in_words(value), "a checksum of 16 hexadecimal digits");
    }
    return digits;
}

void read_head(const Fields& fields, const Scenario& scenario, Certificate& certificate, Problems& problems) {
    const Fields site(fields["site"], {"name", "digest"}, problems);
    certificate.site_name = text(site["name"], problems);
    certificate.site_digest = checksum_text(site["digest"], problems);
    for (const JsonValue& layout : items(fields["certified_together"], problems))
        certificate.all.push_back(read_layout(layout, problems));
    certificate.layout = read_layout(fields["layout"], problems);
    const JsonValue& currency = fields["currency"];
    if (text(currency, problems) != scenario.currency.code) {
        problems.add(currency, in_words(currency), "'" + scenario.currency.code + "', as in the site");
    }
    certificate.total = Money::from_minor(whole(fields["total"], any_money, problems));
    certificate.bound = Money::from_minor(whole(fields["bound"], any_money, problems));
    certificate.direct_bound = Money::from_minor(whole(fields["direct_bound"], any_money, problems));
}

constexpr const char* lines_key = "straight_lines";

/// The keys that a certificate has to have: straight lines only where there are any, strand uses only where the site's
/// rules leave them to the price.
std::vector<const char*> keys_of(const JsonValue& value, const Scenario& scenario) {
    std::vector<const char*> keys = {"format", "version", "site",  "currency",     "certified_together",
                                     "layout", "total",   "bound", "direct_bound", "plan",
                                     "proof",  "seal"};
    const bool has_lines = std::any_of(value.members.begin(), value.members.end(),
                                       [](const auto& member) { return member.key == lines_key; });
    if (has_lines) keys.push_back(lines_key);
    if (scenario.rules.either_strand_use) keys.insert(keys.end(), {"strand_use", "other_strand_use"});
    return keys;
}

StrandUse read_strand_use(const JsonValue& value, Problems& problems) {
    for (const StrandUse use : {StrandUse::duplex, StrandUse::bidirectional}) {
        if (value.kind == JsonKind::text && value.text == name_of(use)) return use;
    }
    problems.add(value, in_words(value), "one of duplex, bidirectional");
    return StrandUse::duplex;
}

/// What bounds the strand use that the plan does not have; its proof is read on the site where plans have that one.
OtherUseProof read_other_use(const JsonValue& value, const Scenario& map, Problems& problems) {
    const Fields fields(value, {"strand_use", "proof"}, problems);
    OtherUseProof other;
    other.use = read_strand_use(fields["strand_use"], problems);
    other.impossible = fields["proof"].kind == JsonKind::null;
    if (!other.impossible) other.proof = read_proof(fields["proof"], settled_on(map, other.use), problems);
    return other;
}

/// Plan and proofs, each on the site of its strand use.
void read_content(const Fields& fields, const Scenario& map, Certificate& certificate, Problems& problems) {
    certificate.plan = read_plan(fields["plan"], map, certificate.layout, problems);
    certificate.plan.strand_use = map.rules.strand_use;
    if (!map.rules.either_strand_use) {
        certificate.proof = read_proof(fields["proof"], map, problems);
        return;
    }
    certificate.plan.strand_use = read_strand_use(fields["strand_use"], problems);
    certificate.proof = read_proof(fields["proof"], settled_on(map, certificate.plan.strand_use), problems);
    certificate.other_use = read_other_use(fields["other_strand_use"], map, problems);
}

/// The site with the lines over open ground that the certificate speaks of; the site itself where there are none.
const Scenario& map_with_lines(const Fields& fields, const Scenario& scenario, ReadCertificate& read,
                               Problems& problems) {
    if (fields[lines_key].kind == JsonKind::null) return scenario;
    read.lines = read_straight_lines(fields[lines_key], scenario, problems);
    if (!problems.none()) return scenario;
    read.with_lines = std::make_shared<const Scenario>(open_ground::with_straight_lines(scenario, read.lines));
    return *read.with_lines;
}

std::string how_seal_differs(std::string_view file_text, const std::string& seal) {
    const std::string made = checksum(file_text.substr(0, file_text.rfind(seal_key)));
    if (made == seal) return "";
    return fmt::format("the file is not as it was written: its seal is {}, its text makes {}", seal, made);
}

}  // namespace

LayoutKind read_layout(const JsonValue& value, Problems& problems) {
    const auto layout = value.kind == JsonKind::text ? plan_file::layout_with(value.text) : std::nullopt;
    if (!layout)
        problems.add(value, in_words(value), fmt::format("one of {}", fmt::join(plan_file::layout_ids(), ", ")));
    return layout.value_or(LayoutKind::home_runs);
}

ReadCertificate read_certificate(const Scenario& scenario, const std::string& file, std::string_view file_text) {
    ReadCertificate read;
    if (file_text.size() > largest_file_bytes) {
        read.diagnostics.push_back({{file, 0, 0}, Severity::error, "more than 64 MiB", "a smaller file", {}});
        return read;
    }
    const auto value = json::parse_object(file, file_text, "a certificate", read.diagnostics);
    if (!value) return read;
    Problems problems(file);
    if (is_of_the_format(*value, problems)) {
        const Fields fields(*value, keys_of(*value, scenario), problems);
        Certificate certificate;
        read_head(fields, scenario, certificate, problems);
        const std::string seal = checksum_text(fields["seal"], problems);
        if (problems.none()) read.other_site = how_site_differs(scenario, certificate);
        if (read.other_site.empty()) {
            const Scenario& map = map_with_lines(fields, scenario, read, problems);
            read_content(fields, map, certificate, problems);
        }
        if (problems.none()) {
            read.broken_seal = how_seal_differs(file_text, seal);
            read.certificate = std::move(certificate);
        }
    }
    read.diagnostics = problems.list();
    return read;
}

}  // namespace spadework::certificate
