#include "world/support/programs.hpp"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <unistd.h>

namespace spadework {

namespace {

/// A folder of its own that goes away again.
class ScratchFolder {
public:
    ScratchFolder() {
        std::string path = (std::filesystem::temp_directory_path() / "spadework-world-XXXXXX").string();
        if (mkdtemp(path.data()) != nullptr) path_ = path;
    }
    ~ScratchFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;

    std::string file(const std::string& name) const { return (path_ / name).string(); }

private:
    std::filesystem::path path_;
};

/// The number that follows the last place where `before` stands in the text.
std::optional<double> number_after(const std::string& text, const std::string& before) {
    const std::size_t at = text.rfind(before);
    if (at == std::string::npos) return std::nullopt;
    return std::strtod(text.c_str() + at + before.size(), nullptr);
}

std::string text_of(const std::string& path) {
    std::ifstream in(path);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

}  // namespace

bool has_program(const std::string& name) {
    return std::system(("command -v " + name + " >/dev/null 2>&1").c_str()) == 0;
}

std::optional<double> minimum_by_glpsol(const std::string& lp) {
    const ScratchFolder folder;
    std::ofstream(folder.file("problem.lp")) << lp;
    const std::string command = "glpsol --lp " + folder.file("problem.lp") + " --tmlim 60 -o " +
                                folder.file("solution.txt") + " >/dev/null 2>&1";
    if (std::system(command.c_str()) != 0) return std::nullopt;
    const std::string solution = text_of(folder.file("solution.txt"));
    if (solution.find("INTEGER OPTIMAL") == std::string::npos) return std::nullopt;
    return number_after(solution, "Objective:  cost = ");
}

std::optional<double> minimum_by_cbc(const std::string& lp) {
    const ScratchFolder folder;
    std::ofstream(folder.file("problem.lp")) << lp;
    const std::string command = "cbc " + folder.file("problem.lp") + " sec 60 ratio 0 solve solu " +
                                folder.file("solution.txt") + " >/dev/null 2>&1";
    if (std::system(command.c_str()) != 0) return std::nullopt;
    const std::string solution = text_of(folder.file("solution.txt"));
    if (solution.rfind("Optimal", 0) != 0) return std::nullopt;
    return number_after(solution, "objective value");
}

}  // namespace spadework
