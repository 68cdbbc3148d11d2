#include "session/settings.h"

#include <QDir>
#include <QFileInfo>
#include <QStandardPaths>

#include <array>

namespace fencewright::session {
namespace {

constexpr int kRecentDocuments = 10;
constexpr int kKnownServers = 200;
constexpr int kRecentCommands = 12;

QString storeFile(const QString& file) {
    if (!file.isEmpty())
        return file;
    return QStandardPaths::writableLocation(QStandardPaths::GenericConfigLocation) + "/fencewright/settings.ini";
}

} // namespace

Settings::Settings(const QString& file, QObject* parent)
    : QObject{parent}, m_store{storeFile(file), QSettings::IniFormat} {}

units::System Settings::unitSystem() const {
    return m_store.value("units").toString() == "us" ? units::System::Us : units::System::Metric;
}

void Settings::setUnitSystem(units::System system) {
    m_store.setValue("units", system == units::System::Us ? "us" : "metric");
    emit changed();
}

geodesy::Notation Settings::notation() const {
    const QString word = m_store.value("notation").toString();
    if (word == "decimal")
        return geodesy::Notation::DecimalDegrees;
    if (word == "utm")
        return geodesy::Notation::Utm;
    if (word == "mgrs")
        return geodesy::Notation::Mgrs;
    return geodesy::Notation::DegreesMinutesSeconds;
}

void Settings::setNotation(geodesy::Notation notation) {
    const auto word = [&]() -> const char* {
        switch (notation) {
        case geodesy::Notation::DecimalDegrees:
            return "decimal";
        case geodesy::Notation::Utm:
            return "utm";
        case geodesy::Notation::Mgrs:
            return "mgrs";
        case geodesy::Notation::DegreesMinutesSeconds:
            break;
        }
        return "dms";
    };
    m_store.setValue("notation", word());
    emit changed();
}

Theme Settings::theme() const {
    const QString word = m_store.value("theme").toString();
    return word == "light" ? Theme::Light : word == "dark" ? Theme::Dark : Theme::FollowSystem;
}

void Settings::setTheme(Theme theme) {
    m_store.setValue("theme", theme == Theme::Light ? "light" : theme == Theme::Dark ? "dark" : "system");
    emit changed();
}

Language Settings::language() const {
    const QString word = m_store.value("language").toString();
    return word == "en" ? Language::English : word == "de" ? Language::German : Language::FollowSystem;
}

void Settings::setLanguage(Language language) {
    m_store.setValue("language", language == Language::English ? "en" : language == Language::German ? "de" : "system");
    emit changed();
}

MapGrid Settings::mapGrid() const {
    const QString word = m_store.value("grid").toString();
    return word == "degrees" ? MapGrid::Degrees
           : word == "utm"   ? MapGrid::Utm
           : word == "mgrs"  ? MapGrid::Mgrs
                             : MapGrid::None;
}

void Settings::setMapGrid(MapGrid grid) {
    constexpr std::array words{"none", "degrees", "utm", "mgrs"};
    m_store.setValue("grid", words[std::size_t(grid)]);
    emit changed();
}

bool Settings::showsClearArea() const { return m_store.value("clearArea", true).toBool(); }

void Settings::setShowsClearArea(bool shown) {
    m_store.setValue("clearArea", shown);
    emit changed();
}

bool Settings::sharesCorners() const { return m_store.value("sharesCorners", false).toBool(); }

void Settings::setSharesCorners(bool together) {
    m_store.setValue("sharesCorners", together);
    emit changed();
}

QStringList Settings::snapsOff() const { return m_store.value("snapsOff").toStringList(); }

void Settings::setSnapsOff(const QStringList& ids) {
    m_store.setValue("snapsOff", ids);
    emit changed();
}

QStringList Settings::recentDocuments() const {
    QStringList there;
    for (const QString& path : m_store.value("recentDocuments").toStringList())
        if (QFileInfo::exists(path))
            there.append(path);
    return there.mid(0, kRecentDocuments);
}

void Settings::addRecentDocument(const QString& path) {
    QStringList paths = m_store.value("recentDocuments").toStringList();
    const QString absolute = QFileInfo{path}.absoluteFilePath();
    paths.removeAll(absolute);
    paths.prepend(absolute);
    m_store.setValue("recentDocuments", paths.mid(0, kRecentDocuments));
}

void Settings::clearRecentDocuments() { m_store.remove("recentDocuments"); }

QStringList Settings::knownServers() const { return m_store.value("knownServers").toStringList(); }

void Settings::addKnownServer(const QString& server) {
    QStringList servers = knownServers();
    servers.removeAll(server);
    servers.prepend(server);
    m_store.setValue("knownServers", servers.mid(0, kKnownServers));
}

std::optional<QString> Settings::chosenKeys(const QString& command) const {
    const QVariant keys = m_store.value("keys/" + command);
    if (!keys.isValid())
        return std::nullopt;
    // A comma in an INI file, and Qt has made a list of it.
    return keys.userType() == QMetaType::QStringList ? keys.toStringList().join(",") : keys.toString();
}

void Settings::chooseKeys(const QString& command, const QString& keys) { m_store.setValue("keys/" + command, keys); }

void Settings::forgetKeys(const QString& command) { m_store.remove("keys/" + command); }

void Settings::forgetAllKeys() { m_store.remove("keys"); }

QStringList Settings::recentCommands() const { return m_store.value("recentCommands").toStringList(); }

void Settings::addRecentCommand(const QString& command) {
    QStringList commands = recentCommands();
    commands.removeAll(command);
    commands.prepend(command);
    m_store.setValue("recentCommands", commands.mid(0, kRecentCommands));
}

QByteArray Settings::arrangement(const QString& part) const {
    return m_store.value("arrangement/" + part).toByteArray();
}

void Settings::setArrangement(const QString& part, const QByteArray& state) {
    m_store.setValue("arrangement/" + part, state);
}

void Settings::forgetArrangement() { m_store.remove("arrangement"); }

QByteArray Settings::windowGeometry() const { return m_store.value("windowGeometry").toByteArray(); }

void Settings::setWindowGeometry(const QByteArray& geometry) { m_store.setValue("windowGeometry", geometry); }

QString Settings::lastFolder() const { return m_store.value("lastFolder", QDir::homePath()).toString(); }

void Settings::setLastFolder(const QString& folder) { m_store.setValue("lastFolder", folder); }

} // namespace fencewright::session
