#include "bench/data/orthophoto.h"

#include <gdal_priv.h>
#include <ogr_spatialref.h>
#include <tiffio.h>

#include <algorithm>
#include <memory>
#include <stdexcept>
#include <string>

namespace fencewright::bench {
namespace {

constexpr int kBlock = 512;

struct CloseTiff {
    void operator()(TIFF* tiff) const { TIFFClose(tiff); }
};
using Tiff = std::unique_ptr<TIFF, CloseTiff>;

void require(bool done, const std::string& what) {
    if (!done)
        throw std::runtime_error{what + ": " + CPLGetLastErrorMsg()};
}

void placeInCounty(GDALDataset& dataset, double pixelMetres) {
    double geotransform[6] = {kCountyWest, pixelMetres, 0, kCountyNorth, 0, -pixelMetres};
    OGRSpatialReference utm;
    utm.importFromEPSG(32629);
    require(dataset.SetGeoTransform(geotransform) == CE_None && dataset.SetSpatialRef(&utm) == CE_None, "georeference");
}

/// The blocks of a picture as they lie in a JPEG-compressed TIFF, and the tables that they share.
struct EncodedBlocks {
    int across = 0;
    std::string tables;
    std::vector<std::string> blocks;
};

/// @param scratch  a file that is written and removed again.
EncodedBlocks encoded(const Picture& picture, const std::string& scratch) {
    const char* options[] = {"TILED=YES",       "BLOCKXSIZE=512",    "BLOCKYSIZE=512",   "COMPRESS=JPEG",
                             "JPEG_QUALITY=85", "PHOTOMETRIC=YCBCR", "INTERLEAVE=PIXEL", nullptr};
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GTiff");
    {
        GDALDatasetUniquePtr file{driver->Create(scratch.c_str(), picture.side, picture.side, 3, GDT_Byte, options)};
        require(file != nullptr, scratch);
        require(file->RasterIO(GF_Write, 0, 0, picture.side, picture.side,
                               const_cast<std::uint8_t*>(picture.pixels.data()), picture.side, picture.side, GDT_Byte,
                               3, nullptr, 3, GSpacing{3} * picture.side, 1, nullptr) == CE_None,
                scratch);
    }
    EncodedBlocks result;
    result.across = picture.side / kBlock;
    {
        const Tiff tiff{TIFFOpen(scratch.c_str(), "r")};
        require(tiff != nullptr, scratch);
        std::uint32_t size = 0;
        void* tables = nullptr;
        require(TIFFGetField(tiff.get(), TIFFTAG_JPEGTABLES, &size, &tables), "JPEG tables");
        result.tables.assign(static_cast<const char*>(tables), size);
        for (std::uint32_t block = 0; block < TIFFNumberOfTiles(tiff.get()); ++block) {
            std::string bytes(TIFFGetStrileByteCount(tiff.get(), block), '\0');
            require(TIFFReadRawTile(tiff.get(), block, bytes.data(), tmsize_t(bytes.size())) > 0, "raw tile");
            result.blocks.push_back(std::move(bytes));
        }
    }
    std::filesystem::remove(scratch);
    return result;
}

void writeLevel(TIFF* to, const EncodedBlocks& encoded, int pixels, bool overview) {
    TIFFSetField(to, TIFFTAG_SUBFILETYPE, overview ? FILETYPE_REDUCEDIMAGE : 0);
    TIFFSetField(to, TIFFTAG_IMAGEWIDTH, pixels);
    TIFFSetField(to, TIFFTAG_IMAGELENGTH, pixels);
    TIFFSetField(to, TIFFTAG_TILEWIDTH, kBlock);
    TIFFSetField(to, TIFFTAG_TILELENGTH, kBlock);
    TIFFSetField(to, TIFFTAG_BITSPERSAMPLE, 8);
    TIFFSetField(to, TIFFTAG_SAMPLESPERPIXEL, 3);
    TIFFSetField(to, TIFFTAG_PLANARCONFIG, PLANARCONFIG_CONTIG);
    TIFFSetField(to, TIFFTAG_COMPRESSION, COMPRESSION_JPEG);
    TIFFSetField(to, TIFFTAG_PHOTOMETRIC, PHOTOMETRIC_YCBCR);
    TIFFSetField(to, TIFFTAG_YCBCRSUBSAMPLING, 2, 2);
    float reference[6] = {0, 255, 128, 255, 128, 255};
    TIFFSetField(to, TIFFTAG_REFERENCEBLACKWHITE, reference);
    TIFFSetField(to, TIFFTAG_JPEGTABLES, std::uint32_t(encoded.tables.size()), encoded.tables.data());
    const int across = (pixels + kBlock - 1) / kBlock;
    for (int row = 0; row < across; ++row)
        for (int column = 0; column < across; ++column) {
            const std::string& block =
                encoded.blocks[std::size_t(row % encoded.across * encoded.across + column % encoded.across)];
            require(TIFFWriteRawTile(to, std::uint32_t(row * across + column), const_cast<char*>(block.data()),
                                     tmsize_t(block.size())) > 0,
                    "raw tile");
        }
    require(TIFFWriteDirectory(to), "directory");
}

} // namespace

void writeTiledOrthophoto(const std::filesystem::path& to, const Picture& picture, int blocks, double pixelMetres) {
    {
        const Tiff tiff{TIFFOpen(to.c_str(), "w8")};
        require(tiff != nullptr, to.string());
        Picture level = picture;
        for (int pixels = blocks * kBlock;; pixels /= 2) {
            // A period of less than a block fills one by repetition.
            writeLevel(
                tiff.get(),
                encoded(level.side < kBlock ? repeated(level, kBlock / level.side) : level, to.string() + ".encoded"),
                pixels, pixels != blocks * kBlock);
            if (pixels <= kBlock)
                break;
            level = halved(level);
        }
    }
    const GDALDatasetUniquePtr file{GDALDataset::Open(to.c_str(), GDAL_OF_RASTER | GDAL_OF_UPDATE)};
    require(file != nullptr, to.string());
    placeInCounty(*file, pixelMetres);
}

void writeStripOrthophoto(const std::filesystem::path& to, const Picture& picture, int pixels, double pixelMetres) {
    const char* options[] = {"INTERLEAVE=PIXEL", "BIGTIFF=IF_SAFER", nullptr};
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("GTiff");
    const GDALDatasetUniquePtr file{driver->Create(to.c_str(), pixels, pixels, 3, GDT_Byte, options)};
    require(file != nullptr, to.string());
    placeInCounty(*file, pixelMetres);
    std::vector<std::uint8_t> row(std::size_t(pixels) * 3);
    for (int y = 0; y < pixels; ++y) {
        const auto* source = &picture.pixels[std::size_t(y % picture.side) * std::size_t(picture.side) * 3];
        for (std::size_t x = 0; x < row.size(); x += std::size_t(picture.side) * 3)
            std::copy_n(source, std::min(row.size() - x, std::size_t(picture.side) * 3),
                        row.begin() + std::ptrdiff_t(x));
        require(file->RasterIO(GF_Write, 0, y, pixels, 1, row.data(), pixels, 1, GDT_Byte, 3, nullptr, 3, 0, 1,
                               nullptr) == CE_None,
                to.string());
    }
}

void writeCloudOptimised(const std::filesystem::path& to, const std::filesystem::path& from) {
    const GDALDatasetUniquePtr source{GDALDataset::Open(from.c_str())};
    require(source != nullptr, from.string());
    const char* options[] = {"COMPRESS=JPEG", "QUALITY=85", "BLOCKSIZE=512", "NUM_THREADS=2", nullptr};
    GDALDriver* driver = GetGDALDriverManager()->GetDriverByName("COG");
    const GDALDatasetUniquePtr file{
        driver->CreateCopy(to.c_str(), source.get(), FALSE, const_cast<char**>(options), nullptr, nullptr)};
    require(file != nullptr, to.string());
}

} // namespace fencewright::bench
