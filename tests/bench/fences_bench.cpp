// Fences: painting and editing many of them, against painting every corner of all.

#include "bench/bar.h"
#include "bench/fence_sets.h"
#include "bench/map_stage.h"

#include "desktop/canvas/fence_painter.h"
#include "support/plain_fence.h"

#include <QApplication>
#include <QPainter>
#include <QPainterPath>

#include <cstdio>
#include <stdexcept>

using namespace fencewright;
using namespace fencewright::bench;
using namespace fencewright::desktop;

namespace {

const QRectF kSeen{0, 0, 1920, 1080};

/// The fences as the map shows them, and all their corners in widget pixels.
struct Scene {
    model::FenceSet set;
    session::OutlineCache outlines;
    ViewTransform view;
    std::vector<FencePainter::Item> items;
    std::vector<QPolygonF> rings;

    explicit Scene(int count, int corners, double partOfWidth)
        : set{fences(count, corners, countyBox(20), partOfWidth)} {
        view.setSize(kSeen.size());
        const geometry::Box box = countyBox(20);
        view.setOrigin({(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2});
        view.showBox(box, 0);
        for (const auto& outlined : outlines.outlined(set)) {
            items.push_back({outlined, FenceLook::Active});
            QPolygonF ring;
            for (const QPointF& point : view.planeOf(outlined->surface.parts.at(0).shell.corners))
                ring.append(view.toWidget(point));
            rings.push_back(ring);
        }
    }
};

/// A polygon of QPainter for each fence: hatch, and a smooth line of two pixels.
double naive(QImage& picture, const std::vector<QPolygonF>& rings) {
    picture.fill(Qt::transparent);
    return milliseconds([&] {
        QPainter painter{&picture};
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setPen(QPen{QColor{160, 20, 100}, 2.0});
        painter.setBrush(QBrush{QColor{160, 20, 100}, Qt::BDiagPattern});
        for (const QPolygonF& ring : rings)
            painter.drawPolygon(ring);
    });
}

QImage blank() {
    QImage picture{1920, 1080, QImage::Format_ARGB32_Premultiplied};
    picture.fill(Qt::transparent);
    return picture;
}

Figures repaint(const Options& options) {
    Scene scene{200, 1000, 0.11};
    FencePainter fencePainter;
    QImage picture = blank(), plain = blank();
    return interleaved(
        options.rounds(),
        [&] {
            picture.fill(Qt::transparent);
            return milliseconds([&] {
                QPainter painter{&picture};
                fencePainter.paint(painter, scene.view, scene.items, kSeen);
            });
        },
        [&] { return naive(plain, scene.rings); });
}

/// The map's own style drawn through every corner by QPainter's pens, eight times as large and averaged, against what
/// the painter draws: pixels that differ by more than an eighth of a colour's range, of those that anything covers.
Figures difference(const Options&) {
    Scene scene{200, 1000, 0.11};
    FencePainter fencePainter;
    QImage ours = blank(), smooth = blank();
    {
        QPainter painter{&ours};
        fencePainter.paint(painter, scene.view, scene.items, kSeen);
    }
    std::vector<support::PlainFence> plain;
    for (std::size_t i = 0; i < scene.rings.size(); ++i)
        plain.push_back({scene.rings[i], scene.items[i].fence->fence->kind});
    {
        QPainter painter{&smooth};
        for (const support::PlainFence& fence : plain)
            support::fillPlainly(painter, fence.ring, fence.kind);
        painter.setRenderHint(QPainter::Antialiasing);
        for (const support::PlainFence& fence : plain)
            support::strokePlainly(painter, fence.ring, fence.kind, false, kSeen);
    }
    const QImage all = support::plainPicture(plain, ours.size(), 8);
    std::size_t covered = 0;
    for (int y = 0; y < ours.height(); ++y)
        for (int x = 0; x < ours.width(); ++x)
            covered += qAlpha(ours.pixel(x, y)) > 0;
    if (covered < 100'000)
        throw std::runtime_error{"hardly anything was painted"};
    const support::PictureDifference apart = support::differenceOf(ours, all);
    char note[240];
    std::snprintf(note, sizeof note,
                  "off by more than 32 of 255 in any channel; of the pixels of lines alone %.2f %%. QPainter drawing "
                  "smooth at the picture's own size is off by %.1f %%: it adds up what short pieces of a line cover",
                  100.0 * apart.lines, 100.0 * support::differenceOf(smooth, all).covered);
    return {.ours = 100.0 * apart.covered, .note = note};
}

/// Frames in which a corner of a fence is dragged, the mouse event and the whole map's painting included.
Figures drag(const Options& options, int count, int corners, double partOfWidth) {
    MapStage stage{options.data / "cache"};
    stage.addFences(fences(count, corners, countyBox(20), partOfWidth));
    stage.map().zoomTo(countyBox(20));
    stage.map().chooseTool("select");
    stage.rest();
    Scene scene{count, corners, partOfWidth};
    QImage plain = blank();

    // The one nearest the middle, so that its corners are in sight.
    const model::Roster<model::Fence>& roster = stage.document().set().fences;
    const auto cornerOf = [&](std::size_t i) {
        return stage.map().toWidget(std::get<model::DrawnPolygon>(roster[i].shape).polygon.shell.corners.front());
    };
    std::size_t nearest = 1;
    const auto distance = [&](std::size_t i) { return QLineF{cornerOf(i), QPointF{960, 540}}.length(); };
    for (std::size_t i = 1; i < roster.size(); ++i)
        if (distance(i) < distance(nearest))
            nearest = i;
    const model::FenceId id = roster[nearest].id;
    stage.map().select(id);
    stage.rest();
    constexpr int frames = 20;
    return interleaved(
        options.rounds(),
        [&] {
            const model::FenceSet before = stage.document().set();
            QPointF at = cornerOf(nearest);
            stage.moveMouse(at);
            stage.press(at, Qt::LeftButton);
            std::vector<double> times;
            for (int i = 0; i < frames; ++i) {
                at += QPointF{5, i % 2 == 0 ? 3.0 : -3.0};
                times.push_back(milliseconds([&] {
                    stage.moveMouse(at, Qt::LeftButton);
                    stage.paint();
                }));
                stage.breathe();
            }
            stage.release(at, Qt::LeftButton);
            if (stage.document().set() == before)
                throw std::runtime_error{"the corner was not dragged"};
            stage.document().undoStack().undo();
            stage.rest(); // the audit of so many goes on meanwhile, as it does for a person
            return median(times);
        },
        [&] { return naive(plain, scene.rings); });
}

} // namespace

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication application{argc, argv};
    return runBars(
        argc, argv,
        {{"200 fences, 200,000 corners: repaint, against drawPolygon of them all (hatch, smooth line of 2 pixels)",
          "ms", Sense::AtMost, 0.25, repaint},
         {"200 fences, 200,000 corners: pixels that differ from painting every corner with QPainter's pens", "%",
          Sense::AtMost, 1.0, difference},
         {"200 fences, 200,000 corners: a frame while a corner is dragged, against the same drawPolygon", "ms",
          Sense::AtMost, 0.1, [](const Options& options) { return drag(options, 200, 1000, 0.11); }},
         {"10,000 fences, 1,000,000 corners: a frame while a corner is dragged, against drawPolygon of them all", "ms",
          Sense::AtMost, 0.1, [](const Options& options) { return drag(options, 10'000, 100, 0.015); }}});
}
