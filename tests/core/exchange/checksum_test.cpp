#include "exchange/checksum.h"

#include <QtTest>

using namespace fencewright;

class ChecksumTest : public QObject {
    Q_OBJECT

private slots:
    void sha256_matchesPublishedDigests_data() {
        QTest::addColumn<QByteArray>("message");
        QTest::addColumn<QByteArray>("digest");
        // NIST, "Secure Hashing: Example Values", SHA256.pdf, to FIPS 180-4 (the one- and the two-block message), and
        // the two usual ones of no and of a million characters; written down from memory.
        QTest::newRow("one block") << QByteArray{"abc"}
                                   << QByteArray{"ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"};
        QTest::newRow("two blocks") << QByteArray{"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"}
                                    << QByteArray{"248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"};
        QTest::newRow("none") << QByteArray{""}
                              << QByteArray{"e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"};
        QTest::newRow("a million") << QByteArray(1'000'000, 'a')
                                   << QByteArray{"cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"};
    }
    void sha256_matchesPublishedDigests() {
        QFETCH(QByteArray, message);
        QFETCH(QByteArray, digest);
        QCOMPARE(exchange::sha256(message.toStdString()), digest.toStdString());
    }
};

QTEST_APPLESS_MAIN(ChecksumTest)
#include "checksum_test.moc"
