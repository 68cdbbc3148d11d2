#include "raster/detail/tile_decoding.h"

#include "fault.h"
#include "gdal/handles.h"
#include "gdal/library.h"

#include <cpl_vsi.h>
#include <gdal.h>

#include <atomic>

namespace fencewright::raster::detail {

namespace {

using namespace std::string_view_literals;

constexpr std::string_view kPng = "\x89PNG\r\n\x1a\n"sv;
constexpr std::string_view kJpeg = "\xff\xd8\xff"sv;

/// The bytes as a file that GDAL can open, as long as this lives.
class MemoryFile {
public:
    explicit MemoryFile(const std::string& bytes, const char* suffix) {
        static std::atomic<unsigned long> number{0};
        m_name = "/vsimem/fencewright-tile-" + std::to_string(++number) + suffix;
        // GDAL only reads; it does not take the bytes.
        auto* data = reinterpret_cast<GByte*>(const_cast<char*>(bytes.data()));
        VSIFCloseL(VSIFileFromMemBuffer(m_name.c_str(), data, bytes.size(), FALSE));
    }
    ~MemoryFile() { VSIUnlink(m_name.c_str()); }
    MemoryFile(const MemoryFile&) = delete;
    MemoryFile& operator=(const MemoryFile&) = delete;
    [[nodiscard]] const std::string& name() const { return m_name; }

private:
    std::string m_name;
};

[[noreturn]] void refuse(const Wording& problem, const Wording& place) {
    throw Fault{problem, place, phrase("core", "Try again; if it stays so, ask whoever runs the server.")};
}

// A word's bytes are blue, green, red, alpha.
constexpr std::size_t kBlue = 0, kGreen = 1, kRed = 2, kAlpha = 3;

std::uint8_t* bytesOf(const Pixels& pixels) { return reinterpret_cast<std::uint8_t*>(pixels.words.get()); }

std::size_t countOf(const Pixels& pixels) {
    return static_cast<std::size_t>(pixels.width) * static_cast<std::size_t>(pixels.height);
}

void readChannel(GDALRasterBandH band, const Pixels& pixels, std::size_t channel, bool& good) {
    const int side = pixels.width;
    std::uint8_t* const bytes = bytesOf(pixels);
    if (GDALGetRasterDataType(band) == GDT_Byte) {
        good = good && GDALRasterIO(band, GF_Read, 0, 0, side, side, bytes + channel, side, side, GDT_Byte, 4,
                                    4 * side) == CE_None;
        return;
    }
    std::vector<std::uint16_t> wide(static_cast<std::size_t>(side) * static_cast<std::size_t>(side));
    good = good && GDALRasterIO(band, GF_Read, 0, 0, side, side, wide.data(), side, side, GDT_UInt16, 0, 0) == CE_None;
    for (std::size_t index = 0; index < wide.size(); ++index)
        bytes[index * 4 + channel] = static_cast<std::uint8_t>(wide[index] >> 8);
}

void lookUp(GDALColorTableH palette, const Pixels& pixels) {
    const int entries = GDALGetColorEntryCount(palette);
    std::vector<GDALColorEntry> colours(256, GDALColorEntry{0, 0, 0, 0});
    for (int index = 0; index < std::min(entries, 256); ++index)
        GDALGetColorEntryAsRGB(palette, index, &colours[static_cast<std::size_t>(index)]);
    std::uint8_t* const bytes = bytesOf(pixels);
    for (std::size_t at = 0; at < countOf(pixels) * 4; at += 4) {
        const GDALColorEntry& colour = colours[bytes[at]];
        bytes[at + kBlue] = static_cast<std::uint8_t>(colour.c3);
        bytes[at + kGreen] = static_cast<std::uint8_t>(colour.c2);
        bytes[at + kRed] = static_cast<std::uint8_t>(colour.c1);
        bytes[at + kAlpha] = static_cast<std::uint8_t>(std::min<int>(bytes[at + kAlpha], colour.c4));
    }
}

/// Each pixel is the mean of four, weighted by how much of each is there.
Pixels halved(const Pixels& pixels) {
    Pixels half = pixelsOf(pixels.width / 2, pixels.height / 2, 0);
    const std::uint8_t* const bytes = bytesOf(pixels);
    std::uint8_t* const halves = bytesOf(half);
    const std::size_t row = static_cast<std::size_t>(pixels.width) * 4;
    std::size_t to = 0;
    for (int y = 0; y < half.height; ++y)
        for (int x = 0; x < half.width; ++x, to += 4) {
            const std::size_t from = static_cast<std::size_t>(y) * 2 * row + static_cast<std::size_t>(x) * 8;
            unsigned alpha = 0;
            std::array<unsigned, 3> sum{};
            for (const std::size_t corner : {from, from + 4, from + row, from + row + 4}) {
                const unsigned weight = bytes[corner + kAlpha];
                alpha += weight;
                for (std::size_t colour = 0; colour < 3; ++colour)
                    sum[colour] += weight * bytes[corner + colour];
            }
            for (std::size_t colour = 0; colour < 3; ++colour)
                halves[to + colour] = static_cast<std::uint8_t>(alpha ? (sum[colour] + alpha / 2) / alpha : 0);
            halves[to + kAlpha] = static_cast<std::uint8_t>((alpha + 2) / 4);
        }
    return half;
}

} // namespace

bool isPicture(std::string_view bytes) { return bytes.starts_with(kPng) || bytes.starts_with(kJpeg); }

Pixels decodedTile(const std::string& bytes, int side, const Wording& place, const Progress& progress) {
    progress.report(0.0, phrase("core", "Reading tiles"));
    if (!isPicture(bytes))
        refuse(phrase("core", "The server's answer is neither a PNG nor a JPEG."), place);
    gdal::prepareLibrary();
    const gdal::ErrorCapture said;
    const bool png = bytes.starts_with(kPng);
    const MemoryFile file{bytes, png ? ".png" : ".jpg"};
    const char* const drivers[] = {png ? "PNG" : "JPEG", nullptr};
    const gdal::DatasetHandle dataset{
        GDALOpenEx(file.name().c_str(), GDAL_OF_RASTER | GDAL_OF_READONLY, drivers, nullptr, nullptr)};
    if (!dataset)
        refuse(phrase("core", "The tile cannot be decoded: %1.")(
                   said.firstError("").empty() ? Wording{phrase("core", "the reason is not known")}
                                               : Wording{said.firstError("")}),
               place);
    const int width = GDALGetRasterXSize(dataset.get());
    const int height = GDALGetRasterYSize(dataset.get());
    if (width != height || (width != side && width != 2 * side))
        refuse(
            phrase("core", "The tile has %1 x %2 pixels; tiles of %3 x %4 were expected.")(width, height, side, side),
            place);

    Pixels decoded = pixelsOf(width, height, 0xffffffffU);
    const int bands = GDALGetRasterCount(dataset.get());
    GDALRasterBandH first = GDALGetRasterBand(dataset.get(), 1);
    bool good = bands >= 1 && bands <= 4;
    for (int number = 1; good && number <= 3; ++number)
        readChannel(GDALGetRasterBand(dataset.get(), bands >= 3 ? number : 1), decoded,
                    number == 1   ? kRed
                    : number == 2 ? kGreen
                                  : kBlue,
                    good);
    if (good && !(GDALGetMaskFlags(first) & GMF_ALL_VALID)) {
        GDALRasterBandH mask =
            bands == 2 || bands == 4 ? GDALGetRasterBand(dataset.get(), bands) : GDALGetMaskBand(first);
        readChannel(mask, decoded, kAlpha, good);
    }
    if (GDALColorTableH palette = good && bands == 1 ? GDALGetRasterColorTable(first) : nullptr)
        lookUp(palette, decoded);
    // A decoder that runs out of data fills the rest with grey and only warns.
    const auto& messages = said.messages();
    const auto lost = std::find_if(messages.begin(), messages.end(), [](const auto& message) {
        return message.isError || message.text.find("remature end") != std::string::npos ||
               message.text.find("Corrupt JPEG") != std::string::npos;
    });
    if (!good || lost != messages.end())
        refuse(phrase("core", "The tile cannot be decoded: %1.")(
                   lost != messages.end() ? Wording{lost->text} : Wording{phrase("core", "it is cut off or damaged")}),
               place);
    if (width != side)
        decoded = halved(decoded);
    decoded.opaque = std::all_of(decoded.words.get(), decoded.words.get() + countOf(decoded),
                                 [](std::uint32_t word) { return word >> 24 == 255; });
    return decoded;
}

} // namespace fencewright::raster::detail
