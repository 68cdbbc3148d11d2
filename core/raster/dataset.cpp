#include "raster/dataset.h"

#include "fault.h"
#include "geodesy/geodesic.h"
#include "raster/detail/crs_definition.h"
#include "raster/detail/open_source.h"
#include "raster/detail/parts.h"
#include "raster/detail/resampling.h"
#include "raster/tile_server.h"

#include <sstream>

namespace fencewright::raster {

using geodesy::PlanePoint;

namespace {

constexpr int kLargestPicture = 16384; // pixels a side
constexpr int kGlance = 512;           // pixels of the longer side

// Whatever changes a pixel of a level.
std::string identityOf(const std::string& path, const std::string& state, const OpenOptions& options) {
    std::ostringstream identity;
    identity.precision(17);
    identity << detail::stateOf(path) << '\n' << state << '\n';
    if (!options.pyramid.empty())
        identity << detail::stateOf(options.pyramid);
    if (options.appearance.bands)
        for (const int band : *options.appearance.bands)
            identity << "\nband " << band;
    if (options.appearance.stretch)
        for (const double value : *options.appearance.stretch)
            identity << "\nvalue " << value;
    return identity.str();
}

std::array<double, 6> inverted(const std::array<double, 6>& g) {
    const double determinant = g[1] * g[5] - g[2] * g[4];
    return {(g[2] * g[3] - g[0] * g[5]) / determinant, g[5] / determinant,  -g[2] / determinant,
            (g[0] * g[4] - g[1] * g[3]) / determinant, -g[4] / determinant, g[1] / determinant};
}

PlanePoint mapped(const std::array<double, 6>& g, PlanePoint point) {
    return {g[0] + g[1] * point.x + g[2] * point.y, g[3] + g[4] * point.x + g[5] * point.y};
}

} // namespace

void Dataset::Parts::place(const std::string& crsOfPerson) {
    const detail::Header& header = pixels->source().header();
    description.format = header.format;
    description.width = header.width;
    description.height = header.height;
    description.geotransform = header.geotransform;
    description.hasGeotransform = header.hasGeotransform;
    description.bands = header.bands;
    description.notes = header.notes;
    if (!header.crs.empty()) {
        try {
            transform.emplace(header.crs);
            description.crsDefinition = detail::crsDefinition(header.crs);
        } catch (const Fault&) {
            // A CRS of a building site or a camera: the raster is shown, but has no place unless the person gives one.
        }
    }
    if (!transform && !crsOfPerson.empty()) {
        transform.emplace(crsOfPerson);
        description.crsDefinition = detail::crsDefinition(crsOfPerson);
    }
    if (transform)
        description.crs = transform->name();
    description.georeferenced = transform.has_value() && header.hasGeotransform;
    if (!description.georeferenced)
        return;

    fromCrs = inverted(header.geotransform);
    if (transform->isGeographic())
        middleLongitude = mapped(header.geotransform, {header.width / 2.0, header.height / 2.0}).x;
    describePlace();
}

void Dataset::Parts::describePlace() {
    const double width = description.width;
    const double height = description.height;
    // Along the border in steps, so that the longitudes of a picture of the whole world run on and do not jump.
    constexpr int steps = 16;
    std::vector<PlanePoint> border;
    for (int step = 0; step < steps; ++step)
        border.push_back({width * step / steps, 0});
    for (int step = 0; step < steps; ++step)
        border.push_back({width, height * step / steps});
    for (int step = 0; step <= steps; ++step)
        border.push_back({width * (steps - step) / steps, height});
    const auto places = toEarth(border);
    std::optional<double> before;
    for (std::size_t index = 0; index < places.size(); ++index) {
        if (!places[index])
            continue;
        model::Position place = *places[index];
        if (before)
            place.lon += 360.0 * std::round((*before - place.lon) / 360.0);
        before = place.lon;
        if (index % steps == 0)
            description.corners.push_back(place);
    }
    if (description.corners.size() != 4)
        description.corners.clear();

    // Over several pixels where there are some: one of 5 cm is near the rounding of degrees.
    const double spanX = std::min(width, 64.0);
    const double spanY = std::min(height, 64.0);
    const auto middle = toEarth({{(width - spanX) / 2, height / 2},
                                 {(width + spanX) / 2, height / 2},
                                 {width / 2, (height - spanY) / 2},
                                 {width / 2, (height + spanY) / 2}});
    if (std::all_of(middle.begin(), middle.end(), [](const auto& place) { return place.has_value(); })) {
        const double across = geodesy::inverse(*middle[0], *middle[1]).length.inMetres() / spanX;
        const double down = geodesy::inverse(*middle[2], *middle[3]).length.inMetres() / spanY;
        description.pixelSize = Length::metres(std::sqrt(across * down));
    }
}

std::vector<std::optional<PlanePoint>> Dataset::Parts::toPixels(const std::vector<model::Position>& places) const {
    if (!description.georeferenced)
        return std::vector<std::optional<PlanePoint>>(places.size());
    auto points = transform->fromWgs84(places);
    for (auto& point : points) {
        if (!point)
            continue;
        if (middleLongitude) // a raster may count longitudes from 0 to 360
            point->x += 360.0 * std::round((*middleLongitude - point->x) / 360.0);
        point = mapped(fromCrs, *point);
    }
    return points;
}

std::vector<std::optional<model::Position>> Dataset::Parts::toEarth(const std::vector<PlanePoint>& points) const {
    if (!description.georeferenced)
        return std::vector<std::optional<model::Position>>(points.size());
    std::vector<PlanePoint> inCrs;
    inCrs.reserve(points.size());
    for (const PlanePoint& point : points)
        inCrs.push_back(mapped(description.geotransform, point));
    return transform->toWgs84(inCrs);
}

RgbaImage Dataset::Parts::wholePixels(const PixelWindow& window, const Progress& progress) const {
    RgbaImage image;
    image.width = static_cast<int>(window.width);
    image.height = static_cast<int>(window.height);
    image.pixels.assign(static_cast<std::size_t>(image.width) * static_cast<std::size_t>(image.height) * 4, 0);
    const double left = std::max(window.x, 0.0);
    const double top = std::max(window.y, 0.0);
    const double right = std::min(window.x + window.width, static_cast<double>(description.width));
    const double bottom = std::min(window.y + window.height, static_cast<double>(description.height));
    if (!(left < right && top < bottom))
        return image;
    const detail::PixelRect part{static_cast<int>(left), static_cast<int>(top), static_cast<int>(right - left),
                                 static_cast<int>(bottom - top)};
    const detail::Pixels read = pixels->straight(part, progress);
    if (!read.words)
        return image;
    for (int row = 0; row < part.height; ++row) {
        const std::uint32_t* from = &read.words[static_cast<std::size_t>(row) * static_cast<std::size_t>(part.width)];
        std::uint8_t* to = &image.pixels[(static_cast<std::size_t>(top - window.y) + static_cast<std::size_t>(row)) *
                                             static_cast<std::size_t>(image.width) * 4 +
                                         static_cast<std::size_t>(left - window.x) * 4];
        for (int column = 0; column < part.width; ++column, ++from, to += 4) {
            to[0] = static_cast<std::uint8_t>(*from >> 16);
            to[1] = static_cast<std::uint8_t>(*from >> 8);
            to[2] = static_cast<std::uint8_t>(*from);
            to[3] = static_cast<std::uint8_t>(*from >> 24);
        }
    }
    return image;
}

Dataset::Dataset(const std::string& path, const OpenOptions& options, const Progress& progress)
    : m_parts{std::make_unique<Parts>()} {
    const std::string file = isServerAddress(path) ? path : detail::existing(path);
    auto source = detail::openSource(file, options, progress);
    const std::string identity = identityOf(file, source->header().state, options);
    m_parts->pixels = std::make_unique<detail::SharedBlocks>(std::move(source), options.blocks, identity);
    m_parts->description.path = file;
    m_parts->place(options.crs);
}

Dataset::~Dataset() = default;
Dataset::Dataset(Dataset&&) noexcept = default;
Dataset& Dataset::operator=(Dataset&&) noexcept = default;

const RasterDescription& Dataset::description() const { return m_parts->description; }

RgbaImage Dataset::read(const PixelWindow& window, int width, int height, const Progress& progress) const {
    detail::checkPictureSize(width, height);
    const bool isWindow = std::isfinite(window.x) && std::isfinite(window.y) && std::isfinite(window.width) &&
                          std::isfinite(window.height) && window.width > 0 && window.height > 0;
    if (!isWindow)
        throw Fault{phrase("core", "The part of the raster to read is empty or not finite."), m_parts->description.path,
                    phrase("core", "Give a part with a width and a height.")};
    if (window.width == width && window.height == height && window.x == std::floor(window.x) &&
        window.y == std::floor(window.y))
        return m_parts->wholePixels(window, progress);
    const auto toRaster = [&](const std::vector<PlanePoint>& points) {
        std::vector<std::optional<PlanePoint>> places;
        places.reserve(points.size());
        for (const PlanePoint& point : points)
            places.push_back(
                PlanePoint{window.x + point.x * window.width / width, window.y + point.y * window.height / height});
        return places;
    };
    return detail::asImage(detail::resampled(*m_parts->pixels, toRaster, width, height, progress));
}

const std::vector<PyramidLevel>& Dataset::levels() const { return m_parts->pixels->levels(); }

int Dataset::tilePixels() const { return m_parts->pixels->tilePixels(); }

PaintedPixels Dataset::tile(std::size_t level, int column, int row, const Progress& progress) const {
    const auto outside = [&] {
        return Fault{phrase("core", "There is no tile %1, %2 of level %3.")(column, row, level),
                     m_parts->description.path, phrase("core", "Ask for one of those that cover the raster.")};
    };
    if (level >= levels().size() || column < 0 || row < 0)
        throw outside();
    const std::int64_t size = tilePixels();
    const std::int64_t width = levels()[level].width - column * size;
    const std::int64_t height = levels()[level].height - row * size;
    if (width <= 0 || height <= 0)
        throw outside();
    const detail::PixelRect part{static_cast<int>(column * size), static_cast<int>(row * size),
                                 static_cast<int>(std::min(width, size)), static_cast<int>(std::min(height, size))};
    return m_parts->pixels->painted(level, part, part.width, part.height, progress);
}

std::optional<PaintedPixels> Dataset::glance(const Progress& progress) const {
    // The coarsest level of a pyramid is more than enough, or just as good.
    const std::size_t level = levels().size() - 1;
    const PyramidLevel& whole = levels()[level];
    const double shrink = std::min(1.0, static_cast<double>(kGlance) / std::max(whole.width, whole.height));
    int width = std::max(1, static_cast<int>(whole.width * shrink));
    int height = std::max(1, static_cast<int>(whole.height * shrink));
    detail::PixelSource& source = m_parts->pixels->source();
    if (!source.isQuick(level, width, height))
        return std::nullopt;
    const detail::PixelRect all{0, 0, whole.width, whole.height};
    if (level > 0) { // as it is: it comes out of the blocks that tiles are made of, too
        width = whole.width;
        height = whole.height;
    }
    height = std::max(1, height / source.rowsForOne(level, all, width, height));
    return m_parts->pixels->painted(level, all, width, height, progress);
}

std::vector<std::optional<PlanePoint>> Dataset::toPixels(const std::vector<model::Position>& places) const {
    return m_parts->toPixels(places);
}

std::vector<std::optional<model::Position>> Dataset::toEarth(const std::vector<PlanePoint>& pixels) const {
    return m_parts->toEarth(pixels);
}

void detail::checkPictureSize(int width, int height) {
    if (width < 1 || height < 1 || width > kLargestPicture || height > kLargestPicture)
        throw Fault{phrase("core", "A picture of %1 x %2 pixels cannot be made.")(width, height), "",
                    phrase("core", "Ask for 1 to 16,384 pixels a side.")};
}

} // namespace fencewright::raster
