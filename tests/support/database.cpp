#include "support/database.h"

#include "exchange/database_address.h"

#include <QCoreApplication>
#include <QDir>
#include <QProcess>
#include <QProcessEnvironment>
#include <QStringList>

namespace fencewright::support {
namespace {

QStringList script(const QString& verb, const QString& folder) {
    return {QStringLiteral(FENCEWRIGHT_TESTS "/postgis_server.sh"), verb, folder};
}

} // namespace

TestServer TestServer::ofRun() {
    return {qgetenv("FENCEWRIGHT_TEST_DATABASE").toStdString(),
            qgetenv("FENCEWRIGHT_TEST_DATABASE_PASSWORD").toStdString()};
}

bool TestServer::isRequired() { return qEnvironmentVariableIsSet("FENCEWRIGHT_REQUIRE_DATABASE"); }

std::string TestServer::addressOf(const std::string& database, const std::string& user) const {
    exchange::DatabaseAddress parts = exchange::parseDatabaseAddress(address);
    parts.database = database;
    parts.user = user;
    return exchange::text(parts);
}

QByteArray TestServer::run(const std::string& database, const QByteArray& statements) const {
    QProcess process;
    QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
    environment.insert("PGPASSWORD", QString::fromStdString(password));
    process.setProcessEnvironment(environment);
    process.start("psql", {"-X", "-q", "-A", "-t", "-v", "ON_ERROR_STOP=1", "-d",
                           QString::fromStdString(addressOf(database)), "-f", "-"});
    process.write(statements);
    process.closeWriteChannel();
    if (!process.waitForFinished(120'000) || process.exitCode() != 0) {
        qWarning("psql: %s", process.readAllStandardError().constData());
        return {};
    }
    return process.readAllStandardOutput() + '\n';
}

std::string TestServer::freshDatabase(const std::string& name, bool withPostgis) const {
    const QByteArray quoted = QByteArray::fromStdString(name);
    run("postgres", "DROP DATABASE IF EXISTS " + quoted + " WITH (FORCE);\nCREATE DATABASE " + quoted + ";");
    if (withPostgis)
        run(name, "CREATE EXTENSION postgis;");
    return addressOf(name);
}

// Not below a folder of the test's own: the server's account may not pass through it.
OwnServer::OwnServer()
    : m_folder{QDir::temp().filePath(QStringLiteral("fencewright-server-%1").arg(QCoreApplication::applicationPid()))} {
    QProcess process;
    process.start("bash", script("start", m_folder));
    process.waitForFinished(60'000);
    const QList<QByteArray> lines = process.readAllStandardOutput().split('\n');
    if (process.exitCode() != 0 || lines.size() < 2)
        qWarning("no server: %s", process.readAllStandardError().constData());
    else
        m_server = {lines[0].toStdString(), lines[1].toStdString()};
}

OwnServer::~OwnServer() { QProcess::execute("bash", script("stop", m_folder)); }

void OwnServer::halt() { QProcess::execute("bash", script("halt", m_folder)); }

} // namespace fencewright::support
