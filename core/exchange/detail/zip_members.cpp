#include "exchange/detail/zip_members.h"

#include "fault.h"

#include <cpl_vsi.h>

#include <cctype>
#include <memory>

namespace fencewright::exchange::detail {

namespace {

constexpr std::size_t kMostMembers = 2000;
constexpr std::size_t kBlock = std::size_t{1} << 20;
// Text and tables pack to a tenth or a twentieth; what goes beyond a two-hundredth is made to fill a memory.
constexpr std::size_t kHighestRatio = 200;
constexpr std::size_t kRatioCountsFrom = std::size_t{16} << 20;

struct CloseDirectory {
    void operator()(VSIDIR* directory) const { VSICloseDir(directory); }
};
struct CloseFile {
    void operator()(VSILFILE* file) const { VSIFCloseL(file); }
};

bool endsWith(const std::string& name, const std::string& suffix) {
    if (name.size() < suffix.size())
        return false;
    return std::equal(suffix.begin(), suffix.end(), name.end() - static_cast<std::ptrdiff_t>(suffix.size()),
                      [](char a, char b) { return a == std::tolower(static_cast<unsigned char>(b)); });
}

std::string lastPart(const std::string& name) {
    const std::size_t at = name.find_last_of("/\\");
    return at == std::string::npos ? name : name.substr(at + 1);
}

} // namespace

std::vector<std::string> unpack(const std::string& archive, const std::vector<std::string>& suffixes,
                                const MemoryFolder& folder, std::size_t byteLimit, const std::string& path) {
    const std::string inside = "/vsizip/{" + archive + "}";
    constexpr Phrase again = phrase("core", "Unpack it yourself and read what is in it, or ask for another copy.");
    VSIStatBufL status;
    const std::size_t packed = VSIStatL(archive.c_str(), &status) == 0 ? static_cast<std::size_t>(status.st_size) : 0;

    std::vector<std::string> members;
    std::size_t seen = 0;
    const std::unique_ptr<VSIDIR, CloseDirectory> directory{VSIOpenDir(inside.c_str(), -1, nullptr)};
    if (!directory)
        throw Fault{phrase("core", "The ZIP archive is damaged: its table of contents cannot be read."), path, again};
    while (const VSIDIREntry* entry = VSIGetNextDirEntry(directory.get())) {
        if (++seen > kMostMembers)
            throw Fault{phrase("core", "The ZIP archive has more than %1 members.")(kMostMembers), path, again};
        const std::string name = entry->pszName;
        const bool wanted =
            !VSI_ISDIR(entry->nMode) && std::any_of(suffixes.begin(), suffixes.end(),
                                                    [&](const std::string& suffix) { return endsWith(name, suffix); });
        // Left by a file manager of another system: a shadow of each file, not a second one.
        if (wanted && name.find("__MACOSX/") == std::string::npos)
            members.push_back(name);
    }

    std::vector<std::string> paths;
    std::size_t total = 0;
    std::vector<char> block(kBlock);
    for (const std::string& name : members) {
        const std::unique_ptr<VSILFILE, CloseFile> from{VSIFOpenL((inside + "/" + name).c_str(), "rb")};
        if (!from)
            throw Fault{phrase("core", "\"%1\" in the ZIP archive cannot be unpacked.")(name), path, again};
        const std::string target = folder.pathOf(lastPart(name));
        const std::unique_ptr<VSILFILE, CloseFile> to{VSIFOpenL(target.c_str(), "wb")};
        if (!to)
            throw Fault{phrase("core", "\"%1\" in the ZIP archive cannot be unpacked.")(name), path, again};
        while (const std::size_t read = VSIFReadL(block.data(), 1, block.size(), from.get())) {
            total += read;
            const bool denser = total > kRatioCountsFrom && total / kHighestRatio > packed;
            if (total > byteLimit || denser)
                throw Fault{
                    phrase("core",
                           "The ZIP archive of %1 KiB unpacks to more than %2 MiB, which is more than is read here.")(
                        packed >> 10, total >> 20),
                    path, again};
            if (VSIFWriteL(block.data(), 1, read, to.get()) != read)
                throw Fault{phrase("core", "The ZIP archive needs more memory than there is."), path, again};
        }
        paths.push_back(target);
    }
    return paths;
}

} // namespace fencewright::exchange::detail
