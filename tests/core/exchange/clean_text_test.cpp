#include "exchange/clean_text.h"

#include <QtTest>

using namespace fencewright;
using exchange::cleanText;
using exchange::mentions;

class CleanTextTest : public QObject {
    Q_OBJECT

private slots:
    // Which byte sequences are well-formed: The Unicode Standard, table 3-7. Which characters XML may hold:
    // XML 1.0, 2.2.
    void cleanText_keepsWhatIsValid_data() {
        QTest::addColumn<QByteArray>("text");
        for (const char* text :
             {"plain", "\xC3\xA9t\xC3\xA9", "\xE2\x82\xAC", "\xF0\x9F\x9A\x81", "line\nline", "tab\there"})
            QTest::newRow(text) << QByteArray{text};
    }
    void cleanText_keepsWhatIsValid() {
        QFETCH(QByteArray, text);
        QCOMPARE(cleanText(text.toStdString()), text.toStdString());
    }

    void cleanText_mendsTheRest_data() {
        QTest::addColumn<QByteArray>("text");
        QTest::addColumn<QByteArray>("clean");
        const QByteArray mark{"\xEF\xBF\xBD"};
        QTest::newRow("a lone continuation") << QByteArray{"a\x80z"} << "a" + mark + "z";
        QTest::newRow("overlong slash") << QByteArray{"\xC0\xAF"} << mark + mark;
        QTest::newRow("surrogate") << QByteArray{"\xED\xA0\x80"} << mark + mark + mark;
        QTest::newRow("beyond Unicode") << QByteArray{"\xF4\x90\x80\x80"} << mark + mark + mark + mark;
        QTest::newRow("cut off") << QByteArray{"a\xE2\x82"} << "a" + mark + mark;
        QTest::newRow("noncharacter") << QByteArray{"\xEF\xBF\xBF"} << mark;
        QTest::newRow("control") << QByteArray{"a\x01"
                                               "b\rc"}
                                 << QByteArray{"a b c"};
        QTest::newRow("nul") << QByteArray("a\0b", 3) << QByteArray{"a b"};
        QTest::newRow("white ends") << QByteArray{" \n a b\t "} << QByteArray{"a b"};
    }
    void cleanText_mendsTheRest() {
        QFETCH(QByteArray, text);
        QFETCH(QByteArray, clean);
        QCOMPARE(QByteArray::fromStdString(cleanText(text.toStdString())), clean);
        QCOMPARE(QString::fromUtf8(clean).toUtf8(), clean);
    }

    void mentions_findsWholeWords() {
        QVERIFY(mentions("Setback of the Heron nest", "heron NEST"));
        QVERIFY(mentions("Heron", "Heron"));
        QVERIFY(mentions("(heron)", "Heron"));
        QVERIFY(!mentions("Herons", "Heron"));
        QVERIFY(mentions("Herons and a heron", "Heron"));
        QVERIFY(!mentions("anything", ""));
        QVERIFY(!mentions("", "Heron"));
    }
};

QTEST_APPLESS_MAIN(CleanTextTest)
#include "clean_text_test.moc"
