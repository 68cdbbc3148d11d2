#pragma once

#include <QByteArray>
#include <QString>

#include <string>

namespace fencewright::support {

/// The PostgreSQL server that tests/run.sh has started: FENCEWRIGHT_TEST_DATABASE holds its address,
/// FENCEWRIGHT_TEST_DATABASE_PASSWORD the password of its owner.
struct TestServer {
    std::string address; ///< empty: there is none
    std::string password;

    static TestServer ofRun();
    /// Whether a test without a server is a failure, and not only left out: so in tests/run.sh.
    static bool isRequired();

    /// The address of another database of that server, for another user.
    std::string addressOf(const std::string& database, const std::string& user = "keeper") const;
    /// A database of that name, made anew, with PostGIS where wanted; its address.
    std::string freshDatabase(const std::string& name, bool withPostgis = true) const;
    /// What psql prints for the statements; an empty text where they fail, after a warning.
    QByteArray run(const std::string& database, const QByteArray& statements) const;
};

/// A server of its own, for a test that ends it; see tests/postgis_server.sh.
class OwnServer {
public:
    OwnServer();
    ~OwnServer();
    OwnServer(const OwnServer&) = delete;
    OwnServer& operator=(const OwnServer&) = delete;

    const TestServer& server() const { return m_server; }
    /// Ends it at once.
    void halt();

private:
    QString m_folder;
    TestServer m_server;
};

} // namespace fencewright::support
