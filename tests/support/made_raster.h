#pragma once

#include <array>
#include <functional>
#include <string>
#include <vector>

namespace fencewright::test {

/// A raster to be written by GDAL, for tests that need one of a certain form.
struct MadeRaster {
    std::string driver = "GTiff";
    int width = 0, height = 0, bands = 3;
    std::string type = "Byte"; ///< or "UInt16", "Float32"
    std::string crs;           ///< "EPSG:n"; empty: none
    std::array<double, 6> geotransform{0, 1, 0, 0, 0, 1};
    bool placed = true; ///< has the geotransform
    std::vector<std::string> options;
    std::vector<std::string> colours;                    ///< of the bands, "Alpha"; empty: left to the driver
    std::vector<int> overviews;                          ///< factors
    double noData = -1;                                  ///< under 0: none
    std::function<double(int band, int x, int y)> value; ///< band from 0
    std::vector<std::array<short, 4>> palette{};         ///< red, green, blue, alpha of the first band's values
};

/// @throws std::runtime_error  GDAL cannot write it.
void make(const MadeRaster& raster, const std::string& path);

} // namespace fencewright::test
