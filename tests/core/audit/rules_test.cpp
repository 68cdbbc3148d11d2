#include "audit/audit.h"
#include "audit/rule_table.h"
#include "support/sample_set.h"

#include <QDir>
#include <QFile>
#include <QtTest>

#include <algorithm>
#include <set>

using namespace fencewright;

namespace {

const QString kSamples = FENCEWRIGHT_SOURCE "/tests/core/audit/rules/";

QString folderOf(const audit::Rule& rule) {
    auto name = QString::fromUtf8(rule.id.data(), static_cast<qsizetype>(rule.id.size()));
    return name.replace('.', '_').replace('-', '_');
}

std::vector<audit::Finding> findingsOf(const audit::Rule& rule, const model::FenceSet& set,
                                       const airspace::Moment& moment) {
    auto findings = audit::audit(set, moment, {}).findings;
    std::erase_if(findings, [&](const audit::Finding& finding) { return finding.rule != rule.id; });
    return findings;
}

QString line(const audit::Finding& finding) {
    auto text = QString::fromStdString(finding.fence  ? finding.fence->value
                                       : finding.home ? finding.home->value
                                                      : "set") +
                ": " + QString::fromStdString(finding.words.english());
    if (finding.repair)
        text += " [" + QString::fromStdString(finding.repair->title.english()) + "]";
    return text;
}

bool isSentence(std::string_view text) {
    return text.size() > 10 && text.front() >= 'A' && text.front() <= 'Z' && text.back() == '.';
}

} // namespace

class RulesTest : public QObject {
    Q_OBJECT

private slots:
    void rules_areToldInSentencesAndApart() {
        std::set<std::string_view> ids;
        for (const auto* rule : audit::rules()) {
            QVERIFY2(ids.insert(rule->id).second, rule->id.data());
            QVERIFY2(rule->id.find('.') != std::string_view::npos, rule->id.data());
            QVERIFY2(isSentence(rule->why.english), rule->id.data());
            QVERIFY2(isSentence(rule->remedy.english), rule->id.data());
            QVERIFY2(!std::string_view{rule->title.english}.empty() &&
                         std::string_view{rule->title.english}.back() != '.',
                     rule->id.data());
            QCOMPARE(audit::findRule(rule->id), rule);
        }
        QVERIFY(audit::findRule("no.such-rule") == nullptr);
    }

    void rules_haveAFileAndSamplesEach() {
        std::set<QString> ofRules, folders, files;
        for (const auto* rule : audit::rules())
            ofRules.insert(folderOf(*rule));
        for (const auto& folder : QDir{kSamples}.entryList(QDir::Dirs | QDir::NoDotAndDotDot))
            folders.insert(folder);
        for (const auto& file : QDir{FENCEWRIGHT_SOURCE "/core/audit/rules"}.entryList({"*.cpp"}, QDir::Files))
            files.insert(file.chopped(4));
        QCOMPARE(QStringList(ofRules.begin(), ofRules.end()), QStringList(folders.begin(), folders.end()));
        QCOMPARE(QStringList(ofRules.begin(), ofRules.end()), QStringList(files.begin(), files.end()));
    }

    void rule_findsWhatItsSampleShows_data() {
        QTest::addColumn<QString>("id");
        for (const auto* rule : audit::rules())
            QTest::newRow(rule->id.data()) << QString::fromUtf8(rule->id.data());
    }
    void rule_findsWhatItsSampleShows() {
        QFETCH(QString, id);
        const auto& rule = *audit::findRule(id.toStdString());
        const auto folder = kSamples + folderOf(rule) + "/";
        const auto failing = tests::sampleSet((folder + "fails.geojson").toStdString());
        const auto found = findingsOf(rule, failing.set, failing.moment);
        QStringList lines;
        for (const auto& finding : found) {
            lines << line(finding);
            QVERIFY(isSentence(finding.remedy.english()));
            QVERIFY(finding.severity == rule.severity);
        }
        QFile expected{folder + "expected.txt"};
        QVERIFY2(expected.open(QIODevice::ReadOnly), qPrintable(lines.join('\n')));
        QCOMPARE(lines.join('\n'), QString::fromUtf8(expected.readAll()).trimmed());
        QVERIFY(!found.empty());

        const auto passing = tests::sampleSet((folder + "passes.geojson").toStdString());
        const auto none = findingsOf(rule, passing.set, passing.moment);
        QVERIFY2(none.empty(), none.empty() ? "" : none.front().words.english().c_str());

        const auto repairing =
            std::find_if(found.begin(), found.end(), [](const auto& one) { return one.repair.has_value(); });
        const bool repaired = QFile::exists(folder + "repaired.geojson");
        QCOMPARE(repairing != found.end(), repaired);
        if (!repaired)
            return;
        const auto after = model::applied(failing.set, *repairing->repair);
        const auto wanted = tests::sampleSet((folder + "repaired.geojson").toStdString()).set;
        QVERIFY(after == wanted);
        QVERIFY(findingsOf(rule, after, failing.moment).size() < found.size());
        QVERIFY(model::applied(after, model::inverse(*repairing->repair)) == failing.set);
    }
};

QTEST_APPLESS_MAIN(RulesTest)
#include "rules_test.moc"
