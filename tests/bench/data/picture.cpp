#include "bench/data/picture.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fencewright::bench {
namespace {

std::uint32_t scrambled(std::uint32_t x, std::uint32_t y, std::uint32_t salt) {
    std::uint32_t h = x * 0x9E3779B1U ^ y * 0x85EBCA77U ^ salt * 0xC2B2AE3DU;
    h = (h ^ (h >> 15)) * 0x2C1B3C6DU;
    h = (h ^ (h >> 12)) * 0x297A2D39U;
    return h ^ (h >> 15);
}

/// 0 to 1, smooth, of that period in cells.
double swell(double x, double y, int period, std::uint32_t salt) {
    const int left = int(std::floor(x)), top = int(std::floor(y));
    const double u = x - left, v = y - top;
    const auto at = [&](int i, int k) {
        return double(scrambled(std::uint32_t(i % period), std::uint32_t(k % period), salt)) / 4294967295.0;
    };
    const double s = u * u * (3 - 2 * u), t = v * v * (3 - 2 * v);
    return (at(left, top) * (1 - s) + at(left + 1, top) * s) * (1 - t) +
           (at(left, top + 1) * (1 - s) + at(left + 1, top + 1) * s) * t;
}

constexpr double kFields[][3] = {{96, 116, 62}, {128, 132, 78}, {158, 142, 96}, {84, 102, 60}, {140, 120, 88}};

} // namespace

Picture farmland(int side) {
    Picture picture{side, std::vector<std::uint8_t>(std::size_t(side) * std::size_t(side) * 3)};
    constexpr int fieldPixels = 256;
    const int fields = side / fieldPixels, hills = side / 512, clumps = side / 16;
    for (int y = 0; y < side; ++y)
        for (int x = 0; x < side; ++x) {
            const double hill = swell(x / 512.0, y / 512.0, hills, 1), wood = swell(x / 512.0, y / 512.0, hills, 2),
                         clump = swell(x / 16.0, y / 16.0, clumps, 3);
            const int fx = x / fieldPixels, fy = y / fieldPixels;
            const std::uint32_t field = scrambled(std::uint32_t(fx % fields), std::uint32_t(fy % fields), 4);
            const auto& colour = kFields[field % 5];
            // Whole furrows to a field, so that the picture closes on itself.
            const double along = field & 64 ? x : y;
            double light = 18 * hill + 6 * std::sin(along * 2 * std::numbers::pi / 8) + 10 * clump;
            light += double(scrambled(std::uint32_t(x), std::uint32_t(y), 5) % 31) - 15;
            const int inX = x % fieldPixels, inY = y % fieldPixels;
            double shade[3] = {colour[0] + light, colour[1] + light, colour[2] + light};
            if (inX < 5 || inY < 5) {
                shade[0] = shade[1] = shade[2] = 168 + light;
            } else if (wood > 0.62) {
                shade[0] = 36 + 46 * clump;
                shade[1] = 58 + 52 * clump;
                shade[2] = 34 + 30 * clump;
            }
            auto* pixel = &picture.pixels[(std::size_t(y) * std::size_t(side) + std::size_t(x)) * 3];
            for (int band = 0; band < 3; ++band)
                pixel[band] = std::uint8_t(std::clamp(shade[band], 0.0, 255.0));
        }
    return picture;
}

Picture halved(const Picture& picture) {
    Picture half{picture.side / 2, {}};
    const std::size_t row = std::size_t(picture.side) * 3;
    half.pixels.reserve(row / 2 * std::size_t(half.side));
    for (int y = 0; y < half.side; ++y)
        for (int x = 0; x < half.side; ++x)
            for (int band = 0; band < 3; ++band) {
                const auto* at = &picture.pixels[std::size_t(y) * 2 * row + std::size_t(x) * 6 + std::size_t(band)];
                half.pixels.push_back(std::uint8_t((at[0] + at[3] + at[row] + at[row + 3] + 2) / 4));
            }
    return half;
}

Picture repeated(const Picture& picture, int times) {
    Picture many{picture.side * times, {}};
    const std::size_t row = std::size_t(picture.side) * 3;
    many.pixels.reserve(picture.pixels.size() * std::size_t(times) * std::size_t(times));
    for (int y = 0; y < many.side; ++y)
        for (int i = 0; i < times; ++i) {
            const auto begin = picture.pixels.begin() + std::ptrdiff_t(std::size_t(y % picture.side) * row);
            many.pixels.insert(many.pixels.end(), begin, begin + std::ptrdiff_t(row));
        }
    return many;
}

} // namespace fencewright::bench
