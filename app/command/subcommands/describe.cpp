#include "airspace/outline.h"
#include "command/arguments.h"
#include "command/database_password.h"
#include "command/reader_program.h"
#include "command/subcommand_table.h"
#include "exchange/database_address.h"
#include "exchange/vector_reader.h"
#include "geodesy/coordinate_notation.h"
#include "geodesy/geodesic.h"
#include "model/words.h"
#include "raster/dataset.h"
#include "store/document_file.h"
#include "units/measure_notation.h"
#include "units/number_notation.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <ostream>

namespace fencewright::command {
namespace {

using Json = nlohmann::ordered_json;

Json describeDocument(const std::string& path) {
    const auto opened = store::openDocument(path);
    Json fences = Json::array();
    for (const model::Fence& fence : opened.set.fences) {
        // One fence that cannot be computed must not hide the rest: the audit says what is wrong with it.
        Json area;
        try {
            area = geodesy::measure(airspace::outline(fence, opened.set.sites)).area.inSquareMetres();
        } catch (const Fault&) {
            area = nullptr;
        }
        fences.push_back(
            {{"name", fence.name}, {"kind", model::word(fence.kind)}, {"enabled", fence.enabled}, {"area_m2", area}});
    }
    Json sites = Json::array();
    for (const model::Site& site : opened.set.sites)
        sites.push_back({{"name", site.name}, {"category", site.category}, {"confidential", site.confidential}});
    Json homes = Json::array();
    for (const model::Home& home : opened.set.homes)
        homes.push_back(
            {{"name", home.name}, {"kind", model::word(home.kind)}, {"lon", home.place.lon}, {"lat", home.place.lat}});
    Json sources = Json::array();
    for (const model::Source& source : opened.set.sources)
        sources.push_back({{"name", source.name}, {"path", source.path}, {"kind", model::word(source.kind)}});
    return {{"file", path},
            {"is", "fence set document"},
            {"title", opened.set.title},
            {"read_only", opened.readOnly},
            {"fences", fences},
            {"sites", sites},
            {"homes", homes},
            {"sources", sources}};
}

Json vectorJson(const std::string& path, const exchange::VectorDescription& description) {
    Json layers = Json::array();
    for (const auto& layer : description.layers)
        layers.push_back({{"name", layer.name},
                          {"geometry", layer.geometry},
                          {"features", layer.features ? Json(*layer.features) : Json{}},
                          {"crs", layer.crs},
                          {"fields", layer.fields},
                          {"remark", layer.remark.english()}});
    return {{"file", path}, {"is", "vector"}, {"format", description.format}, {"layers", layers}};
}

Json describeVectorFile(const std::string& path) {
    return vectorJson(path, exchange::describeVectorApart(readerProgram(), path, exchange::ChildLimits{}, Progress{}));
}

Json describeServer(const std::string& address, std::ostream& prompt) {
    exchange::ReadRequest request;
    request.path = exchange::text(exchange::parseDatabaseAddress(address));
    request.password = databasePassword(request.path, prompt);
    return vectorJson(request.path,
                      exchange::describeDatabaseApart(readerProgram(), request, exchange::ChildLimits{}, Progress{}));
}

Json describeRaster(const std::string& path) {
    const raster::Dataset dataset{path};
    const auto& description = dataset.description();
    Json bands = Json::array();
    for (const auto& band : description.bands)
        bands.push_back({{"type", band.type},
                         {"colour", band.colour},
                         {"no_data", band.noData ? Json(*band.noData) : Json{}},
                         {"overviews", band.overviews.size()}});
    Json corners = Json::array();
    for (const auto& corner : description.corners)
        corners.push_back({corner.lon, corner.lat});
    return {{"file", path},
            {"is", "raster"},
            {"format", description.format},
            {"width", description.width},
            {"height", description.height},
            {"crs", description.crs},
            {"pixel_m", description.pixelSize ? Json(description.pixelSize->inMetres()) : Json{}},
            {"bands", bands},
            {"corners", corners}};
}

bool hasSuffix(const std::string& path, const std::vector<std::string>& suffixes) {
    const std::string lower = units::lowered(path);
    return std::any_of(suffixes.begin(), suffixes.end(),
                       [&](const std::string& suffix) { return lower.ends_with(suffix); });
}

/// A GeoPackage may be a document, vectors or tiles; every other suffix belongs to one kind only.
Json describeAny(const std::string& path) {
    if (!std::filesystem::exists(path))
        throw Fault{"There is no such file.", path, "Check the name."};
    std::vector<Json (*)(const std::string&)> attempts;
    if (hasSuffix(path, {".gpkg"}))
        attempts = {describeDocument, describeVectorFile, describeRaster};
    else {
        bool raster = std::filesystem::is_directory(path);
        for (const auto& format : raster::rasterFormats())
            raster = raster || hasSuffix(path, format.suffixes);
        attempts = {raster ? describeRaster : describeVectorFile};
    }
    std::string refusals;
    for (const auto attempt : attempts) {
        try {
            return attempt(path);
        } catch (const Fault& fault) {
            if (attempts.size() == 1)
                throw;
            refusals += (refusals.empty() ? "" : " / ") + fault.problem();
        }
    }
    throw Fault{"It is neither a document nor vectors nor tiles: " + refusals, path, "Check the file."};
}

void printText(const Json& one, std::ostream& out) {
    out << one["file"].get<std::string>() << ": " << one["is"].get<std::string>();
    const auto kind = one["is"].get<std::string>();
    if (kind == "raster") {
        out << ", " << one["format"].get<std::string>() << ", " << one["width"] << " x " << one["height"] << " pixels";
        if (!one["pixel_m"].is_null())
            out << " of " << units::fixed(one["pixel_m"].get<double>(), 3) << " m";
        const auto crs = one["crs"].get<std::string>();
        out << ", " << (crs.empty() ? "no CRS" : crs) << "\n";
        for (const auto& band : one["bands"])
            out << "  band: " << band["type"].get<std::string>() << " " << band["colour"].get<std::string>() << ", "
                << band["overviews"] << " overviews\n";
    } else if (kind == "vector") {
        out << ", " << one["format"].get<std::string>() << "\n";
        for (const auto& layer : one["layers"]) {
            const auto crs = layer["crs"].get<std::string>();
            out << "  layer " << layer["name"].get<std::string>() << ": " << layer["geometry"].get<std::string>()
                << ", " << (layer["features"].is_null() ? "unknown number of" : layer["features"].dump())
                << " features, " << (crs.empty() ? "no CRS" : crs) << "\n    fields:";
            for (const auto& field : layer["fields"])
                out << " " << field.get<std::string>();
            out << "\n";
            if (const auto remark = layer["remark"].get<std::string>(); !remark.empty())
                out << "    " << remark << "\n";
        }
    } else {
        out << " \"" << one["title"].get<std::string>() << "\"" << (one["read_only"].get<bool>() ? ", read-only" : "")
            << "\n";
        for (const auto& fence : one["fences"]) {
            out << "  " << fence["kind"].get<std::string>() << " \"" << fence["name"].get<std::string>() << "\"";
            if (!fence["area_m2"].is_null())
                out << ", "
                    << units::formatArea(Area::squareMetres(fence["area_m2"].get<double>()), units::System::Metric);
            out << (fence["enabled"].get<bool>() ? "" : ", disabled") << "\n";
        }
        for (const auto& site : one["sites"])
            out << "  site \"" << site["name"].get<std::string>() << "\", " << site["category"].get<std::string>()
                << (site["confidential"].get<bool>() ? ", confidential" : "") << "\n";
        for (const auto& home : one["homes"])
            out << "  " << home["kind"].get<std::string>() << " \"" << home["name"].get<std::string>() << "\", "
                << geodesy::format({home["lon"].get<double>(), home["lat"].get<double>()},
                                   geodesy::Notation::DegreesMinutesSeconds)
                << "\n";
        for (const auto& source : one["sources"])
            out << "  " << source["kind"].get<std::string>() << " " << source["path"].get<std::string>() << "\n";
    }
}

int describeFiles(std::span<const std::string> words, const Streams& streams) {
    const Arguments arguments = parseArguments(words, {"json"}, {});
    if (arguments.files.empty())
        throw UsageFault{"It needs at least one file.", "", "See --help."};
    Json all = Json::array();
    for (const std::string& file : arguments.files)
        all.push_back(exchange::isDatabaseAddress(file) ? describeServer(file, streams.err) : describeAny(file));
    if (arguments.has("json"))
        streams.out << all.dump(2, ' ', false, Json::error_handler_t::replace) << "\n";
    else
        for (const Json& one : all)
            printText(one, streams.out);
    return kDone;
}

} // namespace

extern const Subcommand describe{"describe", "what is in a document, a vector file or a raster",
                                 R"(Usage: fencewright-cli describe [--json] FILE...

Tells what a fence set document, a vector file (layers, features, CRS, fields) or a raster (size, CRS, bands) holds.
Foreign vector files are read in a process of their own, with bounds on time and memory. FILE may also be the address of
a PostGIS server, postgresql://name@host:5432/database, whose tables are listed; its password is taken from the
environment's PGPASSWORD, or asked for.

  --json   the same as JSON, one object for each file

Exit codes: 0 done; 2 command line; 3 a file cannot be read.
)",
                                 describeFiles};

} // namespace fencewright::command
