// Writes the demo scenario into a folder: an orthophoto, land records, a site list, lines, an older fence set, and the
// document that is drawn over them. The content is always the same; nothing of it is real.

#include "alder_reach/document.h"
#include "alder_reach/land_records.h"
#include "alder_reach/orthophoto.h"
#include "alder_reach/scene.h"
#include "store/document_file.h"

#include <gdal.h>

#include <exception>
#include <filesystem>
#include <iostream>

int main(int count, char** arguments) {
    if (count != 2) {
        std::cerr << "Usage: make_alder_reach FOLDER\n";
        return 2;
    }
    try {
        const std::filesystem::path folder{arguments[1]};
        std::filesystem::create_directories(folder);
        const auto file = [&](const char* name) { return (folder / name).string(); };
        GDALAllRegister();
        const alder_reach::Scene scene = alder_reach::makeScene();
        alder_reach::writeParcels(scene, file("alder-reach-parcels.gpkg"));
        alder_reach::writeSites(scene, file("alder-reach-sites.csv"));
        alder_reach::writeLines(scene, file("alder-reach-lines.geojson"));
        alder_reach::writeOlderFences(scene, file("older-fences.geojson"));
        fencewright::store::saveDocument(alder_reach::makeFenceSet(scene), file("alder-reach.gpkg"));
        alder_reach::writeOrthophoto(scene, file("alder-reach-ortho.tif"));
    } catch (const std::exception& error) {
        std::cerr << error.what() << '\n';
        return 1;
    }
    return 0;
}
