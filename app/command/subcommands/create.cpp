#include "command/arguments.h"
#include "command/counted.h"
#include "command/database_password.h"
#include "command/margin_option.h"
#include "command/reader_program.h"
#include "command/subcommand_table.h"
#include "exchange/database_address.h"
#include "exchange/import.h"
#include "exchange/vector_reader.h"
#include "model/edit.h"
#include "raster/dataset.h"
#include "raster/tile_server.h"
#include "store/document_file.h"
#include "units/measure_notation.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <optional>
#include <ostream>

namespace fencewright::command {
namespace {

/// A source option with the options that follow it and belong to it.
struct Step {
    std::string what; ///< imagery, parcels, keep-in, keep-out, sites, homes
    std::string file;
    Arguments details;
};

constexpr std::string_view kSourceOptions[] = {"imagery", "parcels", "keep-in", "keep-out", "sites", "homes"};

/// "postgresql://name@host/database#schema.table" names a table.
Step stepOf(const Option& option) {
    Step step{option.name, option.value, {}};
    if (exchange::isDatabaseAddress(option.value)) {
        const std::size_t mark = option.value.find('#');
        step.file = exchange::text(exchange::parseDatabaseAddress(option.value.substr(0, mark)));
        if (mark != std::string::npos)
            step.details.options.push_back({"layer", option.value.substr(mark + 1)});
    }
    return step;
}

std::vector<Step> stepsOf(const Arguments& arguments) {
    std::vector<Step> steps;
    for (const Option& option : arguments.options) {
        if (std::find(std::begin(kSourceOptions), std::end(kSourceOptions), option.name) != std::end(kSourceOptions))
            steps.push_back(stepOf(option));
        else if (option.name == "title" || option.name == "margin" || option.name == "force")
            continue;
        else if (steps.empty())
            throw UsageFault{"--" + option.name + " belongs after the source it is about.", "", "See --help."};
        else
            steps.back().details.options.push_back(option);
    }
    return steps;
}

StatedLength lengthOf(const std::string& option, const std::string& text) {
    try {
        return units::parseLength(text, units::System::Metric);
    } catch (const Fault& fault) {
        throw UsageFault{"--" + option + ": " + fault.problem(), "", fault.remedy()};
    }
}

exchange::VectorContent contentOf(const Step& step, const Streams& streams) {
    exchange::ReadRequest request;
    request.path = step.file;
    request.layer = step.details.value("layer").value_or("");
    request.crs = step.details.value("crs").value_or("");
    request.encoding = step.details.value("encoding").value_or("");
    request.where = step.details.value("where").value_or("");
    if (exchange::isDatabaseAddress(step.file))
        request.password = databasePassword(step.file, streams.err);
    auto content = exchange::readVectorApart(readerProgram(), request, exchange::ChildLimits{}, Progress{});
    streams.out << step.file << ": read " << content.features.size() << " of " << content.featuresInFile
                << " features, " << content.crs << "\n";
    for (const auto& note : content.notes)
        streams.out << "  " << note.place.english() << (note.place.empty() ? "" : ": ") << note.words.english() << "\n";
    return content;
}

std::string fromEnvironment(const char* name) {
    const char* value = std::getenv(name);
    return value ? value : "";
}

/// The person names the server on the command line; what opens its door would stay in the list of commands there.
std::shared_ptr<const raster::ServerAccess> accessTo(const std::string& address) {
    auto access = std::make_shared<raster::ServerAccess>();
    access->allow(address);
    access->setCredentials(address,
                           {fromEnvironment("FENCEWRIGHT_SERVER_USER"), fromEnvironment("FENCEWRIGHT_SERVER_PASSWORD"),
                            fromEnvironment("FENCEWRIGHT_SERVER_KEY")});
    return access;
}

/// "parcels" of parcels.gpkg, of a folder and of a table of that name; of a server of tiles its name.
std::string nameOf(const Step& step) {
    if (exchange::isDatabaseAddress(step.file))
        return exchange::parseTableName(step.details.value("layer").value_or("")).table;
    if (raster::isServerAddress(step.file)) {
        const std::string server = raster::serverOf(step.file);
        return server.substr(server.find("://") + 3);
    }
    const auto path = std::filesystem::absolute(step.file).lexically_normal();
    return (path.has_filename() ? path : path.parent_path()).stem().string();
}

/// Sources are kept relative to the document where they lie below its folder, so that the folder can be moved.
std::string keptPath(const std::string& file, const std::string& document) {
    if (exchange::isDatabaseAddress(file) || raster::isServerAddress(file))
        return file;
    const auto absolute = std::filesystem::absolute(file).lexically_normal();
    const auto folder = std::filesystem::absolute(document).lexically_normal().parent_path();
    const auto relative = absolute.lexically_relative(folder);
    return relative.empty() || *relative.begin() == ".." ? absolute.string() : relative.string();
}

class SetMaker {
public:
    SetMaker(std::string document, const Streams& streams) : m_document{std::move(document)}, m_streams{streams} {}

    void title(const std::string& title) { take(model::replaceHeading(m_set, {title, m_set.notes})); }

    void margin(const std::string& text) { take(model::replaceMargin(m_set, parseMargin(text))); }

    void add(const Step& step) {
        if (step.what == "imagery")
            addImagery(step);
        else if (step.what == "parcels")
            addParcels(step);
        else if (step.what == "sites")
            addSites(step);
        else if (step.what == "homes")
            addHomes(step);
        else
            addFences(step, step.what == "keep-in" ? model::FenceKind::KeepIn : model::FenceKind::KeepOut);
    }

    [[nodiscard]] const model::FenceSet& set() const { return m_set; }

private:
    void take(const model::Edit& edit) { m_set = model::applied(m_set, edit); }

    void addImagery(const Step& step) {
        raster::OpenOptions options;
        options.crs = step.details.value("crs").value_or("");
        if (raster::isServerAddress(step.file))
            options.servers = accessTo(step.file);
        const raster::Dataset dataset{step.file, options};
        const auto& description = dataset.description();
        m_streams.out << step.file << ": " << description.format << ", " << description.width << " x "
                      << description.height << " pixels, " << (description.crs.empty() ? "no CRS" : description.crs)
                      << "\n";
        for (const Wording& note : description.notes)
            m_streams.out << "  " << note.english() << "\n";
        if (!description.georeferenced)
            throw Fault{"The raster has no place on the earth.", step.file,
                        "Give its CRS with --crs, or georeference it."};
        addSource(step, model::SourceKind::Imagery, {});
    }

    void addSource(const Step& step, model::SourceKind kind, const std::string& numberField) {
        model::Source source;
        source.id = model::freshId<model::Source>();
        source.kind = kind;
        source.name = nameOf(step);
        source.path = keptPath(step.file, m_document);
        source.layer = step.details.value("layer").value_or("");
        source.crs = step.details.value("crs").value_or("");
        source.numberField = numberField;
        source.labelField = numberField;
        take(model::addSource(m_set, std::move(source)));
    }

    void addParcels(const Step& step) {
        const auto content = contentOf(step, m_streams);
        const std::string numberField = step.details.value("number").value_or("");
        model::ParcelUnion shape;
        shape.parcels = exchange::asParcels(content, numberField);
        if (shape.parcels.empty())
            throw Fault{"No parcel was selected.", step.file, "Check --where and --layer."};
        shape.closing = lengthOf("closing", step.details.value("closing").value_or("0 m"));
        model::Fence fence;
        fence.id = model::freshId<model::Fence>();
        fence.kind = model::FenceKind::KeepIn;
        fence.name = step.details.value("name").value_or(nameOf(step));
        m_streams.out << "  keep-in \"" << fence.name << "\" of " << shape.parcels.size() << " parcels\n";
        fence.shape = std::move(shape);
        take(model::addFence(m_set, std::move(fence)));
        addSource(step, model::SourceKind::Reference, numberField);
    }

    void addFences(const Step& step, model::FenceKind kind) {
        auto import =
            exchange::asFences(contentOf(step, m_streams), kind, step.details.value("name-field").value_or(""));
        tell(import.notes);
        m_streams.out << "  " << counted(import.fences.size(), "fence") << "\n";
        for (auto& fence : import.fences)
            take(model::addFence(m_set, model::withOwnId(m_set.fences, std::move(fence))));
    }

    void addSites(const Step& step) {
        auto import = exchange::asSites(contentOf(step, m_streams), step.details.value("name-field").value_or(""));
        tell(import.notes);
        const auto distance = step.details.value("distance");
        m_streams.out << "  " << counted(import.sites.size(), "site")
                      << (distance ? ", each with a keep-out at " + *distance : "") << "\n";
        for (auto& imported : import.sites) {
            model::Site site = model::withOwnId(m_set.sites, std::move(imported));
            std::optional<model::Fence> fence;
            if (distance)
                fence = exchange::setbackFence(site, lengthOf("distance", *distance));
            take(model::addSite(m_set, std::move(site)));
            if (fence)
                take(model::addFence(m_set, std::move(*fence)));
        }
    }

    void addHomes(const Step& step) {
        auto import = exchange::asHomes(contentOf(step, m_streams), step.details.value("name-field").value_or(""));
        tell(import.notes);
        m_streams.out << "  " << counted(import.homes.size(), "home") << "\n";
        for (auto& home : import.homes)
            take(model::addHome(m_set, model::withOwnId(m_set.homes, std::move(home))));
    }

    void tell(const std::vector<exchange::ReadNote>& notes) {
        for (const auto& note : notes)
            m_streams.out << "  " << note.place.english() << (note.place.empty() ? "" : ": ") << note.words.english()
                          << "\n";
    }

    std::string m_document;
    const Streams& m_streams;
    model::FenceSet m_set;
};

int createDocument(std::span<const std::string> words, const Streams& streams) {
    const Arguments arguments =
        parseArguments(words, {"force"},
                       {"title", "margin", "imagery", "parcels", "keep-in", "keep-out", "sites", "homes", "layer",
                        "crs", "encoding", "where", "number", "closing", "name", "name-field", "distance"});
    if (arguments.files.size() != 1)
        throw UsageFault{"It takes one document to write.", "", "See --help."};
    const std::string& document = arguments.files[0];
    if (std::filesystem::exists(document) && !arguments.has("force"))
        throw Fault{"The file exists already.", document, "Choose another name, or give --force."};
    SetMaker maker{document, streams};
    if (const auto title = arguments.value("title"))
        maker.title(*title);
    if (const auto margin = arguments.value("margin"))
        maker.margin(*margin);
    for (const Step& step : stepsOf(arguments))
        maker.add(step);
    store::saveDocument(maker.set(), document);
    streams.out << document << ": saved with " << counted(maker.set().fences.size(), "fence") << ", "
                << counted(maker.set().sites.size(), "site") << ", " << counted(maker.set().homes.size(), "home")
                << "\n";
    return kDone;
}

} // namespace

extern const Subcommand create{
    "create", "make a document from imagery, parcels, sites, homes and fences",
    R"(Usage: fencewright-cli create DOCUMENT.gpkg [--title TEXT] [--margin FIGURES] [--force] SOURCES...

  --margin FIGURES   how far the aircraft keeps from every boundary, and why: "error 3 m; speed 15 m/s; reaction 1 s;
                     deceleration 4 m/s2; allowance 2 m; basis Manual, edition 3". Speed is the greatest over the
                     ground; the allowance, for gusts, may be left out

Sources, each followed by the options that belong to it:

  --imagery FILE     a raster to show, a folder of tiles z/x/y or of GeoTIFFs, or the address of a server of tiles
                     ("https://tiles.example.org/{z}/{x}/{y}.png#zoom=0-19", or of a Web Map Tile Service
                     "https://maps.example.org/wmts?REQUEST=GetCapabilities#layer=ortho&set=GoogleMapsCompatible"):
                     [--crs CRS]. What a server wants to know is never kept: {key} in the address is filled in from
                     FENCEWRIGHT_SERVER_KEY, name and password from FENCEWRIGHT_SERVER_USER and
                     FENCEWRIGHT_SERVER_PASSWORD
  --parcels FILE     makes one keep-in of the parcels: [--where SQL] [--number FIELD] [--closing LENGTH] [--name TEXT]
                     --where selects by attribute ("owner = 'utility'"); --closing closes gaps and overlaps between
                     parcels up to that width, and is part of the shape (none unless given)
                     FILE may be a table of a PostGIS server: postgresql://name@host:5432/database#schema.table
                     Its password is taken from the environment's PGPASSWORD, or asked for; it is kept nowhere
  --keep-in FILE     each polygon becomes a keep-in:  [--where SQL] [--name-field FIELD]
  --keep-out FILE    each polygon becomes a keep-out: [--where SQL] [--name-field FIELD]
  --sites FILE       points, lines, areas to protect: [--where SQL] [--name-field FIELD] [--distance LENGTH]
                     --distance gives each a keep-out at that distance ("1/4 mi", "402.336 m")
  --homes FILE       places to start and land: [--where SQL] [--name-field FIELD]

Each also takes [--layer NAME] [--crs CRS] [--encoding NAME]; --crs is for files that state none.
--force writes over an existing document.

Exit codes: 0 done; 2 command line; 3 a file cannot be read or written (nothing is left half-written).
)",
    createDocument};

} // namespace fencewright::command
