// spadework schema: the JSON Schema of the site file.

#include "site_file/json_schema.hpp"
#include "spadework/command.hpp"
#include "spadework/options.hpp"
#include "spadework/standard_output.hpp"

namespace spadework {

Command add_schema_command(CLI::App& program) {
    CLI::App& syntax =
        add_command(program, "schema", "Print the JSON Schema of the site file, for editors that complete and check");
    return {&syntax, [] {
                print(site_file::json_schema());
                return ExitCode::ok;
            }};
}

}  // namespace spadework
