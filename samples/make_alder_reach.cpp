// Writes the demo scenario into a folder: an orthophoto, land records, a site list, lines, an older fence set, and the
// document that is drawn over them. Always the same bytes of content; nothing of it is real.

#include "alder_reach/orthophoto.h"
#include "alder_reach/scene.h"

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
        GDALAllRegister();
        const alder_reach::Scene scene = alder_reach::makeScene();
        alder_reach::writeOrthophoto(scene, (folder / "alder-reach-ortho.tif").string());
    } catch (const std::exception& error) {
        std::cerr << error.what() << '\n';
        return 1;
    }
    return 0;
}
