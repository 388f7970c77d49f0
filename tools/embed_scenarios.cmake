# Writes a C++ source that holds the shipped scenario files as text:
#   cmake -D FOLDER=… -D FILES=a.yaml,b.geojson -D OUTPUT=… -P embed_scenarios.cmake
string(REPLACE "," ";" files "${FILES}")
set(source "// Made from the files in scenarios/ by tools/embed_scenarios.cmake.\n#include \"spadework/shipped_files.hpp\"\n\n")
string(APPEND source "namespace spadework {\n\nconst std::vector<ShippedFile>& shipped_files() {\n")
string(APPEND source "    static const std::vector<ShippedFile> files = {\n")
foreach(file IN LISTS files)
  file(READ ${FOLDER}/${file} text)
  string(APPEND source "{\"${file}\", R\"shipped-file(${text})shipped-file\"},\n")
endforeach()
string(APPEND source "    };\n    return files;\n}\n\n}  // namespace spadework\n")
file(WRITE ${OUTPUT} "${source}")
