#include "reference/layer.h"

#include "fault.h"
#include "reference/layer_builder.h"
#include "reference/layer_cache.h"
#include "support/random_geometry.h"
#include "support/reading.h"

#include <QFile>
#include <QTemporaryDir>
#include <QtTest>

#include <cstring>

using namespace fencewright;
using exchange::Feature;
using exchange::ReadRequest;
using exchange::VectorContent;
using reference::Layer;
using support::dataPath;
using tests::RandomGeometry;

namespace {

bool same(const Feature& a, const Feature& b) {
    return a.id == b.id && a.attributes == b.attributes && a.parts == b.parts && a.lowestZ == b.lowestZ &&
           a.highestZ == b.highestZ;
}

geometry::Box boxOf(const Feature& feature) {
    geometry::Box box;
    for (const exchange::FeatureGeometry& part : feature.parts)
        if (const auto* place = std::get_if<model::Position>(&part))
            box.add(place->lon, place->lat);
        else if (const auto* line = std::get_if<model::LineString>(&part))
            box.add(geometry::boxOf(*line));
        else
            box.add(geometry::boxOf(std::get<model::Polygon>(part)));
    return box;
}

std::string textOf(RandomGeometry& random) {
    std::string text;
    for (int i = random.whole(0, 9); i > 0; --i)
        text += static_cast<char>(random.chance(0.1) ? 0 : random.whole('0', 'z'));
    return text;
}

/// Points, lines and surfaces, of one part and of several, with and without holes, and nothing at all.
VectorContent randomContent(RandomGeometry& random) {
    VectorContent content;
    content.path = "somewhere";
    content.layer = textOf(random);
    content.format = "GeoPackage";
    for (int i = random.whole(0, 3); i > 0; --i)
        content.fields.push_back("field " + std::to_string(i));
    const bool heights = random.chance(0.3);
    for (int i = random.chance(0.1) ? 0 : random.whole(0, 60); i > 0; --i) {
        Feature feature;
        feature.id = std::to_string(content.features.size());
        for (std::size_t k = 0; k < content.fields.size(); ++k)
            feature.attributes.push_back(textOf(random));
        for (int part = random.chance(0.1) ? 0 : random.chance(0.7) ? 1 : random.whole(2, 5); part > 0; --part)
            switch (random.whole(0, 3)) {
            case 0:
                feature.parts.emplace_back(random.place());
                break;
            case 1:
                feature.parts.emplace_back(random.line());
                break;
            default:
                feature.parts.emplace_back(random.chance(0.2) ? random.scribble() : random.polygon());
                std::get<model::Polygon>(feature.parts.back()).shell.closureAssumed = random.chance(0.1);
            }
        if (heights && random.chance(0.5)) {
            feature.lowestZ = random.between(-10, 100);
            feature.highestZ = random.between(100, 200);
        }
        content.extent.add(boxOf(feature));
        content.features.push_back(std::move(feature));
    }
    content.featuresInFile = content.features.size();
    content.notes.push_back({exchange::ReadNote::Kind::Changed, "feature 1", "a word"});
    return content;
}

exchange::StreamedReading saying(const VectorContent& content) {
    return [&content](const ReadRequest&, const exchange::ByteSink& to, const Progress&) {
        reference::LayerBuilder builder;
        for (const Feature& feature : content.features)
            builder.add(feature);
        builder.write(content, to);
    };
}

std::vector<Feature> inFileOrder(const Layer& layer) {
    std::vector<Feature> features(layer.size());
    for (std::size_t i = 0; i < layer.size(); ++i)
        features.at(layer.fileNumber(i)) = layer.feature(i);
    return features;
}

} // namespace

class LayerTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;
    ReadRequest m_request; ///< of a file that is there, whatever is in it

    reference::LayerCache cache() const { return {(m_folder.path() + "/kept").toStdString()}; }

private slots:
    void initTestCase() { m_request.path = support::writtenFile(m_folder.path(), "some.geojson", "{}"); }

    void layer_isWhatReadVectorGives_data() {
        QTest::addColumn<QString>("name");
        for (const char* name :
             {"vector-formats/plots.gpkg", "vector-formats/plots.kmz", "vector-formats/plots.fgb",
              "vector-formats/plots.shp", "vector-formats/plots.csv", "vector-formats/greek.shp",
              "parcels/kastoria_cad1925.shp", "parcels/nz-waca-adjustments.gpkg", "parcels/inspire_cadastralparcel.xml",
              "kml/Document-clean.kml", "hostile/truncated-shapes.shp"})
            QTest::newRow(name) << name;
    }
    void layer_isWhatReadVectorGives() {
        QFETCH(QString, name);
        ReadRequest request;
        request.path = dataPath(name.toStdString());
        const VectorContent read = exchange::readVector(request, {});
        const auto layer = reference::openLayer(reference::answerWithLayer, request, cache(), {});
        QVERIFY(!read.features.empty());
        QCOMPARE(layer->size(), read.features.size());
        const std::vector<Feature> kept = inFileOrder(*layer);
        for (std::size_t i = 0; i < kept.size(); ++i)
            QVERIFY(same(kept[i], read.features[i]));
        const VectorContent& about = layer->about();
        QVERIFY(about.path == read.path && about.layer == read.layer && about.format == read.format &&
                about.crs == read.crs && about.fields == read.fields && about.featuresInFile == read.featuresInFile &&
                about.featuresLeftOut == read.featuresLeftOut && about.notes == read.notes &&
                about.extent == read.extent);
    }

    void randomLayers_comeBackAndAnswerAsBruteForce() {
        for (unsigned seed = 0; seed < 1000; ++seed) {
            RandomGeometry random{seed};
            const VectorContent content = randomContent(random);
            QFile::remove(QString::fromStdString(reference::layerPath(cache(), m_request).string()));
            const auto layer = reference::openLayer(saying(content), m_request, cache(), {});
            const auto where = QByteArray{"seed "} + QByteArray::number(seed);
            QVERIFY2(layer->size() == content.features.size() && layer->about().extent == content.extent, where);
            const std::vector<Feature> kept = inFileOrder(*layer);
            for (std::size_t i = 0; i < kept.size(); ++i)
                QVERIFY2(same(kept[i], content.features[i]), where);

            for (int query = 0; query < 20; ++query) {
                geometry::Box window;
                if (!content.features.empty() && random.chance(0.7)) {
                    // Boxes that touch in a corner are the hard ones.
                    const auto& one = content.features[std::size_t(random.whole(0, int(kept.size()) - 1))];
                    const geometry::Box box = boxOf(one);
                    window = random.chance(0.5) ? geometry::Box{box.maxX, box.maxY, box.maxX, box.maxY} : box;
                } else {
                    const model::Position a = random.place(), b = random.place();
                    window.add(a.lon, a.lat);
                    window.add(b.lon, b.lat);
                }
                const double turn = 360.0 * random.whole(-1, 1);
                if (!window.empty() && turn != 0.0) {
                    window.minX += turn;
                    window.maxX += turn;
                }
                std::vector<std::size_t> wanted;
                for (std::size_t i = 0; i < layer->size(); ++i) {
                    const geometry::Box box = layer->box(i);
                    QVERIFY2(box == boxOf(layer->feature(i)), where);
                    bool meets = false;
                    for (const double t : {-1080.0, -720.0, -360.0, 0.0, 360.0, 720.0, 1080.0})
                        meets = meets || (!window.empty() && !box.empty() &&
                                          box.meets({window.minX + t, window.minY, window.maxX + t, window.maxY}));
                    if (meets)
                        wanted.push_back(i);
                }
                QVERIFY2(layer->meeting(window) == wanted, where);
            }
        }
    }

    void geometry_canBeDrawnBeforeTheAttributesAreRead() {
        for (unsigned seed = 0; seed < 50; ++seed) {
            RandomGeometry random{seed};
            VectorContent content = randomContent(random);
            content.fields.assign(1, "field");
            for (Feature& feature : content.features)
                feature.attributes.assign(1, "a value");
            QFile::remove(QString::fromStdString(reference::layerPath(cache(), m_request).string()));
            // In pieces of every size, as a pipe gives them: the geometry has come long before the last one.
            bool ended = false;
            const auto inPieces = [&](const ReadRequest& request, const exchange::ByteSink& to,
                                      const Progress& progress) {
                std::string body;
                saying(content)(
                    request, [&](std::string_view bytes) { body += bytes; }, progress);
                for (std::string_view rest = body; !rest.empty();) {
                    const auto size = std::min(rest.size(), std::size_t(random.whole(1, 200)));
                    ended = size == rest.size();
                    to(rest.substr(0, size));
                    rest.remove_prefix(size);
                }
            };
            std::vector<std::shared_ptr<const Layer>> drawable;
            bool early = false;
            const auto layer = reference::openLayer(inPieces, m_request, cache(), {}, [&](auto shown) {
                drawable.push_back(std::move(shown));
                early = !ended;
            });
            const auto where = QByteArray{"seed "} + QByteArray::number(seed);
            QVERIFY2(drawable.size() == 1 && drawable[0]->size() == content.features.size(), where);
            QVERIFY2(early || content.features.size() < 20, where);
            QVERIFY2(drawable[0]->about().fields.empty() && !drawable[0]->column("field"), where);
            QVERIFY2(drawable[0]->about().extent == layer->about().extent, where);
            for (std::size_t i = 0; i < layer->size(); ++i) {
                QVERIFY2(drawable[0]->parts(i) == layer->parts(i) && drawable[0]->box(i) == layer->box(i) &&
                             drawable[0]->fileNumber(i) == layer->fileNumber(i),
                         where);
                QVERIFY2(drawable[0]->id(i).empty() && drawable[0]->attribute(i, 0).empty(), where);
                QVERIFY2(layer->attribute(i, 0) == "a value", where);
            }
            QVERIFY2(drawable[0]->meeting({-1e4, -90, 1e4, 90}) == layer->meeting({-1e4, -90, 1e4, 90}), where);
            (void)reference::openLayer(inPieces, m_request, cache(), {}, [&](auto) { drawable.clear(); });
            QVERIFY2(drawable.size() == 1, where); // what is kept is whole at once
        }
    }

    void packedCorners_comeBackBitForBit() {
        for (unsigned seed = 0; seed < 1000; ++seed) {
            RandomGeometry random{seed};
            const std::size_t begin = std::size_t(random.whole(0, 9));
            std::vector<model::Position> corners;
            for (int i = random.whole(0, 40); i > 0; --i)
                switch (random.whole(0, 5)) {
                case 0: // across zero, and zero of either sign
                    corners.push_back({random.chance(0.5) ? -0.0 : random.between(-1e-9, 1e-9), 0.0});
                    break;
                case 1:
                    corners.push_back({random.magnitude(1e-300, 1e3), -random.magnitude(1e-300, 90)});
                    break;
                default:
                    corners.push_back(random.place());
                }
            if (random.chance(0.5)) // neighbours, as parcels are
                for (model::Position& corner : corners)
                    corner = {-8.5 + random.between(0, 1e-3), 43 + random.between(0, 1e-3)};
            reference::detail::CornerBlock block = reference::detail::blockOf(geometry::boxOf(corners), corners.size());
            block.beginAt(begin);
            const std::size_t end = begin + block.bytes(corners.size());
            std::string bytes(end + reference::detail::kSpareBytes, '\xff');
            reference::detail::pack(block, corners, bytes.data() + begin);
            QCOMPARE(QByteArray::fromStdString(bytes.substr(0, begin)), QByteArray(int(begin), '\xff'));
            std::fill(bytes.begin() + std::ptrdiff_t(end), bytes.end(), '\xff'); // whatever follows
            const std::size_t first = std::size_t(random.whole(0, int(corners.size())));
            std::vector<model::Position> back(corners.size() - first);
            reference::detail::unpack(block, bytes.data(), first, back);
            QVERIFY2(back.empty() ||
                         std::memcmp(back.data(), corners.data() + first, back.size() * sizeof back[0]) == 0,
                     QByteArray::number(seed));
        }
    }

    void spoiledFiles_areRefused() {
        // Every flip of a bit, and every length.
        RandomGeometry random{7};
        VectorContent content = randomContent(random);
        while (content.features.size() < 20)
            content = randomContent(random);
        QFile::remove(QString::fromStdString(reference::layerPath(cache(), m_request).string()));
        (void)reference::openLayer(saying(content), m_request, cache(), {});
        const std::string path = reference::layerPath(cache(), m_request).string();
        const std::string key = reference::layerKey(m_request);
        QFile file{QString::fromStdString(path)};
        QVERIFY(file.open(QIODevice::ReadOnly));
        const QByteArray whole = file.readAll();
        file.close();
        (void)Layer{path, key};
        QVERIFY_EXCEPTION_THROWN((Layer{path, key + "x"}), Fault);
        const std::string spoiled = (m_folder.path() + "/spoiled").toStdString();
        const auto opens = [&](const QByteArray& bytes) {
            QFile out{QString::fromStdString(spoiled)};
            if (!out.open(QIODevice::WriteOnly) || out.write(bytes) != bytes.size())
                return true;
            out.close();
            try {
                (void)Layer{spoiled, key};
                return true;
            } catch (const Fault&) {
                return false;
            }
        };
        QVERIFY(opens(whole));
        for (int i = 0; i < 3000; ++i) {
            QByteArray bytes = whole;
            const int at = i < 512 ? i % std::min<int>(512, int(bytes.size())) : random.whole(0, int(bytes.size()) - 1);
            bytes[at] = char(bytes[at] ^ (1 << random.whole(0, 7)));
            QVERIFY2(!opens(bytes), QByteArray{"flipped at "} + QByteArray::number(at));
            const int length = random.whole(0, int(whole.size()) - 1);
            QVERIFY2(!opens(whole.left(length)), QByteArray{"cut at "} + QByteArray::number(length));
        }
        QVERIFY(!opens(whole + QByteArray(8, '\0')));
    }

    void bytesThatTheReaderMadeUp_areRefusedOrHarmless() {
        // The checksum is ours; what it sums up came out of a child that a foreign file may have taken over.
        RandomGeometry random{11};
        VectorContent content = randomContent(random);
        while (content.features.size() < 5 || content.features.size() > 20)
            content = randomContent(random);
        std::string body;
        saying(content)(m_request, [&](std::string_view bytes) { body += bytes; }, {});
        int refused = 0;
        for (int i = 0; i < 3000; ++i) {
            std::string bytes = body;
            for (int k = random.whole(1, 3); k > 0; --k) {
                const auto at = std::size_t(random.whole(0, i % 2 ? 200 : int(bytes.size()) - 1));
                bytes[at] = char(random.chance(0.5) ? bytes[at] ^ (1 << random.whole(0, 7)) : random.whole(0, 255));
            }
            if (random.chance(0.1))
                bytes.resize(std::size_t(random.whole(0, int(bytes.size()))));
            QFile::remove(QString::fromStdString(reference::layerPath(cache(), m_request).string()));
            try {
                const auto layer = reference::openLayer(
                    [&](const ReadRequest&, const exchange::ByteSink& to, const Progress&) { to(bytes); }, m_request,
                    cache(), {});
                // Whatever it says now, nothing that is asked leaves the file: the sanitizers watch.
                (void)layer->meeting({-1e4, -90, 1e4, 90});
                for (std::size_t n = 0; n < layer->size(); ++n) {
                    (void)layer->feature(n);
                    (void)layer->box(n);
                    (void)layer->encloses(n, {1, 2});
                }
                for (std::size_t c = 0; c < layer->about().fields.size(); ++c)
                    (void)layer->search(c, "a", 10);
            } catch (const Fault&) {
                ++refused;
            }
        }
        QVERIFY(refused > 500);
    }

    void enclosing_isThatOfEachPart() {
        VectorContent content;
        const auto square = [](double x, double y, double side) {
            return model::Ring{{{x, y}, {x + side, y}, {x + side, y + side}, {x, y + side}}};
        };
        Feature feature;
        feature.parts = {model::Polygon{square(179, 0, 3), {square(180, 1, 1)}},
                         model::Polygon{square(180.25, 1.25, 0.5), {}}};
        content.features = {feature};
        QFile::remove(QString::fromStdString(reference::layerPath(cache(), m_request).string()));
        const auto layer = reference::openLayer(saying(content), m_request, cache(), {});
        QVERIFY(layer->encloses(0, {179.5, 0.5}));
        QVERIFY(layer->encloses(0, {-179.5 + 1.0, 0.5})); // 181.5 on the next turn
        QVERIFY(!layer->encloses(0, {180.1, 1.1}));       // in the hole
        QVERIFY(layer->encloses(0, {-179.5, 1.5}));       // in the part inside the hole
        QVERIFY(!layer->encloses(0, {178.5, 0.5}));
    }

    void search_findsSmallAndCapitalLettersAlike_exactOnesFirst() {
        VectorContent content;
        content.fields = {"NAME"};
        const char* names[] = {"Straße 1", "ΚΑΣΤΟΡΙΆ", "17", "170", "Мир", "x17y", "ÄPFEL"};
        for (const char* name : names) {
            Feature feature;
            feature.attributes = {name};
            feature.parts = {model::Position{0, 0}};
            content.features.push_back(feature);
        }
        QFile::remove(QString::fromStdString(reference::layerPath(cache(), m_request).string()));
        const auto layer = reference::openLayer(saying(content), m_request, cache(), {});
        const auto found = [&](const char* words, std::size_t limit = 10) {
            QStringList values;
            for (const std::size_t i : layer->search(0, words, limit))
                values << QString::fromStdString(std::string{layer->attribute(i, 0)});
            return values;
        };
        QCOMPARE(found("17").value(0), QString{"17"});
        QCOMPARE(found("17").size(), 3);
        QCOMPARE(found("17", 1), QStringList{"17"});
        QCOMPARE(found("x", 1).size(), 1);
        QCOMPARE(found("καστορ").size(), 1);
        QCOMPARE(found("МИР").size(), 1);
        QCOMPARE(found("äpf").size(), 1);
        QCOMPARE(found("STRASSE").size(), 0);
    }

    void changedSource_isReadAgain() {
        const std::string path = support::writtenFile(m_folder.path(), "one.csv", "lon,lat,n\n1,2,a\n");
        ReadRequest request;
        request.path = path;
        int readings = 0;
        const auto counted = [&](const ReadRequest& wanted, const exchange::ByteSink& to, const Progress& progress) {
            ++readings;
            reference::answerWithLayer(wanted, to, progress);
        };
        QCOMPARE(reference::openLayer(counted, request, cache(), {})->size(), std::size_t{1});
        QCOMPARE(reference::openLayer(counted, request, cache(), {})->size(), std::size_t{1});
        QCOMPARE(readings, 1);
        (void)support::writtenFile(m_folder.path(), "one.csv", "lon,lat,n\n1,2,a\n3,4,b\n");
        QCOMPARE(reference::openLayer(counted, request, cache(), {})->size(), std::size_t{2});
        QCOMPARE(readings, 2);
        request.where = "n = 'b'";
        const auto filtered = reference::openLayer(counted, request, cache(), {});
        QCOMPARE(filtered->size(), std::size_t{1});
        QCOMPARE(filtered->attribute(0, 2), std::string_view{"b"});
        QCOMPARE(readings, 3);
        // Damaged: made anew.
        QFile kept{QString::fromStdString(reference::layerPath(cache(), request).string())};
        QVERIFY(kept.open(QIODevice::ReadWrite) && kept.seek(kept.size() / 2) && kept.write("#") == 1);
        kept.close();
        QCOMPARE(reference::openLayer(counted, request, cache(), {})->size(), std::size_t{1});
        QCOMPARE(readings, 4);
    }

    void brokenOffReading_leavesNothing() {
        QTemporaryDir folder;
        const reference::LayerCache into{folder.path().toStdString()};
        const auto broken = [](const ReadRequest&, const exchange::ByteSink& to, const Progress&) {
            to(std::string(100'000, 'x'));
            throw Fault{"The reader crashed.", "", ""};
        };
        QVERIFY_EXCEPTION_THROWN((void)reference::openLayer(broken, m_request, into, {}), Fault);
        const auto endless = [](const ReadRequest&, const exchange::ByteSink& to, const Progress&) {
            while (true)
                to(std::string(100'000, 'x'));
        };
        QVERIFY_EXCEPTION_THROWN(
            (void)reference::openLayer(endless, m_request, {into.folder, into.byteLimit, 1'000'000}, {}), Fault);
        QCOMPARE(QDir{folder.path()}.entryList(QDir::Files | QDir::Hidden).size(), 0);
        // A child that ends itself in the middle.
        const std::string child =
            support::writtenFile(m_folder.path(), "child.sh", "#!/bin/sh\nhead -c 9000 /dev/zero\nkill -9 $$\n");
        QFile::setPermissions(QString::fromStdString(child), QFile::ReadOwner | QFile::ExeOwner | QFile::WriteOwner);
        QVERIFY_EXCEPTION_THROWN((void)reference::openLayer(child, m_request, into, {}, {}), Fault);
        QCOMPARE(QDir{folder.path()}.entryList(QDir::Files | QDir::Hidden).size(), 0);
    }

    void apart_isTheSameAsHere() {
        QTemporaryDir folder;
        ReadRequest request;
        request.path = dataPath("parcels/nz-waca-adjustments.gpkg");
        const auto here = reference::openLayer(reference::answerWithLayer, request, cache(), {});
        const auto apart = reference::openLayer(std::string{"/proc/self/exe"}, request, {folder.path().toStdString()},
                                                exchange::ChildLimits{}, {});
        QCOMPARE(apart->size(), here->size());
        for (std::size_t i = 0; i < here->size(); ++i)
            QVERIFY(same(here->feature(i), apart->feature(i)));
    }

    void cache_keepsToItsBound() {
        QTemporaryDir folder;
        RandomGeometry random{3};
        VectorContent content = randomContent(random);
        const reference::LayerCache into{folder.path().toStdString(), 1};
        for (const char* layer : {"a", "b", "c"}) {
            ReadRequest request = m_request;
            request.layer = layer;
            QCOMPARE(reference::openLayer(saying(content), request, into, {})->size(), content.features.size());
        }
        QCOMPARE(QDir{folder.path()}.entryList(QDir::Files).size(), 1);
    }
};

int main(int argc, char** argv) {
    if (argc == 2 && std::string_view{argv[1]} == "foreign")
        return exchange::answerForeignRequest(reference::answerWithLayer);
    QCoreApplication application{argc, argv};
    LayerTest test;
    return QTest::qExec(&test, argc, argv);
}

#include "layer_test.moc"
