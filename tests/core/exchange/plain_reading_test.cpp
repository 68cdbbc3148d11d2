// The short way of reading a layer against the long one, feature by feature: what the driver makes of a feature is
// GDAL's word, and the short way does not use it.

#include "exchange/detail/layer_reading.h"
#include "exchange/detail/plain_intake.h"
#include "exchange/vector_reader.h"
#include "support/made_layer.h"
#include "support/random_geometry.h"
#include "support/reading.h"

#include <QDir>
#include <QTemporaryDir>
#include <QtTest>

#include <bit>
#include <cstring>

using namespace fencewright;
using namespace fencewright::exchange;
using support::dataPath;

namespace {

bool sameBits(double a, double b) { return std::bit_cast<std::uint64_t>(a) == std::bit_cast<std::uint64_t>(b); }

struct Batched {
    std::vector<FeatureBatch> batches;
    BatchedAttributes attributes;
};

Batched readInBatches(const ReadRequest& request) {
    Batched read;
    read.attributes = readVectorInBatches(
        request, [&](std::vector<FeatureBatch>&& batches, const VectorContent&) { read.batches = std::move(batches); },
        {});
    return read;
}

/// Whether the short way goes to the end.
bool isPlain(const ReadRequest& request) {
    gdal::ErrorCapture said;
    detail::ReadingAccount account;
    detail::ForeignFile file = detail::openForeign(request.path, request.encoding, account);
    try {
        (void)detail::readLayerInBatches(request, file, account, said,
                                         [](std::vector<FeatureBatch>&&, const VectorContent&) {}, {});
        return true;
    } catch (const detail::NotPlain&) {
        return false;
    }
}

/// What differs; empty: nothing.
std::string difference(const VectorContent& content, const Batched& read) {
    const VectorContent& about = read.attributes.about;
    if (about.path != content.path || about.layer != content.layer || about.format != content.format ||
        about.crs != content.crs || about.fields != content.fields)
        return "the layer";
    if (about.featuresInFile != content.featuresInFile || about.featuresLeftOut != content.featuresLeftOut)
        return "counts";
    if (about.notes != content.notes)
        return "notes: " + support::notesOf(content) + "\nagainst\n" + support::notesOf(about);
    if (about.extent != content.extent)
        return "extent";
    if (read.batches.size() != read.attributes.batches.size())
        return "batches";
    std::size_t number = 0;
    for (std::size_t b = 0; b < read.batches.size(); ++b) {
        const FeatureBatch& batch = read.batches[b];
        const AttributeBatch& texts = read.attributes.batches[b];
        for (std::size_t i = 0; i < batch.size(); ++i, ++number) {
            const std::string place = "feature " + std::to_string(number);
            if (number >= content.features.size())
                return "too many";
            const Feature& feature = content.features[number];
            FeatureBatch one;
            one.add(feature);
            const std::span<const model::Position> corners = batch.cornersOf(i);
            if (corners.size() != one.corners.size())
                return place + ": number of corners";
            for (std::size_t k = 0; k < corners.size(); ++k)
                if (!sameBits(corners[k].lon, one.corners[k].lon) || !sameBits(corners[k].lat, one.corners[k].lat))
                    return place + ": corner " + std::to_string(k);
            const std::uint32_t first = batch.featureLines[i], lines = batch.featureLines[i + 1] - first;
            if (lines != one.lineKinds.size() ||
                !std::equal(one.lineKinds.begin(), one.lineKinds.end(), batch.lineKinds.begin() + first))
                return place + ": lines";
            for (std::uint32_t line = 0; line < lines; ++line)
                if (batch.lineCorners[first + line + 1] - batch.lineCorners[first] != one.lineCorners[line + 1])
                    return place + ": line " + std::to_string(line);
            if (batch.boxes[i] != one.boxes[0])
                return place + ": box";
            const auto known = [&](const std::vector<double>& heights) -> std::optional<double> {
                return i < heights.size() && !std::isnan(heights[i]) ? std::optional{heights[i]} : std::nullopt;
            };
            if (known(batch.lows) != feature.lowestZ || known(batch.highs) != feature.highestZ)
                return place + ": heights";
            if (texts.size() != feature.attributes.size() + 1 || texts[0].at(i) != feature.id)
                return place + ": identity";
            for (std::size_t c = 0; c < feature.attributes.size(); ++c)
                if (texts[c + 1].at(i) != feature.attributes[c])
                    return place + ": " + content.fields[c] + " is " + std::string{texts[c + 1].at(i)} + ", not " +
                           feature.attributes[c];
        }
    }
    return number == content.features.size() ? "" : "too few";
}

} // namespace

class PlainReadingTest : public QObject {
    Q_OBJECT

    QTemporaryDir m_folder;

private slots:
    void everyFile_isReadAsFeatureByFeature_data() {
        QTest::addColumn<QString>("path");
        for (const char* folder : {"vector-formats", "parcels", "parcels-kastoria", "parcels-overlapping", "hostile"}) {
            const QDir files{QString::fromStdString(dataPath(folder))};
            for (const QString& name : files.entryList({"*.gpkg", "*.shp", "*.fgb", "*.kmz", "*.csv"}, QDir::Files))
                QTest::newRow(qPrintable(folder + QString{"/"} + name)) << files.filePath(name);
        }
    }
    void everyFile_isReadAsFeatureByFeature() {
        QFETCH(QString, path);
        ReadRequest request;
        request.path = path.toStdString();
        const auto expected = support::tryRead(request);
        if (expected.fault) {
            QVERIFY_EXCEPTION_THROWN(readInBatches(request), Fault);
            return;
        }
        const std::string differing = difference(readVector(request, {}), readInBatches(request));
        QVERIFY2(differing.empty(), differing.c_str());
    }

    void madeLayers_areReadAsFeatureByFeature_data() {
        QTest::addColumn<QString>("suffix");
        QTest::newRow("GeoPackage") << ".gpkg";
        QTest::newRow("Shapefile") << ".shp";
    }
    void madeLayers_areReadAsFeatureByFeature() {
        QFETCH(QString, suffix);
        constexpr unsigned kLayers = 120;
        std::size_t features = 0;
        unsigned plain = 0;
        for (unsigned seed = 0; seed < kLayers; ++seed) {
            ReadRequest request;
            request.path = m_folder.filePath(QString::number(seed) + suffix).toStdString();
            const std::string what = support::writeMadeLayer(request.path, seed);
            const VectorContent content = readVector(request, {});
            features += content.features.size();
            const std::string differing = difference(content, readInBatches(request));
            QVERIFY2(differing.empty(), (what + ": " + differing).c_str());
            plain += isPlain(request) ? 1 : 0;
        }
        QVERIFY2(features > 1000, std::to_string(features).c_str());
        // Most of them, or else nothing was compared.
        QVERIFY2(plain > kLayers / 2, std::to_string(plain).c_str());
    }

    void largeShapes_areReadTheShortWay() {
        for (const int pageBytes : {512, 4096, 65'536}) {
            ReadRequest request;
            request.path = m_folder.filePath(QString{"large-%1.gpkg"}.arg(pageBytes)).toStdString();
            support::writeLargeShapes(request.path, pageBytes);
            QVERIFY2(isPlain(request), request.path.c_str());
            const std::string differing = difference(readVector(request, {}), readInBatches(request));
            QVERIFY2(differing.empty(), differing.c_str());
        }
    }

    void deletedRows_areNoShapes() {
        ReadRequest request;
        request.path = m_folder.filePath("deleted.shp").toStdString();
        support::writeLargeShapes(request.path, 4096);
        // dBASE marks a row as deleted by a star before it; rows begin where the head says, after 32 bytes a field.
        QFile table{m_folder.filePath("deleted.dbf")};
        QVERIFY(table.open(QIODevice::ReadWrite));
        const QByteArray bytes = table.readAll();
        const auto number = [&](int at) { return int(uchar(bytes[at])) + 256 * int(uchar(bytes[at + 1])); };
        for (const int row : {0, 7, 8, 29}) {
            QVERIFY(table.seek(number(8) + row * number(10)));
            QCOMPARE(table.write("*"), qint64{1});
        }
        table.close();
        const VectorContent content = readVector(request, {});
        QCOMPARE(content.features.size(), std::size_t{26});
        QVERIFY(isPlain(request));
        const std::string differing = difference(content, readInBatches(request));
        QVERIFY2(differing.empty(), differing.c_str());
    }

    void limits_holdOnTheShortWay() {
        ReadRequest request;
        request.path = dataPath("vector-formats/plots.gpkg");
        QVERIFY(isPlain(request));
        request.featureLimit = 2;
        QVERIFY_EXCEPTION_THROWN(readInBatches(request), Fault);
        request.featureLimit = 10;
        request.cornerLimit = 5;
        QVERIFY_EXCEPTION_THROWN(readInBatches(request), Fault);
    }

    void cancelled_stops() {
        ReadRequest request;
        request.path = dataPath("vector-formats/plots.gpkg");
        QVERIFY_EXCEPTION_THROWN(
            (void)readVectorInBatches(
                request, [](std::vector<FeatureBatch>&&, const VectorContent&) {},
                Progress{[](double, std::string_view doing) { return !doing.starts_with("Reading"); }}),
            Cancelled);
    }

    void geometryOfAnotherForm_isLeftToTheDriver() {
        // Every byte of a GeoPackage changed, one at a time: whatever comes of it is what the driver says.
        QFile file{QString::fromStdString(dataPath("vector-formats/plots.gpkg"))};
        QVERIFY(file.open(QIODevice::ReadOnly));
        const QByteArray whole = file.readAll();
        tests::RandomGeometry random{5};
        ReadRequest request;
        for (int i = 0; i < 150; ++i) {
            QByteArray bytes = whole;
            for (int k = random.whole(1, 30); k > 0; --k)
                bytes[random.whole(100, int(bytes.size()) - 1)] = char(random.whole(0, 255));
            request.path = support::writtenFile(m_folder.path(), "spoiled.gpkg", bytes);
            const auto expected = support::tryRead(request);
            try {
                const Batched read = readInBatches(request);
                QVERIFY(!expected.fault);
                const std::string differing = difference(expected.content, read);
                QVERIFY2(differing.empty(), (std::to_string(i) + ": " + differing).c_str());
            } catch (const Fault& fault) {
                QVERIFY2(expected.fault, fault.what());
            }
        }
    }
};

QTEST_GUILESS_MAIN(PlainReadingTest)
#include "plain_reading_test.moc"
