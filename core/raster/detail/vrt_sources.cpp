#include "raster/detail/vrt_sources.h"

#include "fault.h"

#include <cpl_error.h>
#include <cpl_minixml.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <vector>

namespace fencewright::raster::detail {

namespace fs = std::filesystem;

namespace {

constexpr std::uintmax_t kLargestFile = 32U << 20;
constexpr int kDeepestElement = 64;
constexpr std::size_t kDeepestMosaic = 4;
constexpr std::size_t kMostSources = 100'000;

std::string firstBytes(const fs::path& path, std::size_t count) {
    std::ifstream file{path, std::ios::binary};
    std::string bytes(count, '\0');
    file.read(bytes.data(), static_cast<std::streamsize>(count));
    bytes.resize(static_cast<std::size_t>(std::max<std::streamsize>(file.gcount(), 0)));
    return bytes;
}

[[noreturn]] void refuse(const fs::path& mosaic, const Wording& problem) {
    throw Fault{problem, mosaic.string(),
                phrase("core", "Make the mosaic of plain images that lie in its own folder or below it.")};
}

// The formats whose drivers read nothing but the file itself. A source is opened by whichever driver recognises it, so
// the first bytes have to say which one that will be.
bool isPlainImage(const fs::path& path) {
    using namespace std::string_view_literals;
    const std::string bytes = firstBytes(path, 12);
    for (const std::string_view magic : {"II*\0"sv, "MM\0*"sv, "II+\0"sv, "MM\0+"sv, "\x89PNG\r\n"sv, "\xff\xd8\xff"sv,
                                         "\0\0\0\x0cjP  \r\n\x87\n"sv, "\xff\x4f\xff\x51"sv})
        if (bytes.compare(0, magic.size(), magic) == 0)
            return true;
    return false;
}

struct FreeXml {
    void operator()(CPLXMLNode* node) const { CPLDestroyXMLNode(node); }
};

class Inspection {
public:
    explicit Inspection(const fs::path& outermost) : m_root{fs::canonical(outermost).parent_path()} {}

    void inspect(const fs::path& mosaic) {
        const fs::path file = fs::canonical(mosaic);
        if (std::find(m_open.begin(), m_open.end(), file) != m_open.end())
            refuse(mosaic, phrase("core", "The virtual mosaic contains itself."));
        if (m_open.size() >= kDeepestMosaic)
            refuse(mosaic, phrase("core", "Virtual mosaics are nested more than %1 deep.")(kDeepestMosaic));
        if (!m_seen.insert(file).second)
            return;
        if (fs::file_size(file) > kLargestFile)
            refuse(mosaic, phrase("core", "The virtual mosaic is larger than 32 MB."));

        const std::string text = firstBytes(file, static_cast<std::size_t>(fs::file_size(file)));
        CPLPushErrorHandler(CPLQuietErrorHandler);
        const std::unique_ptr<CPLXMLNode, FreeXml> document{CPLParseXMLString(text.c_str())};
        CPLPopErrorHandler();
        if (!document)
            refuse(mosaic, phrase("core", "The virtual mosaic is not well-formed XML."));

        m_open.push_back(file);
        visit(document.get(), file, 0);
        m_open.pop_back();
    }

private:
    void visit(const CPLXMLNode* node, const fs::path& mosaic, int depth) {
        if (depth > kDeepestElement)
            refuse(mosaic, phrase("core", "The virtual mosaic has elements nested more than 64 deep."));
        for (; node; node = node->psNext) {
            if (node->eType != CXT_Element && node->eType != CXT_Attribute)
                continue;
            const std::string name = node->pszValue;
            // Every other class than the plain one computes (pixel functions, also in Python), warps, or reads raw
            // bytes.
            if (EQUAL(name.c_str(), "subClass") && node->psChild &&
                !EQUAL(node->psChild->pszValue, "VRTSourcedRasterBand"))
                refuse(
                    mosaic,
                    phrase(
                        "core",
                        "The virtual mosaic has a part of the class %1, which does more than put images side by side.")(
                        node->psChild->pszValue));
            for (const char* reaching : {"SourceDataset", "PixelFunctionType", "PixelFunctionCode", "GDALWarpOptions",
                                         "Group", "OpenOptions", "PansharpeningOptions"})
                if (EQUAL(name.c_str(), reaching))
                    refuse(mosaic, phrase("core", "The virtual mosaic has the element %1, which is not read.")(name));
            if (EQUAL(name.c_str(), "SourceFilename"))
                checkSource(node, mosaic);
            else
                visit(node->psChild, mosaic, depth + 1);
        }
    }

    void checkSource(const CPLXMLNode* node, const fs::path& mosaic) {
        if (++m_sources > kMostSources)
            refuse(mosaic, phrase("core", "The virtual mosaic has more than 100,000 sources."));
        const std::string text = CPLGetXMLValue(node, nullptr, "");
        const bool relative = std::string_view{CPLGetXMLValue(node, "relativeToVRT", "0")} == "1";
        fs::path source{text};
        if (relative && source.is_relative())
            source = mosaic.parent_path() / source;

        std::error_code failed;
        const fs::path file = fs::canonical(source, failed);
        if (failed || !fs::is_regular_file(file, failed) || failed)
            refuse(mosaic,
                   phrase("core", "The source '%1' of the virtual mosaic is not a file on this machine.")(text));
        if (std::mismatch(m_root.begin(), m_root.end(), file.begin(), file.end()).first != m_root.end())
            refuse(mosaic, phrase("core", "The source '%1' lies outside the folder of the virtual mosaic.")(text));
        if (isVirtualMosaic(file.string()))
            inspect(file);
        else if (!isPlainImage(file))
            refuse(
                mosaic,
                phrase("core", "The source '%1' of the virtual mosaic is no GeoTIFF, JPEG 2000, PNG or JPEG.")(text));
    }

    fs::path m_root;
    std::vector<fs::path> m_open;
    std::set<fs::path> m_seen;
    std::size_t m_sources = 0;
};

} // namespace

bool isVirtualMosaic(const std::string& path) {
    // GDAL looks for the word anywhere in what it reads first.
    return firstBytes(path, 4096).find("<VRTDataset") != std::string::npos;
}

void checkVirtualMosaic(const std::string& path) { Inspection{path}.inspect(path); }

} // namespace fencewright::raster::detail
