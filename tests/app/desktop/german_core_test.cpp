// What core/ tells a person is German in a German window, to the last piece: findings, remedies, repairs, notes of
// files and refusals. What a library says, names and figures stay as they are.
#include "airspace/reshaping.h"
#include "audit/audit.h"
#include "audit/rule_table.h"
#include "desktop/window_language.h"
#include "exchange/database_address.h"
#include "exchange/detail/where_clause.h"
#include "exchange/import.h"
#include "exchange/vector_reader.h"
#include "geodesy/bearing_notation.h"
#include "geodesy/coordinate_notation.h"
#include "raster/appearance_proposal.h"
#include "raster/dataset.h"
#include "raster/detail/server_address.h"
#include "session/given_names.h"
#include "session/translated.h"
#include "store/clipping.h"
#include "store/document_file.h"
#include "support/reading.h"
#include "support/sample_set.h"
#include "units/measure_notation.h"

#include <QtTest>

#include <functional>

using namespace fencewright;

namespace {

/// Four words in a row, in small letters, as they stand in texts.
QSet<QString> fours(const QString& text) {
    QSet<QString> found;
    const QStringList words = text.toLower().split(QRegularExpression{"[^\\p{L}]+"}, Qt::SkipEmptyParts);
    for (qsizetype i = 0; i + 4 <= words.size(); ++i)
        found.insert(words.mid(i, 4).join(' '));
    return found;
}

/// The texts between quotation marks in the sources of core/.
const QSet<QString>& textsOfCore() {
    static const QSet<QString> all = [] {
        QSet<QString> found;
        const QRegularExpression literal{"\\x22((?:[^\\x22\\\\\\n]|\\\\.)*)\\x22"};
        QDirIterator files{
            QStringLiteral(FENCEWRIGHT_SOURCE "/core"), {"*.cpp", "*.h"}, QDir::Files, QDirIterator::Subdirectories};
        while (files.hasNext()) {
            QFile file{files.next()};
            if (file.open(QIODevice::ReadOnly))
                for (auto at = literal.globalMatch(QString::fromUtf8(file.readAll())); at.hasNext();)
                    found.unite(fours(at.next().captured(1)));
        }
        return found;
    }();
    return all;
}

bool hasWords(const QString& text) { return text.contains(QRegularExpression{"\\p{L}{3}"}); }

/// What of the words is not German.
class Walk {
public:
    /// @param names  what may be said as it is: what stands in it was not written by this program; empty: anything that
    ///               is not a text of core/.
    explicit Walk(QString names = {}) : m_names{std::move(names)} {}

    void walk(const Wording& words) {
        ++m_seen;
        if (words.isPhrase()) {
            const QString english = QString::fromStdString(words.text());
            const QString said = QCoreApplication::translate("core", words.text().c_str());
            // Names of formats and the like are the same in both.
            const QString own = QString{english}.remove(QRegularExpression{"%\\d\\d?"});
            if (said == english && own.contains(QRegularExpression{"\\b\\p{Ll}{3}|\\p{L}{3}\\.$"}))
                m_bad << "not translated: " + english;
            for (const Wording& thing : words.things())
                walk(thing);
            return;
        }
        QString plain = QString::fromStdString(words.text());
        plain.remove("file is not a database"); // SQLite's own
        if (!hasWords(plain))
            return;
        if (m_names.isEmpty()) {
            if (fours(plain).intersects(textsOfCore()))
                m_bad << "a text of core/ that is no phrase: " + plain;
        } else if (!m_names.contains(plain)) {
            m_bad << "not out of the sample: " + plain;
        }
    }
    void walk(const Fault& fault) {
        walk(fault.words().problem);
        walk(fault.words().place);
        walk(fault.words().remedy);
    }
    QStringList bad() const { return m_bad; }
    int seen() const { return m_seen; }

private:
    QString m_names;
    QStringList m_bad;
    int m_seen = 0;
};

QString contentOf(const QString& path) {
    QFile file{path};
    return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString{};
}

} // namespace

class GermanCoreTest : public QObject {
    Q_OBJECT

private slots:
    void everyRule_andWhatItFinds() {
        const desktop::WindowLanguage german{session::Language::German};
        int findings = 0;
        for (const audit::Rule* rule : audit::rules()) {
            Walk ofRule{"no names"};
            for (const Phrase& phrase : {rule->title, rule->why, rule->remedy})
                ofRule.walk(Wording{phrase});
            QVERIFY2(ofRule.bad().isEmpty(), qPrintable(ofRule.bad().join('\n')));
            QString folder = QString::fromUtf8(rule->id.data(), qsizetype(rule->id.size()));
            folder = FENCEWRIGHT_SOURCE "/tests/core/audit/rules/" + folder.replace('.', '_').replace('-', '_');
            const QString path = folder + "/fails.geojson";
            const tests::SampleSet sample = tests::sampleSet(path.toStdString());
            for (const audit::Finding& finding : audit::audit(sample.set, sample.moment, {}).findings) {
                Walk walk{contentOf(path)};
                walk.walk(finding.words);
                walk.walk(finding.remedy);
                if (finding.repair)
                    walk.walk(finding.repair->title);
                QVERIFY2(walk.bad().isEmpty(), qPrintable(path + '\n' + walk.bad().join('\n')));
                QVERIFY2(session::translated(finding.words) != QString::fromStdString(finding.words.english()),
                         finding.words.english().c_str());
                ++findings;
            }
        }
        QVERIFY2(findings > 26, qPrintable(QString::number(findings)));
    }

    void foreignFiles_refusedOrReadWithNotes() {
        const desktop::WindowLanguage german{session::Language::German};
        int faults = 0, notes = 0;
        QStringList bad;
        for (const char* folder : {"hostile", "malformed", "geojson-fixtures/invalid_structure", "kml",
                                   "vector-formats", "geojson-fixtures/problematic_geometries"}) {
            const auto files = QDir{QString::fromStdString(support::dataPath(folder))}.entryInfoList(QDir::Files);
            for (const QFileInfo& file : files) {
                if (file.suffix() == "md")
                    continue;
                for (const char* crs : {"", "EPSG:25829"}) {
                    exchange::ReadRequest request;
                    request.path = file.filePath().toStdString();
                    request.crs = crs;
                    Walk walk;
                    try {
                        (void)exchange::describeVector(request.path);
                        for (const exchange::ReadNote& note : exchange::readVector(request, {}).notes) {
                            walk.walk(note.place);
                            walk.walk(note.words);
                            ++notes;
                        }
                    } catch (const Fault& fault) {
                        walk.walk(fault);
                        ++faults;
                    }
                    for (const QString& one : walk.bad())
                        bad << file.fileName() + ": " + one;
                }
            }
        }
        QVERIFY2(bad.isEmpty(), qPrintable(bad.join('\n')));
        QVERIFY2(faults > 80 && notes > 40, qPrintable(QString{"%1 faults, %2 notes"}.arg(faults).arg(notes)));
    }

    void bandsOfRasters_haveGermanNames_whereTheFileGivesNone() {
        const desktop::WindowLanguage german{session::Language::German};
        const auto namesOf = [](const char* file) {
            QStringList names;
            const raster::Dataset dataset{support::dataPath(file)};
            for (const auto& band : raster::proposeAppearance(dataset).bands)
                names << session::translated(band.name);
            return names.join(", ");
        };
        QCOMPARE(namesOf("imagery/naip_m_3607824_se_17_1_20160620_sub.tif"),
                 QString{"Rot, Grün, Blau, Nahes Infrarot"});
        QCOMPARE(namesOf("imagery/stars_lc.tif"), QString{"Layer_1"}); // as its writer called it
    }

    void whatIsTyped_andRefused() {
        const desktop::WindowLanguage german{session::Language::German};
        using Try = std::function<void(const std::string&)>;
        const auto conditionOf = [](const std::string& text) {
            if (const auto why = exchange::detail::whyNoCondition(text))
                throw Fault{*why, "", ""};
        };
        QTemporaryDir folder;
        const auto fileOf = [&](const std::string& text) {
            const QString path = folder.filePath("file.gpkg");
            QFile file{path};
            if (file.open(QIODevice::WriteOnly))
                file.write(text.data(), qint64(text.size()));
            file.close();
            return path.toStdString();
        };
        const std::vector<Try> tries{
            [](const std::string& text) { (void)geodesy::parsePosition(text); },
            [](const std::string& text) { (void)geodesy::parseBearing(text); },
            [](const std::string& text) { (void)geodesy::parseAngle(text); },
            [](const std::string& text) { (void)units::parseLength(text, units::System::Metric); },
            [](const std::string& text) { (void)exchange::parseDatabaseAddress(text); },
            [](const std::string& text) { (void)exchange::parseTableName(text); },
            [](const std::string& text) { (void)raster::detail::parsedAddress(text); },
            [](const std::string& text) { (void)store::pasted(text); },
            conditionOf,
            [&](const std::string& text) { (void)store::openDocument(fileOf(text)); },
            [&](const std::string& text) { (void)raster::Dataset{fileOf(text)}; },
        };
        const std::vector<std::string> texts{
            "",
            " ",
            "hm",
            "91 0",
            "46.2",
            "46.2 -8.7 3",
            "46.2 N 8.7 N",
            "95 N 8 W",
            "29T 999 99999999",
            "29TXX 1",
            "N 95 E",
            "N 45 61 E",
            "-5 m",
            "5 parsec",
            "1/0 mi",
            "1e999 m",
            "a; b",
            "a -- b",
            "(a",
            "a)",
            "pg_sleep(1)",
            "'a",
            "\"a",
            "\"f\"(a)",
            "a$b",
            "http://",
            "ftp://a/b",
            "https://u:p@a/{x}",
            "https://a/{x}/{y}",
            "https://a b/{z}/{x}/{y}",
            "https://a/{z}/{x}/{y}/{w}",
            "postgresql://",
            "postgresql://a:99999/b",
            "postgresql://a/b?x=y",
            "a.b.c.d",
            "{",
            "[]",
            "{}",
            R"({"type":"FeatureCollection"})",
            R"({"type":"FeatureCollection","features":[{"type":"Feature"}]})",
            R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{},"geometry":{"type":"Polygon","coordinates":[[[0,0],[1,95],[1,1]]]}}]})",
            R"({"type":"Point","coordinates":["a",1]})",
            "SQLite format 3",
            std::string("SQLite format 3\0", 16) + std::string(200, 'x'),
        };
        int faults = 0;
        QStringList bad;
        for (const std::string& text : texts)
            for (const Try& one : tries)
                try {
                    one(text);
                } catch (const Fault& fault) {
                    Walk walk;
                    walk.walk(fault);
                    for (const QString& what : walk.bad())
                        bad << QString::fromStdString(text).left(15) + ": " + what;
                    ++faults;
                }
        bad.removeDuplicates();
        QVERIFY2(bad.isEmpty(), qPrintable(bad.join('\n')));
        QVERIFY2(faults > 250, qPrintable(QString::number(faults)));
    }

    /// Names that core/ gives are of the language in which they are given, and stay.
    void givenNames_areOfTheLanguageOfTheWindow() {
        model::FenceSet set;
        model::Fence nest;
        nest.id = model::freshId<model::Fence>();
        nest.name = "Nest %2";
        nest.shape = model::Circle{{-8.7, 46.2}, {Length::metres(50), "50 m"}};
        set.fences.append(nest);
        const std::vector<model::Thing> chosen{nest.id};
        const auto lastName = [&](const model::Edit& edit) {
            const model::FenceSet after = model::applied(set, edit);
            return QString::fromStdString(after.fences[after.fences.size() - 1].name);
        };
        const std::string again = store::clipped(set, chosen).text;
        const std::string nameless =
            R"({"type":"GeometryCollection","geometries":[{"type":"Point","coordinates":[-8.7,46.2]},{"type":"Polygon","coordinates":[[[0,0],[1,0],[1,1],[0,0]]]}]})";
        exchange::VectorContent file;
        file.features.resize(2);
        const model::Polygon triangle{{{{0, 0}, {1, 0}, {1, 1}}}, {}};
        file.features[0].parts = {triangle};
        file.features[1].parts = {triangle, triangle};
        model::Site site;
        const auto names = [&](const NameGiver& named) {
            QStringList given;
            given << lastName(airspace::duplicated(set, chosen, {}, named).edit);
            const auto once = store::pastedInto(set, store::pasted(again, named), named).edit;
            given << lastName(once);
            const model::FenceSet two = model::applied(set, once);
            const auto twice = store::pastedInto(two, store::pasted(again, named), named).edit;
            const model::FenceSet three = model::applied(two, twice);
            given << QString::fromStdString(three.fences[2].name);
            const auto foreign = store::pasted(nameless, named);
            given << QString::fromStdString(foreign.fences.at(0).name)
                  << QString::fromStdString(foreign.sites.at(0).name);
            for (const model::Fence& fence : exchange::asFences(file, model::FenceKind::KeepOut, {}, named).fences)
                given << QString::fromStdString(fence.name);
            given << QString::fromStdString(exchange::asSites(file, {}, named).sites.at(2).name);
            site.name.clear();
            given << QString::fromStdString(exchange::setbackFence(site, {}, named).name);
            site.name = "Horst";
            given << QString::fromStdString(exchange::setbackFence(site, {}, named).name);
            return given;
        };
        const QStringList english{"Nest %2 copy",       "Nest %2 copy", "Nest %2 copy 2",     "Pasted area",
                                  "Pasted site",        "Feature 1",    "Feature 2 (1 of 2)", "Feature 2 (2 of 2)",
                                  "Feature 2 (2 of 2)", "Setback",      "Horst, setback"};
        QCOMPARE(names({}), english);
        QCOMPARE(names(session::inWindowLanguage()), english); // of a window in English
        const desktop::WindowLanguage german{session::Language::German};
        QCOMPARE(names(session::inWindowLanguage()),
                 (QStringList{"Nest %2 (Kopie)", "Nest %2 (Kopie)", "Nest %2 (Kopie 2)", "Eingefügte Fläche",
                              "Eingefügtes Schutzobjekt", "Objekt 1", "Objekt 2 (1 von 2)", "Objekt 2 (2 von 2)",
                              "Objekt 2 (2 von 2)", "Abstandsfläche", "Horst, Abstandsfläche"}));
        QCOMPARE(names({}), english); // without a window, whatever its language
    }

    /// The walk itself sees what it is there for.
    void aPiece_thatIsEnglish_isSeen() {
        const desktop::WindowLanguage german{session::Language::German};
        Walk walk;
        walk.walk(phrase("core", "%1 has no basis.")("Nest"));
        QVERIFY(walk.bad().isEmpty());
        walk.walk(Wording{"a sentence that nobody translated", {}});
        QCOMPARE(walk.bad().size(), 1);
        walk.walk(phrase("core", "%1 is left out: %2")("a.tif", "its bands are not those of most files here."));
        QCOMPARE(walk.bad().size(), 2);
    }
};

QTEST_GUILESS_MAIN(GermanCoreTest)
#include "german_core_test.moc"
