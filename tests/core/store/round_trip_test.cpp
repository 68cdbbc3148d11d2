#include "store/document_file.h"

#include "fault.h"
#include "store/detail/checksum.h"
#include "store/detail/value_text.h"
#include "store/recovery.h"
#include "support/memory_folder.h"
#include "support/random_sets.h"

#include <QJsonDocument>
#include <QJsonObject>
#include <QtTest>

#include <functional>
#include <limits>

using namespace fencewright;
using test::Numbers;

class RoundTripTest : public QObject {
    Q_OBJECT

private slots:
    void checksum_hasItsPublishedCheckValue() {
        // XZ file format 1.1.0, and the catalogue of parametrised CRC algorithms, CRC-64/XZ.
        QCOMPARE(store::crc64("123456789"), 0x995DC9BBDF1939FAULL);
        QCOMPARE(store::crc64Text("123456789"), "995dc9bbdf1939fa");
        QCOMPARE(store::crc64Text(""), "0000000000000000");
    }

    void openDocument_givesBackWhatWasSaved() {
        constexpr unsigned seed = 20261126;
        std::mt19937_64 random{seed};
        QTemporaryDir folder{test::memoryFolder()};
        const std::string path = folder.filePath("set.gpkg").toStdString();
        for (int round = 0; round < 1000; ++round) {
            const model::FenceSet set = test::randomSet(random, Numbers::Sensible, 2);
            store::saveDocument(set, path);
            const store::OpenedDocument opened = store::openDocument(path);
            QVERIFY2(opened.set == set, qPrintable(QString{"seed %1 round %2"}.arg(seed).arg(round)));
            QVERIFY(!opened.readOnly);
        }
        QCOMPARE(QDir{folder.path()}.entryList(QDir::Files | QDir::Hidden), QStringList{"set.gpkg"});
    }

    // Numbers with which no outline can be computed must be kept all the same.
    void openDocument_givesBackAnyNumbers() {
        constexpr unsigned seed = 20261127;
        std::mt19937_64 random{seed};
        QTemporaryDir folder{test::memoryFolder()};
        for (int round = 0; round < 1000; ++round) {
            model::FenceSet set = test::randomSet(random, Numbers::Extreme, 4);
            store::keepRecoveryCopy(folder.path().toStdString(), "any", "", set);
            const store::RecoveryCopy copy{folder.filePath("any.recovery").toStdString(), "", {}};
            QVERIFY2(store::readRecoveryCopy(copy) == set,
                     qPrintable(QString{"seed %1 round %2"}.arg(seed).arg(round)));
        }
        const std::string path = folder.filePath("set.gpkg").toStdString();
        for (int round = 0; round < 20; ++round) {
            const model::FenceSet set = test::randomSet(random, Numbers::Extreme, 1);
            store::saveDocument(set, path);
            QVERIFY2(store::openDocument(path).set == set,
                     qPrintable(QString{"seed %1 round %2"}.arg(seed).arg(round)));
        }
    }

    void saveDocument_keepsFencesThatNothingCanCompute() {
        QTemporaryDir folder{test::memoryFolder()};
        const std::string path = folder.filePath("set.gpkg").toStdString();
        model::FenceSet set;
        for (const double lon : {123456789.0, 9e15, 1e300, std::numeric_limits<double>::infinity(), 190.0}) {
            model::Fence fence;
            fence.id = model::freshId<model::Fence>();
            fence.shape = model::Corridor{
                {{0.0, 45.0}, {lon, 45.01}}, {Length::metres(100.0), "100 m"}, {Length::metres(50.0), "50 m"}};
            set.fences.append(fence);
        }
        store::saveDocument(set, path);
        QVERIFY(store::openDocument(path).set == set);
    }

    void values_keepEveryBit() {
        // -0.0 equals 0.0, so equality does not tell; and what is not a number equals nothing.
        model::Home home;
        home.place = {-0.0, std::numeric_limits<double>::quiet_NaN()};
        home.landingRadius = {Length::metres(std::numeric_limits<double>::denorm_min()), "tiny"};
        const auto read = store::valueFromText<model::Home>(store::valueText(home));
        QVERIFY(std::signbit(read.place.lon));
        QVERIFY(std::isnan(read.place.lat));
        QCOMPARE(read.landingRadius, home.landingRadius);
        QTemporaryDir folder{test::memoryFolder()};
        model::FenceSet set;
        set.homes.append(home);
        store::saveDocument(set, folder.filePath("nan.gpkg").toStdString());
        QVERIFY(std::isnan(store::openDocument(folder.filePath("nan.gpkg").toStdString()).set.homes[0].place.lat));
    }

    // Documents of layout 1: a corridor had one width, and nothing could be locked.
    void valueFromText_readsLayoutOne() {
        model::Fence fence;
        fence.id = {"f"};
        const StatedLength width{Length::metres(30.48), "100 ft"};
        fence.shape = model::Corridor{{{10.0, 50.0}, {10.1, 50.0}}, width, width};
        const auto older = [](const std::string& text, const std::function<void(QJsonObject&)>& change) {
            QJsonObject object = QJsonDocument::fromJson(QByteArray::fromStdString(text)).object();
            object.remove("locked");
            change(object);
            return QJsonDocument{object}.toJson().toStdString();
        };
        const auto oneWidth = [](QJsonObject& object) {
            QJsonObject shape = object["shape"].toObject();
            shape.insert("halfWidth", shape.value("left"));
            shape.remove("left");
            shape.remove("right");
            object["shape"] = shape;
        };
        QVERIFY(store::valueFromText<model::Fence>(older(store::valueText(fence), oneWidth)) == fence);
        const auto mixed = [&](QJsonObject& object) {
            QJsonObject shape = object["shape"].toObject();
            shape.insert("halfWidth", shape.value("left"));
            object["shape"] = shape;
        };
        QVERIFY_EXCEPTION_THROWN((void)store::valueFromText<model::Fence>(older(store::valueText(fence), mixed)),
                                 store::ValueError);
        const model::Site site{{"s"}, "Nest", {}, model::Position{1.0, 2.0}, {}, {}, false, {}, false};
        QVERIFY(store::valueFromText<model::Site>(older(store::valueText(site), [](QJsonObject&) {})) == site);
        const model::Home home{{"h"}, "Crest", model::HomeKind::Home, {1.0, 2.0}, {}, {}, false};
        QVERIFY(store::valueFromText<model::Home>(older(store::valueText(home), [](QJsonObject&) {})) == home);
    }

    // The heads of documents of layouts 1 and 2 say nothing of a margin, which is none.
    void valueFromText_readsHeadsWithoutAMargin() {
        const store::DocumentHead head{"Alder Reach", "", 3, 2, 1, 0, std::nullopt};
        QJsonObject object = QJsonDocument::fromJson(QByteArray::fromStdString(store::valueText(head))).object();
        QVERIFY(object.contains("margin"));
        object.remove("margin");
        const auto read = store::valueFromText<store::DocumentHead>(QJsonDocument{object}.toJson().toStdString());
        QVERIFY(!read.margin);
        QCOMPARE(read.title, head.title);
        QCOMPARE(read.fences, head.fences);
    }

    void valueFromText_refusesAMarginThatIsNotExact() {
        std::mt19937_64 random{12};
        model::FenceSet set;
        while (!set.margin)
            set = test::randomSet(random, Numbers::Sensible, 1);
        const store::DocumentHead head{"", "", 0, 0, 0, 0, set.margin};
        const QJsonObject whole = QJsonDocument::fromJson(QByteArray::fromStdString(store::valueText(head))).object();
        int refused = 0;
        spoil(whole, [&](const QJsonObject& spoilt, const QString& member) {
            if (member == "margin missing")
                return; // as documents of layouts 1 and 2 have it
            const std::string json = QJsonDocument{spoilt}.toJson().toStdString();
            try {
                (void)store::valueFromText<store::DocumentHead>(json);
                QFAIL(qPrintable("taken with " + member + " spoilt"));
            } catch (const store::ValueError& error) {
                ++refused;
                QVERIFY2(!error.member().empty(), error.what());
            }
        });
        QVERIFY(refused > 30);
    }

    void saveDocument_keepsAMarginThatIsNoNumber() {
        QTemporaryDir folder{test::memoryFolder()};
        const std::string path = folder.filePath("set.gpkg").toStdString();
        model::FenceSet set;
        set.margin.emplace();
        set.margin->speed = {Speed::metresPerSecond(std::numeric_limits<double>::quiet_NaN()), "fast"};
        store::saveDocument(set, path);
        const model::FenceSet read = store::openDocument(path).set;
        QVERIFY(read.margin && std::isnan(read.margin->speed.speed.inMetresPerSecond()));
        QCOMPARE(read.margin->speed.asWritten, "fast");
    }

    // Every member of a value, taken away, given another type, or joined by a stranger, is refused with its name.
    void valueFromText_refusesWhatIsNotExact_data() {
        QTest::addColumn<QByteArray>("text");
        constexpr unsigned seed = 11;
        std::mt19937_64 random{seed};
        for (int round = 0; round < 60; ++round) {
            const model::FenceSet set = test::randomSet(random, Numbers::Sensible, 1);
            if (!set.fences.empty())
                QTest::addRow("fence %d", round) << QByteArray::fromStdString(store::valueText(set.fences[0]));
        }
    }
    void valueFromText_refusesWhatIsNotExact() {
        QFETCH(QByteArray, text);
        const QJsonObject whole = QJsonDocument::fromJson(text).object();
        QVERIFY(!whole.isEmpty());
        int refused = 0;
        spoil(whole, [&](const QJsonObject& spoilt, const QString& member) {
            if (member == "locked missing")
                return; // as documents of layout 1 have it
            const QByteArray json = QJsonDocument{spoilt}.toJson();
            try {
                (void)store::valueFromText<model::Fence>(json.toStdString());
                QFAIL(qPrintable("taken with " + member + " spoilt"));
            } catch (const store::ValueError& error) {
                ++refused;
                QVERIFY2(!error.member().empty(), error.what());
            }
        });
        QVERIFY(refused > 20);
    }

    void valueFromText_refusesHostileTexts_data() {
        QTest::addColumn<QByteArray>("text");
        QTest::newRow("empty") << QByteArray{};
        QTest::newRow("half") << QByteArray{"{\"id\":\"a\""};
        QTest::newRow("a list") << QByteArray{"[]"};
        QTest::newRow("deep") << QByteArray{"["}.repeated(1'000'000);
        QTest::newRow("deep objects") << QByteArray{"{\"a\":"}.repeated(1'000'000);
        QTest::newRow("twice") << QByteArray{R"({"id":"a","id":"b"})"};
        QTest::newRow("not UTF-8") << QByteArray{"{\"id\":\"\xff\"}"};
        QTest::newRow("too large a number") << QByteArray{R"({"id":1e999})"};
        QTest::newRow("nul") << QByteArray{"{\0}", 3};
    }
    void valueFromText_refusesHostileTexts() {
        QFETCH(QByteArray, text);
        QVERIFY_EXCEPTION_THROWN((void)store::valueFromText<model::Fence>(text.toStdString()), store::ValueError);
    }

private:
    /// Calls `look` with the object once for each way to spoil one member, at any depth.
    using Look = std::function<void(const QJsonObject&, const QString&)>;
    void spoil(const QJsonObject& object, const Look& look, const QString& path = {}) {
        for (const QString& name : object.keys()) {
            const QString member = path + name;
            QJsonObject without = object;
            without.remove(name);
            look(without, member + " missing");
            QJsonObject other = object;
            other[name] = object[name].isBool() ? QJsonValue{7} : QJsonValue{true};
            look(other, member + " of another type");
            if (object[name].isObject())
                spoil(
                    object[name].toObject(),
                    [&](const QJsonObject& inner, const QString& what) {
                        QJsonObject outer = object;
                        outer[name] = inner;
                        look(outer, what);
                    },
                    member + ".");
        }
        QJsonObject more = object;
        more["stranger"] = 1;
        look(more, path + " with a stranger");
    }
};

QTEST_APPLESS_MAIN(RoundTripTest)
#include "round_trip_test.moc"
