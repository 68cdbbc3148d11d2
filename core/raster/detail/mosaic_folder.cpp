#include "raster/detail/mosaic_folder.h"

#include "fault.h"
#include "gdal/library.h"
#include "raster/detail/crs_definition.h"
#include "raster/detail/gdal_pixels.h"
#include "raster/detail/open_source.h"
#include "units/number_notation.h"

#include <gdal.h>
#include <gdal_utils.h>

#include <filesystem>

namespace fencewright::raster::detail {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t kMostFiles = 20'000; // each is opened to be looked at
constexpr std::size_t kMostNotes = 50;     // as many as a person reads
constexpr double kLargestMosaic = 1e11;    // pixels
constexpr double kMostUnlike = 16;         // times larger or smaller pixels than most have
constexpr double kSquareEnough = 1e-6;     // of a pixel, over the whole of a side

struct Member {
    std::string path;
    std::string name;
    std::string crs;
    std::string bands; ///< what they hold, as a text to compare
    bool showsWhatIsMissing = false;
    double left = 0, top = 0, right = 0, bottom = 0; ///< in the CRS
    double pixelX = 0, pixelY = 0;

    [[nodiscard]] double middleX() const { return (left + right) / 2; }
    [[nodiscard]] double middleY() const { return (top + bottom) / 2; }
};

bool isGeoTiffName(const fs::path& path) {
    const std::string suffix = units::lowered(path.extension().string());
    return suffix == ".tif" || suffix == ".tiff" || suffix == ".gtiff";
}

std::string bandsOf(const GdalPixels& pixels) {
    std::string text;
    for (const BandDescription& band : pixels.header().bands)
        text += band.type + ' ' + band.colour + ' ' + (band.noData ? std::to_string(*band.noData) : "") + '\n';
    // Two palettes would give one number two colours.
    if (GDALColorTableH table = GDALGetRasterColorTable(GDALGetRasterBand(pixels.handle(), 1)))
        for (int index = 0; index < GDALGetColorEntryCount(table); ++index) {
            GDALColorEntry entry{};
            GDALGetColorEntryAsRGB(table, index, &entry);
            for (const short part : {entry.c1, entry.c2, entry.c3, entry.c4})
                text += std::to_string(part) + ' ';
        }
    return text;
}

Member look(const fs::path& path, const fs::path& folder) {
    const fs::path file = fs::canonical(path);
    if (file.parent_path() != folder)
        throw Fault{phrase("core", "it is a link that leads out of the folder"), "", ""};
    const GdalPixels pixels{file.string()};
    const Header& header = pixels.header();
    if (header.format != "GeoTIFF")
        throw Fault{phrase("core", "it is no GeoTIFF but %1")(header.format), "", ""};
    const auto& g = header.geotransform;
    if (!header.hasGeotransform)
        throw Fault{phrase("core", "it does not say where it lies"), "", ""};
    if (std::abs(g[2]) * header.height > kSquareEnough * std::abs(g[1]) ||
        std::abs(g[4]) * header.width > kSquareEnough * std::abs(g[5]) || !(g[1] > 0) || !(g[5] < 0))
        throw Fault{phrase("core", "it is turned or mirrored"), "", ""};

    Member member;
    member.path = file.string();
    member.name = path.filename().string();
    member.crs = header.crs;
    member.bands = bandsOf(pixels);
    GDALRasterBandH first = GDALGetRasterBand(pixels.handle(), 1);
    member.showsWhatIsMissing = (GDALGetMaskFlags(first) & GMF_ALL_VALID) == 0;
    member.left = g[0];
    member.top = g[3];
    member.pixelX = g[1];
    member.pixelY = -g[5];
    member.right = member.left + header.width * member.pixelX;
    member.bottom = member.top - header.height * member.pixelY;
    return member;
}

double median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

template <class Of> double medianOf(const std::vector<Member>& members, Of of) {
    std::vector<double> values;
    for (const Member& member : members)
        values.push_back(of(member));
    return median(std::move(values));
}

class Selection {
public:
    explicit Selection(const std::string& folder) : m_folder{folder} {
        const fs::path root = fs::canonical(folder);
        std::vector<fs::path> files;
        for (const fs::directory_entry& entry : fs::directory_iterator{root})
            if (isGeoTiffName(entry.path())) {
                files.push_back(entry.path());
                if (files.size() > kMostFiles)
                    throw Fault{
                        phrase("core", "There are more than 20,000 GeoTIFFs in this folder."), m_folder,
                        phrase("core", "Put them into several folders, or make a virtual mosaic (VRT) of them.")};
            }
        std::sort(files.begin(), files.end());
        for (const fs::path& file : files) {
            try {
                m_members.push_back(look(file, root));
            } catch (const Fault& fault) {
                leaveOut(file.filename().string(), fault.words().problem);
            } catch (const fs::filesystem_error& error) {
                leaveOut(file.filename().string(), phrase("core", "%1.")(error.code().message()));
            }
        }
        keepMost([](const Member& member) { return member.bands; },
                 phrase("core", "its bands are not those of most files here."));
        unifyCrs();
        keepMost([](const Member& member) { return member.crs; },
                 phrase("core", "its coordinate reference system is not that of most files here."));
        keepThoseOfLikePixels();
        keepThoseThatLieTogether();
        if (m_members.empty())
            throw Fault{
                m_firstReason.empty()
                    ? Wording{phrase("core",
                                     "There are no tiles z/x/y in this folder, and no GeoTIFF that makes a picture.")}
                    : phrase("core", "There are no tiles z/x/y in this folder, and no GeoTIFF that makes a picture: "
                                     "%1")(m_firstReason),
                m_folder, phrase("core", "Choose a folder of GeoTIFFs that lie side by side, or of tiles.")};
    }

    [[nodiscard]] const std::vector<Member>& members() const { return m_members; }
    [[nodiscard]] std::vector<Wording> notes() const {
        std::vector<Wording> notes = m_notes;
        if (m_leftOut > notes.size())
            notes.push_back(phrase("core", "And %1 more files are left out.")(m_leftOut - notes.size()));
        return notes;
    }

private:
    /// @param reason  a sentence.
    void leaveOut(const std::string& name, const Wording& reason) {
        const Wording note = phrase("core", "%1 is left out: %2")(name, reason);
        if (m_firstReason.empty())
            m_firstReason = note;
        if (m_notes.size() < kMostNotes)
            m_notes.push_back(note);
        ++m_leftOut;
    }

    template <class Condition> void keepIf(Condition keeps, const Wording& reason) {
        std::vector<Member> kept;
        for (Member& member : m_members)
            if (keeps(member))
                kept.push_back(std::move(member));
            else
                leaveOut(member.name, reason);
        m_members = std::move(kept);
    }

    template <class Of> void keepMost(Of of, const Wording& reason) {
        std::map<std::string, std::size_t> counts;
        for (const Member& member : m_members)
            ++counts[of(member)];
        // Of as many, those of the first file.
        std::string most;
        for (const Member& member : m_members)
            if (most.empty() || counts[of(member)] > counts[most])
                most = of(member);
        keepIf([&](const Member& member) { return of(member) == most; }, reason);
    }

    // The same system may be written in several ways.
    void unifyCrs() {
        std::map<std::string, std::string> known;
        for (const Member& member : m_members)
            known.try_emplace(member.crs);
        if (known.size() < 2)
            return;
        for (auto& [crs, definition] : known)
            definition = crsDefinition(crs);
        for (Member& member : m_members)
            member.crs = known[member.crs];
    }

    void keepThoseOfLikePixels() {
        if (m_members.empty())
            return;
        const double usual = medianOf(m_members, [](const Member& member) { return member.pixelX; });
        keepIf(
            [&](const Member& member) {
                return std::max({usual / member.pixelX, member.pixelX / usual, member.pixelX / member.pixelY,
                                 member.pixelY / member.pixelX}) <= kMostUnlike;
            },
            phrase("core", "its pixels are much larger or smaller than those of most files here."));
    }

    // One that says it lies at the other end of the world must not make a picture of the world.
    void keepThoseThatLieTogether() {
        if (m_members.empty())
            return;
        const double x = medianOf(m_members, [](const Member& member) { return member.middleX(); });
        const double y = medianOf(m_members, [](const Member& member) { return member.middleY(); });
        std::vector<const Member*> nearest;
        double pixelX = m_members.front().pixelX;
        double pixelY = m_members.front().pixelY;
        for (const Member& member : m_members) {
            nearest.push_back(&member);
            pixelX = std::min(pixelX, member.pixelX);
            pixelY = std::min(pixelY, member.pixelY);
        }
        const auto away = [&](const Member* member) {
            return std::hypot(member->middleX() - x, member->middleY() - y);
        };
        std::stable_sort(nearest.begin(), nearest.end(),
                         [&](const Member* one, const Member* other) { return away(one) < away(other); });
        Member all = *nearest.front();
        std::map<std::string, bool> together;
        for (const Member* member : nearest) {
            const Member with{"",
                              "",
                              "",
                              "",
                              false,
                              std::min(all.left, member->left),
                              std::max(all.top, member->top),
                              std::max(all.right, member->right),
                              std::min(all.bottom, member->bottom),
                              0,
                              0};
            const double width = (with.right - with.left) / pixelX;
            const double height = (with.top - with.bottom) / pixelY;
            const bool fits = width * height <= kLargestMosaic && width < std::numeric_limits<int>::max() / 2 &&
                              height < std::numeric_limits<int>::max() / 2;
            together[member->path] = fits;
            if (fits)
                all = with;
        }
        keepIf([&](const Member& member) { return together[member.path]; },
               phrase("core", "it lies too far away from the others."));
    }

    std::string m_folder;
    std::vector<Member> m_members;
    std::vector<Wording> m_notes;
    Wording m_firstReason;
    std::size_t m_leftOut = 0;
};

// Whether the members leave holes: then what is missing has to be told from what is black.
bool haveHoles(const std::vector<Member>& members) {
    double covered = 0;
    Member all = members.front();
    for (const Member& member : members) {
        covered += (member.right - member.left) * (member.top - member.bottom);
        all.left = std::min(all.left, member.left);
        all.right = std::max(all.right, member.right);
        all.top = std::max(all.top, member.top);
        all.bottom = std::min(all.bottom, member.bottom);
    }
    const double whole = (all.right - all.left) * (all.top - all.bottom);
    // Where they overlap it is not known.
    return std::abs(covered / whole - 1) > 1e-9;
}

} // namespace

bool holdsGeoTiffs(const std::string& folder) {
    std::error_code failed;
    for (const fs::directory_entry& entry : fs::directory_iterator{folder, failed})
        if (isGeoTiffName(entry.path()))
            return true;
    return false;
}

Mosaic openMosaic(const std::string& folder) try {
    gdal::prepareLibrary();
    const Selection selection{folder};
    Mosaic mosaic;
    std::vector<const char*> names;
    std::string states;
    mosaic.changed = fs::file_time_type::min();
    for (const Member& member : selection.members()) {
        names.push_back(member.path.c_str());
        states += stateOf(member.path) + '\n';
        mosaic.changed = std::max(mosaic.changed, fs::last_write_time(member.path));
    }
    std::vector<std::string> words{"-resolution", "highest"};
    if (!selection.members().front().showsWhatIsMissing && haveHoles(selection.members()))
        words.push_back("-addalpha");
    std::vector<char*> arguments;
    for (std::string& word : words)
        arguments.push_back(word.data());
    arguments.push_back(nullptr);

    const gdal::ErrorCapture said;
    GDALBuildVRTOptions* options = GDALBuildVRTOptionsNew(arguments.data(), nullptr);
    mosaic.dataset.reset(GDALBuildVRT("", static_cast<int>(names.size()), nullptr, names.data(), options, nullptr));
    GDALBuildVRTOptionsFree(options);
    if (!mosaic.dataset)
        throw Fault{phrase("core", "The GeoTIFFs of this folder cannot be put together: %1")(
                        said.firstError("").empty() ? Wording{phrase("core", "the reason is not known")}
                                                    : Wording{said.firstError("")}),
                    folder, phrase("core", "Choose a folder of GeoTIFFs that lie side by side.")};
    mosaic.notes = selection.notes();
    for (const auto& message : said.messages())
        if (mosaic.notes.size() <= kMostNotes)
            mosaic.notes.push_back(message.text);
    mosaic.state = digest(states);
    return mosaic;
} catch (const fs::filesystem_error& error) {
    throw Fault{phrase("core", "The folder cannot be listed: %1.")(error.code().message()), folder,
                phrase("core", "Check the rights of the folder.")};
}

} // namespace fencewright::raster::detail
