#include "raster/detail/resampling.h"

#include <cstring>
#include <limits>

namespace fencewright::raster::detail {

namespace {

using geodesy::PlanePoint;
using Place = std::optional<PlanePoint>;

constexpr int kSmallestCell = 8;  // pixels of the picture; below it each pixel is computed on its own
constexpr int kSmallestPart = 32; // pixels of the picture; below it pixels are read one by one
constexpr int kMostSamples = 4;   // of a pixel in each direction
constexpr int kOne = 1 << 16;     // positions in a window are 16.16 fixed point

struct Rect {
    int left = 0, top = 0, right = 0, bottom = 0; ///< right and bottom excluded
};

/// Exact places at the corners of square cells that cover the picture. Between them bilinear interpolation is within
/// kLargestShift, except in cells marked exact.
struct Grid {
    int cell = 0; ///< pixels of the picture
    int columns = 0, rows = 0;
    std::vector<Place> nodes; ///< (columns + 1) * (rows + 1)
    std::vector<bool> exact;  ///< columns * rows

    [[nodiscard]] const Place& node(int column, int row) const {
        return nodes[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns + 1) +
                     static_cast<std::size_t>(column)];
    }
    [[nodiscard]] bool isExact(int column, int row) const {
        return exact[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
                     static_cast<std::size_t>(column)];
    }
};

PlanePoint mean(PlanePoint a, PlanePoint b) { return {(a.x + b.x) / 2, (a.y + b.y) / 2}; }

enum class Fit { Good, Bad, NoPlace };

// Two by two cells taken as one: how far is its bilinear interpolation from the five exact nodes inside? The cells
// themselves are better still: four times, where the mapping is smooth.
Fit fitOfFour(const Grid& grid, int column, int row) {
    std::array<Place, 9> at;
    int missing = 0;
    for (int y = 0; y < 3; ++y)
        for (int x = 0; x < 3; ++x) {
            const Place& place = grid.node(std::min(column + x, grid.columns), std::min(row + y, grid.rows));
            at[static_cast<std::size_t>(y * 3 + x)] = place;
            missing += place ? 0 : 1;
        }
    if (missing == 9)
        return Fit::NoPlace;
    if (missing > 0)
        return Fit::Bad;
    const PlanePoint a = *at[0];
    const PlanePoint b = *at[2];
    const PlanePoint c = *at[6];
    const PlanePoint d = *at[8];
    const double span = 2.0 * grid.cell;
    // The raster's pixels for one of the picture, along its rows and columns; its inverse takes an error back.
    const PlanePoint alongX{(b.x - a.x + d.x - c.x) / 2 / span, (b.y - a.y + d.y - c.y) / 2 / span};
    const PlanePoint alongY{(c.x - a.x + d.x - b.x) / 2 / span, (c.y - a.y + d.y - b.y) / 2 / span};
    const double determinant = alongX.x * alongY.y - alongX.y * alongY.x;
    if (!(std::abs(determinant) > 0))
        return Fit::Bad;
    const auto shift = [&](const Place& exact, PlanePoint guess) {
        const double x = exact->x - guess.x;
        const double y = exact->y - guess.y;
        return std::hypot((x * alongY.y - y * alongY.x) / determinant, (y * alongX.x - x * alongX.y) / determinant);
    };
    const double worst = std::max({shift(at[1], mean(a, b)), shift(at[3], mean(a, c)), shift(at[5], mean(b, d)),
                                   shift(at[7], mean(c, d)), shift(at[4], mean(mean(a, b), mean(c, d)))});
    return worst <= kLargestShift ? Fit::Good : Fit::Bad;
}

std::vector<Place> exactPlaces(const PictureToRaster& toRaster, const std::vector<PlanePoint>& points) {
    std::vector<Place> places = toRaster(points);
    for (Place& place : places)
        if (place && !(std::abs(place->x) < 1e12 && std::abs(place->y) < 1e12)) // also not a number
            place.reset();
    return places;
}

Grid makeGrid(const PictureToRaster& toRaster, int width, int height, const Progress& progress) {
    int cell = kSmallestCell / 2;
    while (cell * 2 < std::max(width, height))
        cell *= 2;
    for (;; cell /= 2) {
        progress.report(0, phrase("core", "Placing imagery"));
        Grid grid;
        grid.cell = cell;
        // An even number, so that cells can be judged by fours.
        grid.columns = 2 * ((width + 2 * cell - 1) / (2 * cell));
        grid.rows = 2 * ((height + 2 * cell - 1) / (2 * cell));
        std::vector<PlanePoint> points;
        for (int row = 0; row <= grid.rows; ++row)
            for (int column = 0; column <= grid.columns; ++column)
                points.push_back({static_cast<double>(column) * cell, static_cast<double>(row) * cell});
        grid.nodes = exactPlaces(toRaster, points);
        grid.exact.assign(static_cast<std::size_t>(grid.columns) * static_cast<std::size_t>(grid.rows), false);

        bool good = true;
        for (int row = 0; row < grid.rows; row += 2)
            for (int column = 0; column < grid.columns; column += 2) {
                const Fit fit = fitOfFour(grid, column, row);
                // A raster could hide between nodes that have no place, until they are near to each other.
                if (fit == Fit::Good || (fit == Fit::NoPlace && cell <= 4 * kSmallestCell))
                    continue;
                good = false;
                for (const auto& [x, y] : {std::pair{0, 0}, {1, 0}, {0, 1}, {1, 1}})
                    grid.exact[static_cast<std::size_t>(row + y) * static_cast<std::size_t>(grid.columns) +
                               static_cast<std::size_t>(column + x)] = true;
            }
        if (good || cell <= kSmallestCell / 2)
            return grid;
    }
}

/// Pixels of one level around a part of the picture, and how to find a place of the raster in them.
struct Window {
    PaintedPixels pixels;
    double scaleX = 1, scaleY = 1; ///< window = raster * scale - offset
    double offsetX = 0, offsetY = 0;
    /// What of the window is the raster: places outside have no colour.
    double left = 0, top = 0, right = 0, bottom = 0;
    int samplesX = 1, samplesY = 1; ///< of a pixel of the picture

    [[nodiscard]] PlanePoint at(PlanePoint place) const {
        return {place.x * scaleX - offsetX, place.y * scaleY - offsetY};
    }
};

std::uint32_t mixed(std::uint32_t from, std::uint32_t to, std::uint32_t share) {
    const std::uint32_t even = ((from & 0xff00ffU) * (256 - share) + (to & 0xff00ffU) * share + 0x800080U) >> 8;
    const std::uint32_t odd = ((from >> 8) & 0xff00ffU) * (256 - share) + ((to >> 8) & 0xff00ffU) * share + 0x800080U;
    return (even & 0xff00ffU) | (odd & 0xff00ff00U);
}

// Eight numbers of 16 bits at once: two neighbouring pixels. Every processor we build for has such registers, and the
// loop over the pixels of a picture is where a map's time goes.
using Lanes = std::uint16_t __attribute__((vector_size(16)));
using Bytes = std::uint8_t __attribute__((vector_size(8)));

inline Lanes widened(const std::uint8_t* pixels) {
    Bytes bytes;
    std::memcpy(&bytes, pixels, 8);
    return __builtin_convertvector(bytes, Lanes);
}

// The shares of two neighbours, in 256ths, for each fraction of a position. Made once: the processor is slow in moving
// single numbers into all lanes.
struct Shares {
    alignas(16) std::array<Lanes, 256> leftAndRight; ///< of the left pixel and of the right one
    alignas(16) std::array<Lanes, 256> next;         ///< of the lower row
};
constexpr Shares makeShares() {
    Shares shares{};
    for (unsigned part = 0; part < 256; ++part) {
        const auto next = static_cast<std::uint16_t>(part);
        const auto rest = static_cast<std::uint16_t>(256 - part);
        shares.leftAndRight[part] = Lanes{rest, rest, rest, rest, next, next, next, next};
        shares.next[part] = Lanes{next, next, next, next, next, next, next, next};
    }
    return shares;
}
constexpr Shares kShares = makeShares();
constexpr Lanes kWhole{256, 256, 256, 256, 256, 256, 256, 256};
constexpr Lanes kHalf{128, 128, 128, 128, 128, 128, 128, 128};

// Bilinear, from 16.16 fixed-point positions that already count from the middle of the first pixel.
inline std::uint32_t sample(const std::uint8_t* pixels, std::ptrdiff_t stride, std::int32_t x, std::int32_t y) {
    const std::uint8_t* const at = pixels + (y >> 16) * stride + static_cast<std::ptrdiff_t>(x >> 16) * 4;
    const Lanes lower = kShares.next[static_cast<std::size_t>((y >> 8) & 0xff)];
    const Lanes both = (widened(at) * (kWhole - lower) + widened(at + stride) * lower + kHalf) >> 8;
    const Lanes weighted = both * kShares.leftAndRight[static_cast<std::size_t>((x >> 8) & 0xff)];
    const Lanes turned = __builtin_shufflevector(weighted, weighted, 4, 5, 6, 7, 0, 1, 2, 3);
    const Lanes sum = (weighted + turned + kHalf) >> 8;
    const Bytes bytes = __builtin_convertvector(sum, Bytes);
    std::uint32_t value;
    std::memcpy(&value, &bytes, 4);
    return value;
}

// Weights of 256ths for a pixel's two neighbours. Bilinear interpolation weighs with a triangle two pixels wide, of the
// variance 1/6; where a pixel of the picture covers `ratio` of the raster, the triangle has to be `ratio` times as
// wide. Spreading beforehand adds the variance that is missing, twice the share; and no less than two samples within
// the pixel would, for on the raster's own pixels interpolation alone does not spread at all.
std::uint16_t neighbourShare(double ratio) {
    const double square = ratio * ratio;
    return static_cast<std::uint16_t>(std::lround(256 * std::max((square - 1) / 12, square / 32)));
}

// Each byte of `middle` with the ones before and after it, `share` of each; eight at a time.
void blend(const std::uint8_t* before, const std::uint8_t* middle, const std::uint8_t* after, std::uint8_t* target,
           std::size_t count, std::uint16_t share) {
    const auto own = static_cast<std::uint16_t>(256 - 2 * share);
    std::size_t at = 0;
    for (; at + 8 <= count; at += 8) {
        const Lanes sum =
            ((widened(before + at) + widened(after + at)) * share + widened(middle + at) * own + kHalf) >> 8;
        const Bytes bytes = __builtin_convertvector(sum, Bytes);
        std::memcpy(target + at, &bytes, 8);
    }
    for (; at < count; ++at)
        target[at] = static_cast<std::uint8_t>(((before[at] + after[at]) * share + middle[at] * own + 128) >> 8);
}

std::uint8_t* bytesOf(const PaintedPixels& pixels) { return reinterpret_cast<std::uint8_t*>(pixels.words.get()); }

// What was read may be a block that others share.
PaintedPixels copyOf(const PaintedPixels& pixels) {
    const auto count = static_cast<std::size_t>(pixels.width) * static_cast<std::size_t>(pixels.height);
    PaintedPixels copy = pixels;
    copy.words = std::make_shared_for_overwrite<std::uint32_t[]>(count);
    std::memcpy(copy.words.get(), pixels.words.get(), count * sizeof(std::uint32_t));
    return copy;
}

// The borders repeat themselves.
void spreadAlongRows(const PaintedPixels& image, std::uint16_t share) {
    const std::size_t length = static_cast<std::size_t>(image.width) * 4;
    std::vector<std::uint8_t> row(length + 8);
    for (int y = 0; y < image.height; ++y) {
        std::uint8_t* const target = bytesOf(image) + static_cast<std::size_t>(y) * length;
        std::memcpy(row.data(), target, 4);
        std::memcpy(row.data() + 4, target, length);
        std::memcpy(row.data() + 4 + length, target + length - 4, 4);
        blend(row.data(), row.data() + 4, row.data() + 8, target, length, share);
    }
}
void spreadAlongColumns(const PaintedPixels& image, std::uint16_t share) {
    const std::size_t length = static_cast<std::size_t>(image.width) * 4;
    std::vector<std::uint8_t> before(bytesOf(image), bytesOf(image) + length);
    std::vector<std::uint8_t> middle(length);
    for (int y = 0; y < image.height; ++y) {
        std::uint8_t* const target = bytesOf(image) + static_cast<std::size_t>(y) * length;
        std::memcpy(middle.data(), target, length);
        const bool last = y + 1 == image.height;
        blend(before.data(), middle.data(), last ? middle.data() : target + length, target, length, share);
        before.swap(middle);
    }
}

class Picture {
public:
    Picture(SharedBlocks& source, const PictureToRaster& toRaster, int width, int height, const Progress& progress)
        : m_source{source}, m_toRaster{toRaster}, m_progress{progress}, m_grid{makeGrid(toRaster, width, height,
                                                                                        progress)} {
        m_image.width = width;
        m_image.height = height;
        m_image.words =
            std::make_shared<std::uint32_t[]>(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    }

    PaintedPixels make() {
        fill({0, 0, m_image.width, m_image.height});
        const auto count = static_cast<std::size_t>(m_image.width) * static_cast<std::size_t>(m_image.height);
        std::uint32_t least = 255;
        std::uint32_t most = 0;
        for (std::size_t index = 0; index < count; ++index) {
            least = std::min(least, m_image.words[index] >> 24);
            most = std::max(most, m_image.words[index] >> 24);
        }
        m_image.opaque = least == 255;
        if (most == 0)
            m_image.words = nullptr;
        return std::move(m_image);
    }

private:
    struct Extent {
        double minX = std::numeric_limits<double>::infinity(), minY = minX, maxX = -minX, maxY = -minX;
        double perPixelX = 1, perPixelY = 1; ///< pixels of the raster across one of the picture

        void add(PlanePoint place) {
            minX = std::min(minX, place.x);
            maxX = std::max(maxX, place.x);
            minY = std::min(minY, place.y);
            maxY = std::max(maxY, place.y);
        }
    };

    [[nodiscard]] Rect cellsOf(Rect part) const {
        return {part.left / m_grid.cell, part.top / m_grid.cell, (part.right + m_grid.cell - 1) / m_grid.cell,
                (part.bottom + m_grid.cell - 1) / m_grid.cell};
    }

    // Where a part of the picture lies in the raster.
    [[nodiscard]] Extent extentOf(Rect part) const {
        Extent extent;
        double sumX = 0;
        double sumY = 0;
        int cells = 0;
        double leastX = std::numeric_limits<double>::infinity();
        double leastY = leastX;
        const Rect around = cellsOf(part);
        for (int row = around.top; row < around.bottom; ++row)
            for (int column = around.left; column < around.right; ++column) {
                const Place& a = m_grid.node(column, row);
                const Place& b = m_grid.node(column + 1, row);
                const Place& c = m_grid.node(column, row + 1);
                const Place& d = m_grid.node(column + 1, row + 1);
                for (const Place* place : {&a, &b, &c, &d})
                    if (*place)
                        extent.add(**place);
                if (!a || !b || !c || !d)
                    continue;
                const double x = std::hypot(b->x - a->x, c->x - a->x) / m_grid.cell;
                const double y = std::hypot(b->y - a->y, c->y - a->y) / m_grid.cell;
                sumX += x;
                sumY += y;
                leastX = std::min(leastX, x);
                leastY = std::min(leastY, y);
                ++cells;
            }
        if (cells > 0) {
            // As fine as the finest place needs, but a degenerate corner must not ask for the whole raster.
            extent.perPixelX = std::max({leastX, sumX / cells / 2, 1e-6});
            extent.perPixelY = std::max({leastY, sumY / cells / 2, 1e-6});
        }
        return extent;
    }

    void fill(Rect part) {
        m_progress.report(static_cast<double>(part.top) / m_image.height, phrase("core", "Reading imagery"));
        const Extent extent = extentOf(part);
        const PyramidLevel& base = m_source.levels().front();
        if (!(extent.maxX > 0 && extent.maxY > 0 && extent.minX < base.width && extent.minY < base.height) &&
            !hasExact(part))
            return;

        std::size_t level = 0;
        const auto& levels = m_source.levels();
        while (level + 1 < levels.size() && levels[level + 1].scaleX <= extent.perPixelX * 1.001 &&
               levels[level + 1].scaleY <= extent.perPixelY * 1.001)
            ++level;
        const PyramidLevel& from = levels[level];
        const double ratioX = extent.perPixelX / from.scaleX;
        const double ratioY = extent.perPixelY / from.scaleY;
        // What no overview does is left to the reading, in whole steps.
        const int shrinkX = std::max(1, static_cast<int>(std::min(ratioX, 1e6)));
        const int shrinkY = std::max(1, static_cast<int>(std::min(ratioY, 1e6)));
        const auto margin = [](int shrink, double ratio) {
            return shrink * (3 + static_cast<int>(std::min(ratio, 1e6) / shrink));
        };
        const auto low = [](double value, double scale, double offset, int around, int size) {
            return static_cast<int>(
                std::clamp(std::floor(value / scale - offset) - around, 0.0, static_cast<double>(size)));
        };
        const auto high = [](double value, double scale, double offset, int around, int size) {
            return static_cast<int>(
                std::clamp(std::ceil(value / scale - offset) + around, 0.0, static_cast<double>(size)));
        };
        const int left = low(extent.minX, from.scaleX, from.offsetX, margin(shrinkX, ratioX), from.width);
        const int top = low(extent.minY, from.scaleY, from.offsetY, margin(shrinkY, ratioY), from.height);
        const int right = high(extent.maxX, from.scaleX, from.offsetX, margin(shrinkX, ratioX), from.width);
        const int bottom = high(extent.maxY, from.scaleY, from.offsetY, margin(shrinkY, ratioY), from.height);
        if (right <= left || bottom <= top)
            return;
        const int width = (right - left + shrinkX - 1) / shrinkX;
        int height = (bottom - top + shrinkY - 1) / shrinkY;
        if (shrinkY > 1) {
            const int rows =
                m_source.source().rowsForOne(level, {left, top, right - left, bottom - top}, width, height);
            height = (height + rows - 1) / rows;
        }

        // A part across the seam of a world map, or far from where the frame is true, would read much more than it
        // shows.
        const double needed = static_cast<double>(width) * height;
        const double shown = static_cast<double>(part.right - part.left) * (part.bottom - part.top);
        if (needed > 12 * shown + 65536 || width > 16000 || height > 16000) {
            if (part.right - part.left <= kSmallestPart && part.bottom - part.top <= kSmallestPart)
                fillOneByOne(part, level);
            else
                fillInQuarters(part);
            return;
        }

        Window window;
        window.pixels = m_source.painted(level, {left, top, right - left, bottom - top}, width, height, m_progress);
        if (!window.pixels.words)
            return;
        const double shrunkX = static_cast<double>(width) / (right - left);
        const double shrunkY = static_cast<double>(height) / (bottom - top);
        window.scaleX = shrunkX / from.scaleX;
        window.scaleY = shrunkY / from.scaleY;
        window.offsetX = (from.offsetX + left) * shrunkX;
        window.offsetY = (from.offsetY + top) * shrunkY;
        window.left = -left * shrunkX;
        window.top = -top * shrunkY;
        window.right = (from.width - left) * shrunkX;
        window.bottom = (from.height - top) * shrunkY;
        const double coveredX = extent.perPixelX * window.scaleX;
        const double coveredY = extent.perPixelY * window.scaleY;
        // Up to two, the usual case between two overviews, it is cheaper to spread the window than to take more
        // samples.
        const auto isSpread = [](double covered) { return covered > 1.02 && covered <= 2.1; };
        const auto samples = [&](double covered) {
            return covered <= 2.1 ? 1 : std::min(static_cast<int>(std::ceil(covered)), kMostSamples);
        };
        window.samplesX = samples(coveredX);
        window.samplesY = samples(coveredY);
        if (isSpread(coveredX) || isSpread(coveredY))
            window.pixels = copyOf(window.pixels);
        if (isSpread(coveredX))
            spreadAlongRows(window.pixels, neighbourShare(coveredX));
        if (isSpread(coveredY))
            spreadAlongColumns(window.pixels, neighbourShare(coveredY));
        draw(part, window);
    }

    [[nodiscard]] bool hasExact(Rect part) const {
        const Rect around = cellsOf(part);
        for (int row = around.top; row < around.bottom; ++row)
            for (int column = around.left; column < around.right; ++column)
                if (m_grid.isExact(column, row))
                    return true;
        return false;
    }

    void fillInQuarters(Rect part) {
        const int middleX = part.left + std::max(kSmallestPart, (part.right - part.left) / 2);
        const int middleY = part.top + std::max(kSmallestPart, (part.bottom - part.top) / 2);
        for (const Rect quarter :
             {Rect{part.left, part.top, std::min(middleX, part.right), std::min(middleY, part.bottom)},
              Rect{middleX, part.top, part.right, std::min(middleY, part.bottom)},
              Rect{part.left, middleY, std::min(middleX, part.right), part.bottom},
              Rect{middleX, middleY, part.right, part.bottom}})
            if (quarter.left < quarter.right && quarter.top < quarter.bottom)
                fill(quarter);
    }

    [[nodiscard]] std::uint8_t* pixel(int x, int y) {
        return bytesOf(m_image) +
               (static_cast<std::size_t>(y) * static_cast<std::size_t>(m_image.width) + static_cast<std::size_t>(x)) *
                   4;
    }

    void fillOneByOne(Rect part, std::size_t level) {
        const PyramidLevel& from = m_source.levels()[level];
        std::vector<PlanePoint> points;
        for (int y = part.top; y < part.bottom; ++y)
            for (int x = part.left; x < part.right; ++x)
                points.push_back({x + 0.5, y + 0.5});
        const std::vector<Place> places = exactPlaces(m_toRaster, points);
        std::size_t index = 0;
        for (int y = part.top; y < part.bottom; ++y)
            for (int x = part.left; x < part.right; ++x, ++index) {
                if (!places[index])
                    continue;
                const double column = std::floor(places[index]->x / from.scaleX - from.offsetX);
                const double row = std::floor(places[index]->y / from.scaleY - from.offsetY);
                if (column < 0 || row < 0 || column >= from.width || row >= from.height)
                    continue;
                const PaintedPixels one =
                    m_source.painted(level, {static_cast<int>(column), static_cast<int>(row), 1, 1}, 1, 1, m_progress);
                if (one.words)
                    std::memcpy(pixel(x, y), one.words.get(), 4);
            }
    }

    void draw(Rect part, const Window& window) {
        const Rect around = cellsOf(part);
        for (int row = around.top; row < around.bottom; ++row)
            for (int column = around.left; column < around.right; ++column) {
                const Rect cell{std::max(part.left, column * m_grid.cell), std::max(part.top, row * m_grid.cell),
                                std::min(part.right, (column + 1) * m_grid.cell),
                                std::min(part.bottom, (row + 1) * m_grid.cell)};
                if (m_grid.isExact(column, row))
                    drawExactly(cell, window);
                else if (m_grid.node(column, row) && m_grid.node(column + 1, row) && m_grid.node(column, row + 1) &&
                         m_grid.node(column + 1, row + 1))
                    drawCell(cell, column, row, window);
            }
    }

    // One pixel of the picture, its middle at `middle` of the window; `alongX` and `alongY` are its sides there.
    void drawPixel(std::uint8_t* target, PlanePoint middle, PlanePoint alongX, PlanePoint alongY,
                   const Window& window) {
        std::array<unsigned, 4> sum{};
        const PaintedPixels& from = window.pixels;
        for (int j = 0; j < window.samplesY; ++j)
            for (int i = 0; i < window.samplesX; ++i) {
                const double shareX = (i + 0.5) / window.samplesX - 0.5;
                const double shareY = (j + 0.5) / window.samplesY - 0.5;
                const double x = middle.x + alongX.x * shareX + alongY.x * shareY;
                const double y = middle.y + alongX.y * shareX + alongY.y * shareY;
                if (!(x >= window.left && y >= window.top && x <= window.right && y <= window.bottom))
                    continue;
                const double column = std::clamp(x - 0.5, 0.0, from.width - 1.0);
                const double row = std::clamp(y - 0.5, 0.0, from.height - 1.0);
                const auto firstColumn =
                    std::min(static_cast<std::size_t>(column), static_cast<std::size_t>(from.width - 1));
                const auto firstRow =
                    std::min(static_cast<std::size_t>(row), static_cast<std::size_t>(from.height - 1));
                const auto nextColumn = std::min(firstColumn + 1, static_cast<std::size_t>(from.width - 1));
                const auto nextRow = std::min(firstRow + 1, static_cast<std::size_t>(from.height - 1));
                const auto colour = [&](std::size_t atColumn, std::size_t atRow) {
                    std::uint32_t value;
                    std::memcpy(&value, &bytesOf(from)[(atRow * static_cast<std::size_t>(from.width) + atColumn) * 4],
                                4);
                    return value;
                };
                const auto part = [](double value) {
                    return std::min(static_cast<std::uint32_t>((value - std::floor(value)) * 256.0), 255U);
                };
                const std::uint32_t value =
                    mixed(mixed(colour(firstColumn, firstRow), colour(nextColumn, firstRow), part(column)),
                          mixed(colour(firstColumn, nextRow), colour(nextColumn, nextRow), part(column)), part(row));
                std::array<std::uint8_t, 4> bytes;
                std::memcpy(bytes.data(), &value, 4);
                for (std::size_t band = 0; band < 4; ++band)
                    sum[band] += bytes[band];
            }
        const auto count = static_cast<unsigned>(window.samplesX * window.samplesY);
        for (std::size_t band = 0; band < 4; ++band)
            target[band] = static_cast<std::uint8_t>((sum[band] + count / 2) / count);
    }

    void drawExactly(Rect cell, const Window& window) {
        std::vector<PlanePoint> points;
        for (int y = cell.top; y < cell.bottom; ++y)
            for (int x = cell.left; x < cell.right; ++x) {
                points.push_back({x + 0.5, y + 0.5});
                points.push_back({x + 0.75, y + 0.5});
                points.push_back({x + 0.5, y + 0.75});
            }
        const std::vector<Place> places = exactPlaces(m_toRaster, points);
        std::size_t index = 0;
        for (int y = cell.top; y < cell.bottom; ++y)
            for (int x = cell.left; x < cell.right; ++x, index += 3) {
                if (!places[index])
                    continue;
                const PlanePoint middle = window.at(*places[index]);
                const auto side = [&](const Place& quarter) {
                    if (!quarter)
                        return PlanePoint{};
                    const PlanePoint at = window.at(*quarter);
                    const PlanePoint whole{4 * (at.x - middle.x), 4 * (at.y - middle.y)};
                    // Across a seam the next place is at the other end of the raster.
                    return std::hypot(whole.x, whole.y) <= 2 * kMostSamples ? whole : PlanePoint{};
                };
                drawPixel(pixel(x, y), middle, side(places[index + 1]), side(places[index + 2]), window);
            }
    }

    void drawCell(Rect cell, int column, int row, const Window& window) {
        const PlanePoint a = window.at(*m_grid.node(column, row));
        const PlanePoint b = window.at(*m_grid.node(column + 1, row));
        const PlanePoint c = window.at(*m_grid.node(column, row + 1));
        const PlanePoint d = window.at(*m_grid.node(column + 1, row + 1));
        const PlanePoint low{std::min({a.x, b.x, c.x, d.x}), std::min({a.y, b.y, c.y, d.y})};
        const PlanePoint high{std::max({a.x, b.x, c.x, d.x}), std::max({a.y, b.y, c.y, d.y})};
        if (high.x < window.left || low.x > window.right || high.y < window.top || low.y > window.bottom)
            return;
        const PaintedPixels& from = window.pixels;
        const double size = m_grid.cell;
        // So far inside that no sample of a pixel needs a look at the border.
        const double reachX = 2 + (std::max(std::abs(b.x - a.x), std::abs(d.x - c.x)) +
                                   std::max(std::abs(c.x - a.x), std::abs(d.x - b.x))) /
                                      (2 * size);
        const double reachY = 2 + (std::max(std::abs(b.y - a.y), std::abs(d.y - c.y)) +
                                   std::max(std::abs(c.y - a.y), std::abs(d.y - b.y))) /
                                      (2 * size);

        const int count = cell.right - cell.left;
        const double across = cell.left + 0.5 - column * size;
        const PlanePoint stepDown{((c.x - a.x) + (d.x - b.x)) / (2 * size), ((c.y - a.y) + (d.y - b.y)) / (2 * size)};
        for (int y = cell.top; y < cell.bottom; ++y) {
            const double down = (y + 0.5 - row * size) / size;
            const PlanePoint left{a.x + (c.x - a.x) * down, a.y + (c.y - a.y) * down};
            const PlanePoint right{b.x + (d.x - b.x) * down, b.y + (d.y - b.y) * down};
            const PlanePoint step{(right.x - left.x) / size, (right.y - left.y) / size};
            const PlanePoint first{left.x + step.x * across, left.y + step.y * across};

            Span inside{0, count};
            inside.keep(first.x, step.x, reachX, from.width - reachX);
            inside.keep(first.y, step.y, reachY, from.height - reachY);
            Span touched{0, count};
            touched.keep(first.x, step.x, window.left - reachX, window.right + reachX);
            touched.keep(first.y, step.y, window.top - reachY, window.bottom + reachY);
            if (inside.begin >= inside.end)
                inside = {touched.end, touched.end};
            const auto drawSlowly = [&](int begin, int end) {
                for (int x = begin; x < end; ++x)
                    drawPixel(pixel(cell.left + x, y), {first.x + step.x * x, first.y + step.y * x}, step, stepDown,
                              window);
            };
            drawSlowly(touched.begin, inside.begin);
            if (inside.begin < inside.end)
                drawRow(pixel(cell.left + inside.begin, y), inside.end - inside.begin,
                        {first.x + step.x * inside.begin, first.y + step.y * inside.begin}, step, stepDown, window);
            drawSlowly(inside.end, touched.end);
        }
    }

    // Pixels of a row.
    struct Span {
        int begin = 0, end = 0;

        // Only those whose position, running on evenly, lies between two numbers.
        void keep(double first, double step, double low, double high) {
            if (std::abs(step) < 1e-12) {
                if (!(first >= low && first <= high))
                    end = begin;
                return;
            }
            const double one = (low - first) / step;
            const double other = (high - first) / step;
            begin = static_cast<int>(
                std::clamp(std::ceil(std::min(one, other)), static_cast<double>(begin), static_cast<double>(end)));
            end = static_cast<int>(
                std::clamp(std::floor(std::max(one, other)) + 1, static_cast<double>(begin), static_cast<double>(end)));
        }
    };

    static std::int32_t fixed(double value) { return static_cast<std::int32_t>(std::lround(value * kOne)); }

    void drawRow(std::uint8_t* target, int count, PlanePoint first, PlanePoint step, PlanePoint stepDown,
                 const Window& window) {
        const std::uint8_t* const pixels = bytesOf(window.pixels);
        const std::ptrdiff_t stride = static_cast<std::ptrdiff_t>(window.pixels.width) * 4;
        const int samples = window.samplesX * window.samplesY;
        // The position is followed with 16 more bits than it is used with, so that a long row does not drift.
        const auto wide = [](double value) { return std::llround(value * kOne * kOne); };
        std::int64_t x = wide(first.x - 0.5);
        std::int64_t y = wide(first.y - 0.5);
        const std::int64_t stepX = wide(step.x);
        const std::int64_t stepY = wide(step.y);
        const auto position = [](std::int64_t value) { return static_cast<std::int32_t>(value >> 16); };
        if (samples == 1) {
            for (int index = 0; index < count; ++index, x += stepX, y += stepY) {
                const std::uint32_t value = sample(pixels, stride, position(x), position(y));
                std::memcpy(target + static_cast<std::ptrdiff_t>(index) * 4, &value, 4);
            }
        } else {
            std::array<std::int32_t, kMostSamples * kMostSamples> awayX;
            std::array<std::int32_t, kMostSamples * kMostSamples> awayY;
            for (int j = 0; j < window.samplesY; ++j)
                for (int i = 0; i < window.samplesX; ++i) {
                    const double shareX = (i + 0.5) / window.samplesX - 0.5;
                    const double shareY = (j + 0.5) / window.samplesY - 0.5;
                    const auto index = static_cast<std::size_t>(j * window.samplesX + i);
                    awayX[index] = fixed(step.x * shareX + stepDown.x * shareY);
                    awayY[index] = fixed(step.y * shareX + stepDown.y * shareY);
                }
            const auto half = static_cast<std::uint32_t>(samples / 2);
            const auto reciprocal = static_cast<std::uint32_t>((65536 + samples - 1) / samples);
            for (int index = 0; index < count; ++index, x += stepX, y += stepY) {
                std::uint64_t even = 0; // two sums, 32 bits apart
                std::uint64_t odd = 0;
                for (std::size_t at = 0; at < static_cast<std::size_t>(samples); ++at) {
                    const std::uint32_t value =
                        sample(pixels, stride, position(x) + awayX[at], position(y) + awayY[at]);
                    even += (value & 0xffU) | (static_cast<std::uint64_t>(value & 0xff0000U) << 16);
                    odd += ((value >> 8) & 0xffU) | (static_cast<std::uint64_t>(value & 0xff000000U) << 8);
                }
                const auto average = [&](std::uint64_t sums, int shift) {
                    return ((static_cast<std::uint32_t>(sums >> shift) + half) * reciprocal) >> 16;
                };
                const std::uint32_t value =
                    average(even, 0) | (average(odd, 0) << 8) | (average(even, 32) << 16) | (average(odd, 32) << 24);
                std::memcpy(target + static_cast<std::ptrdiff_t>(index) * 4, &value, 4);
            }
        }
    }

    SharedBlocks& m_source;
    const PictureToRaster& m_toRaster;
    const Progress& m_progress;
    Grid m_grid;
    PaintedPixels m_image; ///< zeros at first
};

} // namespace

PaintedPixels resampled(SharedBlocks& source, const PictureToRaster& toRaster, int width, int height,
                        const Progress& progress) {
    return Picture{source, toRaster, width, height, progress}.make();
}

RgbaImage asImage(const PaintedPixels& pixels) {
    const auto count = static_cast<std::size_t>(pixels.width) * static_cast<std::size_t>(pixels.height);
    RgbaImage image{pixels.width, pixels.height, std::vector<std::uint8_t>(count * 4)};
    if (!pixels.words)
        return image;
    for (std::size_t index = 0; index < count; ++index) {
        const std::uint32_t word = pixels.words[index];
        const std::uint32_t alpha = word >> 24;
        std::uint8_t* const pixel = &image.pixels[index * 4];
        for (std::size_t band = 0; band < 3; ++band) {
            const std::uint32_t value = word >> (16 - 8 * band) & 255U;
            pixel[band] = static_cast<std::uint8_t>(alpha == 255 ? value
                                                    : alpha == 0 ? 0U
                                                                 : std::min(255U, (value * 255U + alpha / 2) / alpha));
        }
        pixel[3] = static_cast<std::uint8_t>(alpha);
    }
    return image;
}

} // namespace fencewright::raster::detail
