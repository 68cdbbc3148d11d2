// Live truth: how long after a movement of the mouse the operating area and the findings are those of the set as it
// is, while a corner is dragged; and what an audit costs that remembers the one before.

#include "audit/audit.h"
#include "bench/bar.h"
#include "bench/fence_sets.h"
#include "bench/map_stage.h"

#include "desktop/canvas/map_canvas.h"

#include <QApplication>
#include <QElapsedTimer>
#include <QLineF>

#include <algorithm>
#include <cstdio>
#include <stdexcept>
#include <string>

using namespace fencewright;
using namespace fencewright::bench;

namespace {

const model::LineString& shellOf(const model::Fence& fence) {
    return std::get<model::DrawnPolygon>(fence.shape).polygon.shell.corners;
}

/// A corner moves by some metres, as in a drag.
model::Edit step(const model::FenceSet& set, std::size_t fence, int number) {
    model::Fence moved = set.fences[fence];
    auto& corner = std::get<model::DrawnPolygon>(moved.shape).polygon.shell.corners[number % 2];
    corner.lat += number % 3 == 0 ? 3e-5 : -2e-5;
    return model::replaceFence(set, std::move(moved), {});
}

/// 3 m, and what an aircraft at 15 m/s needs to react in a second and to brake with 4 m/s²: 46 m.
model::Margin someMargin() {
    model::Margin margin;
    margin.positionError = {Length::metres(3), "3 m"};
    margin.speed = {Speed::metresPerSecond(15), "15 m/s"};
    margin.reaction = std::chrono::duration<double>{1.0};
    margin.deceleration = {Acceleration::metresPerSecondSquared(4), "4 m/s²"};
    return margin;
}

airspace::Moment someDay() {
    using namespace std::chrono;
    return {2026y / 5 / 14, {}};
}

/// An audit after one corner has moved, against one that remembers nothing.
/// @param atMost  rounds: of large sets the latter takes long.
Figures remembered(const Options& options, int count, int corners, double partOfWidth, int atMost) {
    model::FenceSet set = fences(count, corners, countyBox(20), partOfWidth);
    audit::AuditMemory memory;
    (void)audit::audit(set, someDay(), {}, memory);
    int number = 0;
    const int rounds = std::min(options.rounds(), atMost);
    Figures figures = interleaved(
        rounds,
        [&] {
            std::vector<double> times;
            for (int i = 0; i < 10; ++i) {
                set = model::applied(set, step(set, set.fences.size() / 2, ++number));
                times.push_back(milliseconds([&] { (void)audit::audit(set, someDay(), {}, memory); }));
            }
            return median(times);
        },
        [&] { return milliseconds([&] { (void)audit::audit(set, someDay(), {}); }); });
    figures.note = std::to_string(rounds) + " rounds, ten audits after a move to each from nothing";
    return figures;
}

/// From the mouse event to the audit of the set as it is then, the map painted in between, as in a window.
Figures behindTheMouse(const Options& options, int count, int corners, double partOfWidth,
                       const std::optional<model::Margin>& margin = std::nullopt) {
    MapStage stage{options.data / "cache"};
    model::FenceSet set = fences(count, corners, countyBox(20), partOfWidth);
    set.margin = margin;
    stage.addFences(set);
    stage.map().zoomTo(countyBox(20));
    stage.map().chooseTool("select");
    stage.settle();
    const model::Roster<model::Fence>& roster = stage.document().set().fences;
    const auto cornerOf = [&](std::size_t i) { return stage.map().toWidget(shellOf(roster[i]).front()); };
    std::size_t nearest = 1;
    for (std::size_t i = 1; i < roster.size(); ++i)
        if (QLineF{cornerOf(i), QPointF{960, 540}}.length() < QLineF{cornerOf(nearest), QPointF{960, 540}}.length())
            nearest = i;
    stage.map().select(roster[nearest].id);
    stage.settle();

    const model::FenceSet before = stage.document().set();
    QPointF at = cornerOf(nearest);
    stage.moveMouse(at);
    stage.press(at, Qt::LeftButton);
    std::vector<double> times;
    for (int i = 0; i < (options.quick ? 60 : 200); ++i) {
        at += QPointF{i % 40 < 20 ? 2.0 : -2.0, i % 2 == 0 ? 3.0 : -3.0};
        QElapsedTimer since;
        since.start();
        stage.moveMouse(at, Qt::LeftButton);
        stage.paint();
        while (!stage.audit().isCurrent()) {
            if (since.elapsed() > 20'000)
                throw std::runtime_error{"the audit does not come"};
            QApplication::processEvents(QEventLoop::WaitForMoreEvents);
        }
        times.push_back(double(since.nsecsElapsed()) / 1e6);
        while (since.elapsed() < 16) // a mouse says where it is some sixty times a second
            QApplication::processEvents(QEventLoop::AllEvents, 1);
    }
    stage.release(at, Qt::LeftButton);
    if (stage.document().set() == before)
        throw std::runtime_error{"the corner was not dragged"};
    char note[80];
    std::snprintf(note, sizeof note, "95 of 100: %.1f ms", quantile(times, 0.95));
    return {.ours = median(times), .note = note};
}

} // namespace

int main(int argc, char** argv) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication application{argc, argv};
    constexpr double kTwoFrames = 2 * 1000.0 / 60;
    return runBars(
        argc, argv,
        {{"200 fences of 60 corners, many of them touching: findings and operating area behind the mouse", "ms",
          Sense::AtMost, kTwoFrames, [](const Options& options) { return behindTheMouse(options, 200, 60, 0.06); }},
         {"200 fences of 60 corners, many of them touching: findings, operating area and clear area behind the mouse",
          "ms", Sense::AtMost, kTwoFrames,
          [](const Options& options) { return behindTheMouse(options, 200, 60, 0.06, someMargin()); }},
         {"200 fences of 1,000 corners, nearly all in one heap: findings and operating area behind the mouse", "ms",
          Sense::AtMost, 100.0, [](const Options& options) { return behindTheMouse(options, 200, 1000, 0.11); }},
         {"200 fences of 60 corners: audit after a corner has moved, against one that remembers nothing", "ms",
          Sense::AtMost, 0.25, [](const Options& options) { return remembered(options, 200, 60, 0.06, 7); }},
         {"10,000 fences of 100 corners: audit after a corner has moved, against one that remembers nothing", "ms",
          Sense::AtMost, 0.05, [](const Options& options) { return remembered(options, 10'000, 100, 0.015, 3); }}});
}
