#pragma once

#include "desktop/canvas/comb.h"
#include "desktop/canvas/fence_painter.h"
#include "desktop/palette.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <array>
#include <vector>

namespace fencewright::support {

/// The tint of a keep-out that is in force, as QPainter fills polygons.
inline void fillPlainly(QPainter& painter, const QPolygonF& ring, model::FenceKind kind) {
    if (kind != model::FenceKind::KeepOut)
        return;
    QColor tint = desktop::mapColour(kind);
    tint.setAlpha(42);
    painter.setPen(Qt::NoPen);
    painter.setBrush(tint);
    painter.drawPolygon(ring);
}

/// The boundary of a fence in the map's style, drawn with QPainter's pens alone through every corner: none of the
/// painter's thinning, cutting off and filling of pixels. Where the ticks of the comb stand is a rule of the style, and
/// is asked of combOf().
/// @param quiet  dashed, without a comb.
inline void strokePlainly(QPainter& painter, const QPolygonF& ring, model::FenceKind kind, bool quiet,
                          const QRectF& seen) {
    const QColor colour = desktop::mapColour(kind);
    const auto casing = [](int alpha) {
        QColor made = QColor::fromRgba(desktop::kMapCasing);
        made.setAlpha(alpha);
        return made;
    };
    painter.setBrush(Qt::NoBrush);
    if (quiet) {
        painter.setPen(QPen{casing(190), 4.4, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin});
        painter.drawPolygon(ring);
        QPen dashes{colour, 1.6, Qt::CustomDashLine, Qt::FlatCap, Qt::RoundJoin};
        dashes.setDashPattern({5.0, 3.5});
        painter.setPen(dashes);
        painter.drawPolygon(ring);
        return;
    }
    constexpr double line = 2.4, lineCasing = 5.2, tick = 1.5, tickCasing = 3.3;
    const auto pen = [](const QColor& ink, double width) {
        return QPen{ink, width, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin};
    };
    painter.setPen(pen(casing(225), lineCasing));
    painter.drawPolygon(ring);
    // All ticks are one path, for what is translucent must not lie over itself where they cross. Their round ends reach
    // as far as blunt ones of the comb's length would.
    QPainterPath ticks;
    for (const QLineF& one : desktop::combOf(
             ring, kind == model::FenceKind::KeepOut ? desktop::CombSide::Inside : desktop::CombSide::Outside, seen)) {
        ticks.moveTo(one.p1());
        ticks.lineTo(one.pointAt(1.0 - tick / 2.0 / desktop::kCombTickPixels));
    }
    for (const QPen& coat : {pen(casing(130), tickCasing), pen(colour, tick)})
        painter.strokePath(ticks, coat);
    painter.setPen(pen(colour, line));
    painter.drawPolygon(ring);
}

/// A fence to be painted plainly, in widget pixels.
struct PlainFence {
    QPolygonF ring;
    model::FenceKind kind = model::FenceKind::KeepOut;
    bool quiet = false;
};

/// All of them on nothing, tints first, drawn so many times as large and averaged: what smooth edges stand for. Drawn
/// with QPainter's own smooth edges, a rough line comes out fatter: it adds up what each short piece covers of a pixel,
/// also where they cover the same.
inline QImage plainPicture(const std::vector<PlainFence>& fences, const QSize& size, int times) {
    QImage picture{size, QImage::Format_ARGB32_Premultiplied};
    constexpr int band = 120;
    constexpr double reach = 20.0;
    for (int top = 0; top < size.height(); top += band) {
        const QRectF seen(0, top, size.width(), std::min(band, size.height() - top));
        QImage large{(seen.size() * times).toSize(), QImage::Format_ARGB32_Premultiplied};
        large.fill(Qt::transparent);
        QPainter painter{&large};
        painter.scale(times, times);
        painter.translate(0, -top);
        const auto isNear = [&](const PlainFence& fence) {
            return fence.ring.boundingRect().adjusted(-reach, -reach, reach, reach).intersects(seen);
        };
        for (const PlainFence& fence : fences)
            if (isNear(fence) && !fence.quiet)
                fillPlainly(painter, fence.ring, fence.kind);
        for (const PlainFence& fence : fences)
            if (isNear(fence))
                strokePlainly(painter, fence.ring, fence.kind, fence.quiet, QRectF{QPointF{}, size});
        painter.end();
        for (int y = 0; y < int(seen.height()); ++y)
            for (int x = 0; x < size.width(); ++x) {
                std::array<int, 4> sums{};
                for (int j = 0; j < times; ++j) {
                    const auto* line = reinterpret_cast<const QRgb*>(large.constScanLine(y * times + j)) + x * times;
                    for (int i = 0; i < times; ++i) {
                        sums[0] += qRed(line[i]);
                        sums[1] += qGreen(line[i]);
                        sums[2] += qBlue(line[i]);
                        sums[3] += qAlpha(line[i]);
                    }
                }
                for (int& sum : sums)
                    sum /= times * times;
                reinterpret_cast<QRgb*>(picture.scanLine(top + y))[x] = qRgba(sums[0], sums[1], sums[2], sums[3]);
            }
    }
    return picture;
}

/// How much two pictures on nothing differ to the eye.
struct PictureDifference {
    double covered = 0.0; ///< the share of the pixels that anything covers in either
    double lines = 0.0;   ///< the share of those that more than a tint covers
};
inline PictureDifference differenceOf(const QImage& a, const QImage& b) {
    constexpr int told = 32;  // of 255: common practice, no published source
    constexpr int tint = 128; // more covers what only lines do; of many tints that lie over each other, less
    std::size_t covered = 0, lines = 0, different = 0;
    for (int y = 0; y < a.height(); ++y)
        for (int x = 0; x < a.width(); ++x) {
            const QRgb one = a.pixel(x, y), other = b.pixel(x, y);
            covered += qAlpha(one) > 0 || qAlpha(other) > 0;
            lines += qAlpha(one) > tint || qAlpha(other) > tint;
            different += std::max({std::abs(qRed(one) - qRed(other)), std::abs(qGreen(one) - qGreen(other)),
                                   std::abs(qBlue(one) - qBlue(other)), std::abs(qAlpha(one) - qAlpha(other))}) > told;
        }
    const auto share = [&](std::size_t of) { return of ? double(different) / double(of) : 0.0; };
    return {share(covered), share(lines)};
}

} // namespace fencewright::support
