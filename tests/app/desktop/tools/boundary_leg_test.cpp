#include "desktop/tools/boundary_leg.h"

#include "airspace/outline.h"
#include "app/desktop/tools/tool_driver.h"
#include "desktop/tools/polygon_tool.h"
#include "fault.h"
#include "geometry/detail/common_region.h"

#include <QtTest>

#include <algorithm>
#include <random>

using namespace fencewright;
using namespace fencewright::desktop;
using geometry::detail::ExactSurface;
using Kind = ToolEvent::Kind;
using model::FenceKind;
using model::LineString;
using model::Position;

namespace {

class Random {
public:
    explicit Random(unsigned seed) : m_engine{seed} {}
    double between(double least, double most) { return std::uniform_real_distribution<double>{least, most}(m_engine); }
    std::size_t below(std::size_t count) { return std::size_t(m_engine() % count); }
    bool coin() { return m_engine() % 2 == 0; }

private:
    std::mt19937_64 m_engine;
};

enum class Form { Circle, Corridor, UnevenCorridor, PointSetback, LineSetback, AreaSetback, Parcels, Count };

/// A fence of that form, and the site that it may follow.
model::Fence fenceOf(Form form, FenceKind kind, model::FenceSet& set, Random& random) {
    const auto metres = [&](double least, double most) {
        return StatedLength{Length::metres(random.between(least, most)), ""};
    };
    const auto setback = [&](model::SiteGeometry where) -> model::Shape {
        model::Site site;
        site.id = model::freshId<model::Site>();
        site.name = "Nest";
        site.geometry = std::move(where);
        site.positionError = metres(0.0, 3.0);
        set.sites.append(site);
        return model::Setback{site.id, metres(30.0, 90.0)};
    };
    const LineString bend{metresFrom(-150, 0), metresFrom(0, random.between(-60, 60)), metresFrom(150, 40)};
    model::Fence fence = drawnFence("Store", {}, kind);
    switch (form) {
    case Form::Circle:
        fence.shape = model::Circle{metresFrom(0, 0), metres(20.0, 150.0)};
        break;
    case Form::Corridor: {
        const StatedLength width = metres(5.0, 40.0);
        fence.shape = model::Corridor{bend, width, width};
        break;
    }
    case Form::UnevenCorridor:
        fence.shape = model::Corridor{bend, metres(5.0, 40.0), metres(5.0, 40.0)};
        break;
    case Form::PointSetback:
        fence.shape = setback(metresFrom(0, 0));
        break;
    case Form::LineSetback:
        fence.shape = setback(bend);
        break;
    case Form::AreaSetback:
        fence.shape = setback(model::Polygon{{{metresFrom(-60, -40), metresFrom(70, -50), metresFrom(40, 60)}}, {}});
        break;
    default:
        fence.shape = model::ParcelUnion{
            {{"17", {{{{{metresFrom(-90, -50), metresFrom(0, -50), metresFrom(0, 40), metresFrom(-90, 50)}}, {}}}}},
             {"18", {{{{{metresFrom(0, -50), metresFrom(80, -60), metresFrom(90, 20), metresFrom(0, 40)}}, {}}}}}},
            {}};
    }
    return fence;
}

bool anyRegion(const model::MultiPolygon& a, const model::MultiPolygon& b, const model::MultiPolygon& c,
               const std::function<bool(const std::array<bool, 3>&)>& sought) {
    const ExactSurface one{a}, two{b}, three{c};
    return geometry::detail::anyRegion({&one, &two, &three}, sought);
}

} // namespace

class BoundaryLegTest : public QObject {
    Q_OBJECT

private slots:
    // A fence drawn along the outline of another shares its corners to the last bit, in their order, both of any kind:
    // whichever side the outline errs to, there is no place between them, and none in both.
    void outlines_ofEveryShape_areFollowedExactly() {
        int exact = 0;
        for (unsigned seed = 0; seed < 700; ++seed) {
            Random random{seed};
            const auto form = Form(seed % unsigned(Form::Count));
            const QByteArray which = "seed " + QByteArray::number(seed);
            PolygonTool tool{random.coin() ? FenceKind::KeepIn : FenceKind::KeepOut};
            ToolDriver driver{tool};
            const model::Fence followed =
                fenceOf(form, random.coin() ? FenceKind::KeepIn : FenceKind::KeepOut, driver.set, random);
            driver.set.fences.append(followed);
            const model::MultiPolygon outline = airspace::outline(followed, driver.set.sites);
            QCOMPARE(outline.parts.size(), std::size_t{1});
            const LineString& ring = outline.parts.front().shell.corners;
            const std::size_t count = ring.size(), first = random.below(count);
            const std::size_t steps = 1 + random.below(std::max<std::size_t>(1, count / 3));
            const std::size_t last = (first + steps) % count;
            driver.click(ring[first]);
            QVERIFY2(driver.hint().startsWith("W follows Store"), which + driver.hint().toUtf8());
            driver.send(Kind::Follow, ring[first]);
            driver.hover(ring[last]);
            // The corners between, this way round or, where that is shorter, the other.
            LineString onwards, back;
            for (std::size_t i = first; i != last; i = (i + 1) % count)
                onwards.push_back(ring[i]);
            onwards.push_back(ring[last]);
            for (std::size_t i = first; i != last; i = (i + count - 1) % count)
                back.push_back(ring[i]);
            back.push_back(ring[last]);
            const LineString line = driver.preview().line;
            QVERIFY2(line == onwards || line == back, which);
            const double told = geodesy::lengthOf(line).inMetres();
            QVERIFY2(told <= std::min(geodesy::lengthOf(onwards).inMetres(), geodesy::lengthOf(back).inMetres()) + 1e-4,
                     which);
            if (line != onwards) { // the other way round
                driver.send(Kind::Follow, ring[last]);
                QVERIFY2(driver.preview().line == onwards, which);
            }
            driver.click(ring[last]);
            // Outside of both ends' tangents: of what is round, the third corner sees the arc of a third of it whole.
            if (form != Form::Circle && form != Form::PointSetback)
                continue;
            const Position middle{(ring[first].lon + ring[last].lon) / 2.0, (ring[first].lat + ring[last].lat) / 2.0};
            const double azimuth = geodesy::inverse(metresFrom(0, 0), middle).azimuthAtStart.inDegrees();
            driver.click(geodesy::direct(metresFrom(0, 0), Angle::degrees(azimuth), Length::metres(1200)));
            driver.finish();
            QVERIFY2(driver.set.fences.size() == 2, which);
            const model::Fence& drawn = driver.set.fences[1];
            const model::MultiPolygon own = airspace::outline(drawn, driver.set.sites);
            LineString around; // both together, out of the rest of the outline and the new corner
            for (std::size_t i = last; i != first; i = (i + 1) % count)
                around.push_back(ring[i]);
            around.push_back(ring[first]);
            around.push_back(cornersOf(drawn).back());
            const model::MultiPolygon together{{{{around}, {}}}};
            QVERIFY2(!anyRegion(own, outline, {}, [](const auto& in) { return in[0] && in[1]; }), which);
            QVERIFY2(!anyRegion(together, own, outline, [](const auto& in) { return in[0] && !in[1] && !in[2]; }),
                     which);
            QVERIFY2(!anyRegion(together, own, outline, [](const auto& in) { return !in[0] && (in[1] || in[2]); }),
                     which);
            // It would have been seen: without one of the corners between there is a gap or an overlap.
            if (steps > 1) {
                LineString fewer = cornersOf(drawn);
                fewer.erase(fewer.begin() + 1);
                const model::MultiPolygon thinned{{{{fewer}, {}}}};
                QVERIFY2(anyRegion(together, thinned, outline,
                                   [](const auto& in) { return (in[0] && !in[1] && !in[2]) || (in[1] && in[2]); }),
                         which);
                ++exact;
            }
        }
        QVERIFY2(exact > 100, qPrintable(QString::number(exact)));
    }

    void touchingBoundaries_areFollowedFromOneToTheNext() {
        PolygonTool tool{FenceKind::KeepOut};
        ToolDriver driver{tool};
        const LineString west{metresFrom(0, 0), metresFrom(0, -90), metresFrom(100, -90), metresFrom(100, 5)},
            east{metresFrom(100, 5), metresFrom(100, -90), metresFrom(200, -90), metresFrom(200, 0),
                 metresFrom(150, 9)};
        driver.set.fences.append(drawnFence("West", west));
        driver.set.fences.append(drawnFence("East", east));
        driver.click(west[0]);
        driver.send(Kind::Follow, west[0]);
        driver.hover(east[3]);
        QVERIFY((driver.preview().line == LineString{west[0], west[3], east[4], east[3]}));
        QVERIFY2(driver.preview().readout.contains("along West and East"), qPrintable(driver.preview().readout));
        QVERIFY2(driver.hint().startsWith("Along West and East"), qPrintable(driver.hint()));
        // The other way round: by the south.
        driver.send(Kind::Follow, east[3]);
        QVERIFY((driver.preview().line == LineString{west[0], west[1], west[2], east[2], east[3]}));
        driver.send(Kind::StepBack); // straight again
        driver.hover(east[3]);
        QCOMPARE(driver.preview().line.size(), std::size_t{2});
        driver.send(Kind::Follow, east[3]);
        driver.click(east[3]);
        driver.click(metresFrom(100, 200));
        driver.finish();
        QCOMPARE(driver.set.fences.size(), std::size_t{3});
        QVERIFY(
            (cornersOf(driver.set.fences[2]) == LineString{west[0], west[3], east[4], east[3], metresFrom(100, 200)}));
        driver.undo();
        QCOMPARE(driver.set.fences.size(), std::size_t{2});
    }

    void typedLength_leadsAcross_toTheNeighbour() {
        PolygonTool tool{FenceKind::KeepOut};
        ToolDriver driver{tool};
        const LineString west{metresFrom(0, 0), metresFrom(0, -90), metresFrom(100, -90), metresFrom(100, 0)},
            east{metresFrom(100, 0), metresFrom(100, -90), metresFrom(200, -90), metresFrom(200, 0)};
        driver.set.fences.append(drawnFence("West", west));
        driver.set.fences.append(drawnFence("East", east));
        driver.click(west[0]);
        driver.send(Kind::Follow, west[0]);
        driver.hover(east[3]);
        driver.type("150 m");
        const LineString line = driver.preview().handles;
        QCOMPARE(line.size(), std::size_t{3});
        QVERIFY(line[1] == west[3]);
        QCOMPARE_LE(std::abs(geodesy::lengthOf(line).inMetres() - 150.0), 1e-4);
        // A place that is typed counts as one that is clicked.
        driver.hover(east[3]);
        driver.send(Kind::Follow, line.back());
        driver.type(
            (QString::number(east[3].lat, 'g', 17) + ", " + QString::number(east[3].lon, 'g', 17)).toStdString());
        QVERIFY(driver.preview().handles.size() >= 4);
    }

    void boundariesApart_areNotFollowedAcross() {
        PolygonTool tool{FenceKind::KeepOut};
        ToolDriver driver{tool};
        const LineString west{metresFrom(0, 0), metresFrom(0, -90), metresFrom(100, -90), metresFrom(100, 0)},
            east{metresFrom(100.1, 0), metresFrom(100.1, -90), metresFrom(200, -90), metresFrom(200, 0)};
        driver.set.fences.append(drawnFence("West", west));
        driver.set.fences.append(drawnFence("East", east));
        driver.click(west[0]);
        driver.send(Kind::Follow, west[0]);
        driver.hover(east[3]);
        // To about the nearest place on the one on which it begins.
        QCOMPARE_LE(geodesy::inverse(driver.preview().line.back(), west[3]).length.inMetres(), 0.5);
    }
};

QTEST_GUILESS_MAIN(BoundaryLegTest)
#include "boundary_leg_test.moc"
