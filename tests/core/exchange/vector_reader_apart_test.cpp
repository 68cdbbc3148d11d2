#include "exchange/detail/wire.h"
#include "exchange/vector_reader.h"
#include "support/reading.h"

#include <QElapsedTimer>
#include <QTemporaryDir>
#include <QtTest>

#include <unistd.h>

#include <csignal>
#include <cstring>

using namespace fencewright;
using exchange::ChildLimits;
using exchange::ReadRequest;
using exchange::VectorContent;
using support::dataPath;

namespace {

const std::string kThisProgram = "/proc/self/exe";

bool same(const VectorContent& a, const VectorContent& b) {
    const auto sameFeature = [](const exchange::Feature& x, const exchange::Feature& y) {
        return x.id == y.id && x.attributes == y.attributes && x.parts == y.parts && x.lowestZ == y.lowestZ &&
               x.highestZ == y.highestZ;
    };
    return a.path == b.path && a.layer == b.layer && a.format == b.format && a.crs == b.crs && a.fields == b.fields &&
           std::equal(a.features.begin(), a.features.end(), b.features.begin(), b.features.end(), sameFeature) &&
           a.featuresInFile == b.featuresInFile && a.featuresLeftOut == b.featuresLeftOut && a.notes == b.notes &&
           a.extent == b.extent;
}

bool has(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

} // namespace

class VectorReaderApartTest : public QObject {
    Q_OBJECT

private:
    QTemporaryDir m_folder;

    /// A program that does as the lines say, in place of the reader.
    std::string program(const QByteArray& lines) {
        const std::string path = support::writtenFile(m_folder.path(), "reader.sh", "#!/bin/sh\n" + lines + "\n");
        QFile::setPermissions(QString::fromStdString(path), QFile::ReadOwner | QFile::ExeOwner | QFile::WriteOwner);
        return path;
    }

    static std::string faultOf(const std::string& reader, const ChildLimits& limits = {},
                               const Progress& progress = {}) {
        ReadRequest request;
        request.path = dataPath("vector-formats/plots.gpkg");
        try {
            (void)exchange::readVectorApart(reader, request, limits, progress);
        } catch (const Cancelled&) {
            return "cancelled";
        } catch (const Fault& fault) {
            return fault.what();
        }
        return "no fault";
    }

private slots:
    void readVectorApart_answersAsReadVectorDoes_data() {
        QTest::addColumn<QString>("name");
        for (const char* name :
             {"vector-formats/plots.gpkg", "vector-formats/plots.kmz", "parcels/kastoria_cad1925.shp",
              "parcels/nz-waca-adjustments.gpkg", "parcels/inspire_cadastralparcel.xml", "kml/Document-clean.kml",
              "hostile/truncated-shapes.shp"})
            QTest::newRow(name) << name;
    }
    void readVectorApart_answersAsReadVectorDoes() {
        QFETCH(QString, name);
        ReadRequest request;
        request.path = dataPath(name.toStdString());
        const VectorContent here = exchange::readVector(request, {});
        QVERIFY(!here.features.empty());
        QVERIFY(same(exchange::readVectorApart(kThisProgram, request, {}, {}), here));
        const auto description = exchange::describeVectorApart(kThisProgram, request.path, {}, {});
        const auto described = exchange::describeVector(request.path);
        QCOMPARE(description.format, described.format);
        QCOMPARE(description.layers.size(), described.layers.size());
        QCOMPARE(description.layers[0].fields, described.layers[0].fields);
        QCOMPARE(description.layers[0].features, described.layers[0].features);
    }

    void readVectorApart_passesTheWholeRequest() {
        ReadRequest request;
        request.path = dataPath("vector-formats/plots.gpkg");
        request.layer = "plots";
        request.crs = "EPSG:3857";
        request.forceCrs = true;
        request.where = "number = '002'";
        QVERIFY(same(exchange::readVectorApart(kThisProgram, request, {}, {}), exchange::readVector(request, {})));
        request.where.clear();
        request.featureLimit = 2;
        QVERIFY(has(support::tryReadApart(request).words, "more than 2 features"));
        request.featureLimit = 10;
        request.cornerLimit = 5;
        QVERIFY(has(support::tryReadApart(request).words, "more than 5 corners"));
        ReadRequest greek;
        greek.path = dataPath("hostile/not-utf8.geojson");
        greek.encoding = "ISO-8859-7";
        QVERIFY(same(exchange::readVectorApart(kThisProgram, greek, {}, {}), exchange::readVector(greek, {})));
    }

    void readVectorApart_bringsFaultsHome() {
        ReadRequest request;
        request.path = dataPath("hostile/truncated.gpkg");
        QCOMPARE(support::tryReadApart(request).words, support::tryRead(request).words);
        request.path = dataPath("vector-formats/plots.dxf");
        QVERIFY_EXCEPTION_THROWN((void)exchange::readVectorApart(kThisProgram, request, {}, {}), exchange::MissingCrs);
    }

    void readVectorApart_outlivesACrash() {
        const std::string words = faultOf(program("kill -SEGV $$"));
        QVERIFY2(has(words, "crashed on this file") && has(words, "plots.gpkg") && has(words, "document is untouched"),
                 words.c_str());
        QVERIFY(has(words, strsignal(SIGSEGV)));
        QVERIFY(has(faultOf(program("exit 3")), "exit code 3"));
    }

    void readVectorApart_endsWhatHangs() {
        QElapsedTimer timer;
        timer.start();
        const std::string words = faultOf(program("sleep 60"), ChildLimits{std::chrono::seconds{1}, 1U << 30});
        QVERIFY2(has(words, "given up after 1 seconds") && has(words, "document is untouched"), words.c_str());
        QVERIFY(timer.elapsed() < 10'000);
    }

    void readVectorApart_endsWhatHangsInTheDriver() {
        // Five million records to take apart in one second of the processor.
        const std::string path =
            support::writtenFile(m_folder.path(), "long.csv", "lon,lat\n" + QByteArray{"1,2\n"}.repeated(5'000'000));
        ReadRequest request;
        request.path = path;
        request.featureLimit = 10'000'000;
        QVERIFY(has(support::tryReadApart(request, ChildLimits{std::chrono::seconds{1}, std::size_t{4} << 30}).words,
                    "given up"));
    }

    void readVectorApart_isCancelledWhileTheChildHangs() {
        QElapsedTimer timer;
        timer.start();
        const auto stop = Progress{[&](double, std::string_view) { return timer.elapsed() < 300; }};
        QCOMPARE(faultOf(program("sleep 60"), {}, stop), "cancelled");
        QVERIFY(timer.elapsed() < 10'000);
    }

    void readVectorApart_tellsHowFarItIs() {
        const std::string path =
            support::writtenFile(m_folder.path(), "many.csv", "lon,lat\n" + QByteArray{"1,2\n"}.repeated(200'000));
        ReadRequest request;
        request.path = path;
        std::size_t told = 0;
        const VectorContent content =
            exchange::readVectorApart(kThisProgram, request, {}, Progress{[&](double fraction, std::string_view doing) {
                                          told += has(std::string{doing}, "Reading the features") ? 1 : 0;
                                          return fraction >= 0.0 && fraction <= 1.0;
                                      }});
        QCOMPARE(content.features.size(), 200'000U);
        QVERIFY(told > 0);
    }

    void readVectorApart_doesNotBelieveAnAnswer() {
        QVERIFY(has(faultOf(program("echo this is no answer, and quite a long one at that")), "garbled"));
        QVERIFY(has(faultOf(program("printf 'C\\377\\377\\377\\377\\377\\377\\377\\177'")), "garbled"));
        QVERIFY(has(faultOf(program("printf 'C\\004\\000\\000\\000\\000\\000\\000\\000abcd'")), "garbled"));
        QVERIFY(has(faultOf(program("head -c 100 /dev/zero")), "crashed"));
    }

    void readVectorApart_handsDownNothingButTheRequest() {
        QFile open{m_folder.filePath("secret")};
        QVERIFY(open.open(QIODevice::WriteOnly));
        // A descriptor that is not closed on exec by itself, as a careless library leaves one.
        const int left = ::dup(open.handle());
        qputenv("FENCEWRIGHT_SECRET", "1");
        const QByteArray list = m_folder.filePath("list").toUtf8();
        (void)faultOf(program("ls /proc/$$/fd > " + list + "; env >> " + list));
        ::close(left);
        qunsetenv("FENCEWRIGHT_SECRET");
        QFile listed{list};
        QVERIFY(listed.open(QIODevice::ReadOnly));
        const QByteArray text = listed.readAll();
        // The shell keeps its script at a number from 10 up.
        QVERIFY2(text.startsWith("0\n1\n"), text);
        for (int descriptor = 3; descriptor < 10; ++descriptor)
            QVERIFY2(!text.contains("\n" + QByteArray::number(descriptor) + "\n"), text);
        QVERIFY2(!text.contains("FENCEWRIGHT_SECRET"), text);
        QVERIFY2(text.contains("PATH="), text);
    }

    void readVectorApart_saysThatAProgramIsMissing() {
        const std::string words = faultOf("/nowhere/reader");
        QVERIFY2(has(words, "/nowhere/reader") && has(words, "cannot be started"), words.c_str());
    }

    void readVectorApart_boundsMemory() {
#if defined(__SANITIZE_ADDRESS__)
        QSKIP("a program under the address sanitizer cannot be limited in addresses");
#endif
        const std::string path = support::writtenFile(
            m_folder.path(), "wide.csv",
            "name,lon,lat\n" + QByteArray{QByteArray{"x"}.repeated(60'000) + ",1,2\n"}.repeated(1500));
        ReadRequest request;
        request.path = path;
        const auto outcome =
            support::tryReadApart(request, ChildLimits{std::chrono::seconds{60}, std::size_t{300} << 20});
        QVERIFY(outcome.fault);
        QVERIFY2(has(outcome.words, "memory") || has(outcome.words, "crashed"), outcome.words.c_str());
        QVERIFY(has(outcome.words, path));
    }

    void decodeContent_survivesAnyDamage() {
        constexpr int kCases = 4000;
        constexpr unsigned kSeed = 7;
        ReadRequest request;
        request.path = dataPath("vector-formats/plots.gpkg");
        const std::string sound = exchange::detail::encode(exchange::readVector(request, {}));
        QVERIFY(same(exchange::detail::decodeContent(sound), exchange::readVector(request, {})));
        std::mt19937 random{kSeed};
        int refused = 0;
        for (int i = 0; i < kCases; ++i) {
            std::string bytes = sound;
            const int changes = 1 + static_cast<int>(random() % 4);
            for (int k = 0; k < changes; ++k)
                bytes[random() % bytes.size()] = static_cast<char>(random() % 3 ? random() : 0xff);
            if (random() % 4 == 0)
                bytes.resize(random() % bytes.size());
            try {
                for (const auto& feature : exchange::detail::decodeContent(bytes).features)
                    for (const auto& part : feature.parts)
                        if (const auto* place = std::get_if<model::Position>(&part))
                            QVERIFY2(std::isfinite(place->lon),
                                     qPrintable(QString{"seed %1, case %2"}.arg(kSeed).arg(i)));
            } catch (const Fault&) {
                ++refused;
            }
        }
        QVERIFY(refused > kCases / 10);
    }
};

int main(int argc, char** argv) {
    if (argc > 1 && std::strcmp(argv[1], "foreign") == 0)
        return exchange::answerForeignRequest();
    VectorReaderApartTest test;
    return QTest::qExec(&test, argc, argv);
}
#include "vector_reader_apart_test.moc"
