#include "exchange/detail/foreign_file.h"

#include "exchange/detail/text_encoding.h"
#include "exchange/detail/xml_check.h"
#include "exchange/detail/zip_members.h"
#include "fault.h"

#include <cpl_conv.h>
#include <gdal.h>

#include <sys/stat.h>

#include <cctype>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>

namespace fencewright::exchange::detail {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t kHeadBytes = 64 * 1024;
constexpr std::size_t kUnpackedKml = std::size_t{256} << 20;
constexpr std::size_t kUnpackedShapes = std::size_t{1024} << 20;

constexpr Phrase kAnotherCopy =
    phrase("core", "Ask for another copy of the file, or save it anew with the program that wrote it.");

std::string accepted() {
    std::string list;
    for (const FormatRow& row : formatRows())
        for (const std::string_view suffix : row.suffixes)
            list += (list.empty() ? "" : " ") + std::string{suffix};
    return list;
}

/// Opens an ordinary file of this machine; whatever else a name may stand for is refused before a driver sees it.
class PlainFile {
public:
    explicit PlainFile(const std::string& path) : m_path{path} {
        struct stat status {};
        if (path.empty() || ::stat(path.c_str(), &status) != 0)
            throw Fault{path.empty() ? Wording{phrase("core", "No file is named.")}
                                     : Wording{phrase("core", "The file cannot be found: %1.")(std::strerror(errno))},
                        path, phrase("core", "Check the name, and that the drive it lies on is connected.")};
        if (S_ISDIR(status.st_mode))
            throw Fault{phrase("core", "This is a folder, not a file."), path, phrase("core", "Choose a file in it.")};
        if (!S_ISREG(status.st_mode))
            throw Fault{phrase("core", "This is not an ordinary file."), path,
                        phrase("core", "Copy its content into a file first.")};
        m_size = static_cast<std::size_t>(status.st_size);
        m_stream.open(path, std::ios::binary);
        if (!m_stream)
            throw Fault{phrase("core", "The file cannot be opened: %1.")(std::strerror(errno)), path,
                        phrase("core", "Ask whoever owns it for the right to read it.")};
        if (m_size == 0)
            throw Fault{phrase("core", "The file is empty."), path, kAnotherCopy};
    }

    [[nodiscard]] std::size_t size() const { return m_size; }

    [[nodiscard]] std::string bytes(std::size_t most) {
        std::string text(std::min(most, m_size), '\0');
        m_stream.clear();
        m_stream.seekg(0);
        m_stream.read(text.data(), static_cast<std::streamsize>(text.size()));
        if (static_cast<std::size_t>(m_stream.gcount()) != text.size())
            throw Fault{phrase("core", "The file cannot be read to its end."), m_path, kAnotherCopy};
        return text;
    }
    [[nodiscard]] std::string all() { return bytes(m_size); }

private:
    std::string m_path;
    std::ifstream m_stream;
    std::size_t m_size = 0;
};

gdal::DatasetHandle openWith(std::string_view driver, const std::vector<std::string>& options,
                             const std::string& path) {
    const std::string name{driver};
    const char* drivers[] = {name.c_str(), nullptr};
    std::vector<const char*> list;
    for (const std::string& option : options)
        list.push_back(option.c_str());
    list.push_back(nullptr);
    return gdal::DatasetHandle{
        GDALOpenEx(path.c_str(), GDAL_OF_VECTOR | GDAL_OF_READONLY, drivers, list.data(), nullptr)};
}

bool besides(const fs::path& path, std::string suffix) {
    std::error_code ignored;
    if (fs::exists(fs::path{path}.replace_extension(suffix), ignored))
        return true;
    for (char& c : suffix)
        c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return fs::exists(fs::path{path}.replace_extension(suffix), ignored);
}

void noteXml(const XmlOutline& outline, ReadingAccount& account) {
    if (outline.networkLinks > 0)
        account.leftOut("",
                        outline.networkLinks == 1
                            ? Wording{phrase("core", "1 network link is not followed: what lies behind is not read.")}
                            : phrase("core", "%1 network links are not followed: what lies behind is not read.")(
                                  outline.networkLinks));
    if (outline.overlays > 0)
        account.leftOut("", outline.overlays == 1
                                ? Wording{phrase("core", "1 picture is laid over the map: not read.")}
                                : phrase("core", "%1 pictures are laid over the map: not read.")(outline.overlays));
}

/// Opens one file after another step of care; which step is the format's `loading`.
class Opening {
public:
    Opening(const FormatRow& row, const std::string& path, const std::string& encoding, ReadingAccount& account)
        : m_row{row}, m_path{path}, m_encoding{encoding}, m_account{account} {
        for (const std::string_view option : row.openOptions)
            m_options.emplace_back(option);
    }

    ForeignFile run(PlainFile& file) {
        m_result.format = &m_row;
        const std::string onDisk = fs::canonical(m_path).string();
        if (onDisk.starts_with("/vsi"))
            throw Fault{
                phrase("core",
                       "Files below a folder whose name begins with \"vsi\" at the root of the disk are not read."),
                m_path, phrase("core", "Copy the file elsewhere.")};
        switch (m_row.loading) {
        case Loading::InPlace:
            noteJournal();
            open(m_row.driver, onDisk);
            break;
        case Loading::ShapefileParts:
            checkParts();
            addEncoding();
            open(m_row.driver, onDisk);
            break;
        case Loading::Json:
            openJson(onDisk, file);
            break;
        case Loading::Xml:
            openXml(file.all());
            break;
        case Loading::ZippedKml:
            openXml(documentOutOf(file));
            break;
        case Loading::ZippedShapes:
            addEncoding();
            openShapesOutOf(file);
            break;
        }
        return std::move(m_result);
    }

private:
    void open(std::string_view driver, const std::string& path) {
        gdal::ErrorCapture said;
        m_result.dataset = openWith(driver, m_options, path);
        if (!m_result.dataset)
            throw Fault{phrase("core", "The file cannot be read as %1: %2.")(std::string{m_row.name},
                                                                             refusalWords(said.firstError(""))),
                        m_path, kAnotherCopy};
        for (const gdal::ErrorCapture::Message& message : said.messages())
            if (message.text.find("Non closed ring") == std::string::npos)
                m_account.warn("", phrase("core", "%1.")(plainWords(message.text)));
    }

    /// @param error  as the driver said it; empty: it said nothing.
    Wording refusalWords(const std::string& error) const {
        if (!error.empty())
            return plainWords(error);
        return m_row.driver == "CSV"
                   ? phrase("core", "its first line does not name two columns, apart by commas, semicolons or tabs")
                   : phrase("core", "its content is not that of this format");
    }

    void addEncoding() {
        if (!m_encoding.empty())
            m_options.push_back("ENCODING=" + m_encoding);
    }

    void noteJournal() {
        std::error_code ignored;
        if (m_row.content == Content::Sqlite && fs::exists(m_path + "-wal", ignored) &&
            fs::file_size(m_path + "-wal", ignored) > 0)
            m_account.warn(
                "",
                phrase("core", "another program has the file open; what it has not yet written into it is not read."));
    }

    void checkParts() {
        if (!besides(m_path, ".shx"))
            throw Fault{
                phrase("core",
                       "The .shx file that belongs to the shapefile is missing: it says where each shape begins."),
                m_path, phrase("core", "Put all parts (.shp, .shx, .dbf, .prj) of it into the same folder.")};
        if (!besides(m_path, ".dbf"))
            m_account.warn(
                "", phrase("core", "the .dbf file that belongs to the shapefile is missing: there are no attributes."));
        // Without a name of its own, a shapefile's text is read as ISO-8859-1, unless the table names a code page.
        if (m_encoding.empty() && besides(m_path, ".dbf") && !besides(m_path, ".cpg"))
            noteCodePage();
    }

    void noteCodePage() {
        for (const char* suffix : {".dbf", ".DBF"}) {
            std::ifstream table{fs::path{m_path}.replace_extension(suffix), std::ios::binary};
            char head[32] = {};
            if (table.read(head, sizeof head) && head[29] == 0)
                m_account.warn(
                    "", phrase("core", "the shapefile does not say how its text is encoded: read as ISO-8859-1."));
        }
    }

    void openJson(const std::string& onDisk, PlainFile& file) {
        std::string path = onDisk;
        GeoJsonFaults faults;
        if (m_encoding.empty()) {
            std::ifstream text{onDisk, std::ios::binary};
            faults = checkGeoJson(text, m_path);
        } else {
            const auto text = recoded(file.all(), m_encoding);
            if (!text)
                throw Fault{phrase("core", "The text is not in the encoding %1.")(m_encoding), m_path,
                            phrase("core", "Name the encoding it is in.")};
            std::istringstream stream{*text};
            faults = checkGeoJson(stream, m_path);
            m_result.memory = std::make_unique<MemoryFolder>();
            path = m_result.memory->write(fs::path{m_path}.stem().string() + ".geojson", *text);
        }
        if (faults.notObjects > 0)
            m_account.leftOut("",
                              faults.notObjects == 1
                                  ? Wording{phrase("core", "1 entry of \"features\" is no feature.")}
                                  : phrase("core", "%1 entries of \"features\" are no features.")(faults.notObjects));
        try {
            open(m_row.driver, path);
        } catch (const Fault&) {
            if (faults.byFeature.empty())
                throw;
            const auto& [number, words] = *faults.byFeature.begin();
            throw Fault{phrase("core", "Feature %1 cannot be read: %2.")(number, words), m_path, kAnotherCopy};
        }
        m_result.json = std::move(faults);
    }

    void openXml(std::string bytes) {
        const std::string text = asReadableXml(std::move(bytes), m_encoding, m_path);
        const XmlOutline outline = outlineOf(text, m_path);
        const bool kml = m_row.driver == "LIBKML";
        const bool rootIsKml = outline.root == "kml" || outline.root == "Document" || outline.root == "Folder" ||
                               outline.root == "Placemark";
        if (kml && !rootIsKml)
            throw Fault{phrase("core", "The content is XML, but not KML: its root is <%1>.")(outline.root), m_path,
                        kAnotherCopy};
        if (!kml && rootIsKml)
            throw Fault{phrase("core", "The name says GML, but the content is KML."), m_path,
                        phrase("core", "Rename the file to end with .kml.")};
        if (kml)
            noteXml(outline, m_account);
        m_result.memory = std::make_unique<MemoryFolder>();
        const std::string path =
            m_result.memory->write(fs::path{m_path}.stem().string() + (kml ? ".kml" : ".gml"), text);
        const bool plainDriver = kml && outline.tracks > 0;
        if (plainDriver)
            m_account.leftOut("", outline.tracks == 1
                                      ? Wording{phrase("core", "1 track is not read; because of it, of each placemark "
                                                               "only name, description and place are.")}
                                      : phrase("core", "%1 tracks are not read; because of them, of each placemark "
                                                       "only name, description and place are.")(outline.tracks));
        open(plainDriver ? "KML" : m_row.driver, path);
    }

    std::string documentOutOf(PlainFile& file) {
        const MemoryFolder packed;
        const MemoryFolder unpacked;
        const std::string archive = packed.write("archive.zip", file.all());
        const std::vector<std::string> documents = unpack(archive, {".kml"}, unpacked, kUnpackedKml, m_path);
        if (documents.empty())
            throw Fault{phrase("core", "The archive holds no .kml document, so it is no KMZ."), m_path,
                        phrase("core", "If it holds a shapefile, name it .zip.")};
        const auto main = std::find_if(documents.begin(), documents.end(),
                                       [](const std::string& name) { return name.ends_with("/doc.kml"); });
        const std::string& chosen = main == documents.end() ? documents.front() : *main;
        if (documents.size() > 1)
            m_account.leftOut("", phrase("core", "the archive holds %1 KML documents; only %2 is read.")(
                                      documents.size(), fs::path{chosen}.filename().string()));
        vsi_l_offset size = 0;
        const GByte* bytes = VSIGetMemFileBuffer(chosen.c_str(), &size, FALSE);
        std::string text{reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(size)};
        if (contentOf(std::string_view{text}.substr(0, kHeadBytes)) != Content::Xml)
            throw Fault{phrase("core", "The document in the archive is not XML."), m_path, kAnotherCopy};
        return text;
    }

    void openShapesOutOf(PlainFile& file) {
        const MemoryFolder packed;
        const std::string archive = packed.write("archive.zip", file.all());
        m_result.memory = std::make_unique<MemoryFolder>();
        const auto parts =
            unpack(archive, {".shp", ".shx", ".dbf", ".prj", ".cpg"}, *m_result.memory, kUnpackedShapes, m_path);
        const auto isShape = [](const std::string& name) { return name.ends_with(".shp") || name.ends_with(".SHP"); };
        const auto first = std::find_if(parts.begin(), parts.end(), isShape);
        if (first == parts.end())
            throw Fault{phrase("core", "The archive holds no shapefile."), m_path,
                        phrase("core", "If it holds a KML document, name it .kmz.")};
        open(m_row.driver,
             std::count_if(parts.begin(), parts.end(), isShape) == 1 ? *first : m_result.memory->pathOf(""));
    }

    const FormatRow& m_row;
    const std::string& m_path;
    const std::string& m_encoding;
    ReadingAccount& m_account;
    std::vector<std::string> m_options;
    ForeignFile m_result;
};

} // namespace

void ReleaseResult::operator()(void* result) const {
    GDALDatasetReleaseResultSet(static_cast<GDALDatasetH>(dataset), static_cast<OGRLayerH>(result));
}

Wording plainWords(std::string text) {
    // Folders in memory mean nothing to a person.
    constexpr std::string_view kMemory = "/vsimem/";
    for (std::size_t at = text.find(kMemory); at != std::string::npos; at = text.find(kMemory, at)) {
        const std::size_t end = text.find('/', at + kMemory.size());
        text.erase(at, end == std::string::npos ? kMemory.size() : end + 1 - at);
    }
    // Nor does the place in the source of the driver: "./ogr/.../ogrdxflayer.cpp, 1148: error at line 15".
    if (const std::size_t colon = text.find(": "); text.starts_with("./") && colon != std::string::npos)
        text.erase(0, colon + 2);
    while (!text.empty() && (text.back() == '.' || text.back() == '\n' || text.back() == ' ' || text.back() == ':'))
        text.pop_back();
    // Said by ourselves, from within the library: see gdal/library.cpp.
    constexpr std::string_view kNoNetwork = ": addresses of the network are not opened";
    if (text.ends_with(kNoNetwork))
        return phrase("core",
                      "%1: addresses of the network are not opened")(text.substr(0, text.size() - kNoNetwork.size()));
    return text;
}

ForeignFile openForeign(const std::string& path, const std::string& encoding, ReadingAccount& account) {
    gdal::prepareLibrary();
    if (!encoding.empty())
        requireKnownEncoding(encoding, path);
    PlainFile file{path};
    const FormatRow* row = formatRowFor(path);
    if (!row)
        throw Fault{phrase("core", "The name does not end as one of a format that can be read."), path,
                    phrase("core", "Readable are %1.")(accepted())};
    if (file.size() > row->byteLimit)
        throw Fault{phrase("core", "The file has %1 MiB; of %2, at most %3 MiB are read.")(
                        file.size() >> 20, std::string{row->name}, row->byteLimit >> 20),
                    path, phrase("core", "Cut it into parts, or convert it to a GeoPackage.")};
    const Content content = contentOf(file.bytes(kHeadBytes));
    if (content != row->content)
        throw Fault{
            phrase("core", "The name says %1, but the content is %2.")(std::string{row->name}, wordsFor(content)), path,
            kAnotherCopy};
    return Opening{*row, path, encoding, account}.run(file);
}

} // namespace fencewright::exchange::detail
