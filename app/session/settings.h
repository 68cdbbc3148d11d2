#pragma once

#include <QByteArray>
#include <QObject>
#include <QSettings>
#include <QStringList>

#include "geodesy/coordinate_notation.h"
#include "units/measure_notation.h"

#include <optional>

namespace fencewright::session {

enum class Theme { FollowSystem, Light, Dark };

/// Of the texts of the window.
enum class Language { FollowSystem, English, German };

/// The lines over the map.
enum class MapGrid { None, Degrees, Utm, Mgrs };

/// What lasts from one start to the next. A value that cannot be read is its default.
class Settings : public QObject {
    Q_OBJECT

public:
    /// @param file  an INI file; empty: the user's own place for settings.
    explicit Settings(const QString& file = {}, QObject* parent = nullptr);

    units::System unitSystem() const;
    void setUnitSystem(units::System system);
    geodesy::Notation notation() const;
    void setNotation(geodesy::Notation notation);
    Theme theme() const;
    void setTheme(Theme theme);
    /// Takes effect when the program is started again.
    Language language() const;
    void setLanguage(Language language);
    MapGrid mapGrid() const;
    void setMapGrid(MapGrid grid);

    /// Whether the map shows what the margin leaves of the operating area.
    bool showsClearArea() const;
    void setShowsClearArea(bool shown);
    /// Whether corners of neighbours that lie together are moved together.
    bool sharesCorners() const;
    void setSharesCorners(bool together);
    /// The ids of what is not snapped to (see desktop/canvas/snap_kind.h).
    QStringList snapsOff() const;
    void setSnapsOff(const QStringList& ids);

    /// Newest first, at most ten, only those that exist.
    QStringList recentDocuments() const;
    void addRecentDocument(const QString& path);
    void clearRecentDocuments();

    /// Servers of tiles that the person has named or agreed to: scheme, host and port, never a name, password or key.
    QStringList knownServers() const;
    void addKnownServer(const QString& server);

    /// The keys a person has chosen for a command, in Qt's portable text; nothing: those given with the program.
    std::optional<QString> chosenKeys(const QString& command) const;
    void chooseKeys(const QString& command, const QString& keys);
    void forgetKeys(const QString& command);
    void forgetAllKeys();

    /// Commands used of late, the latest first, at most a dozen.
    QStringList recentCommands() const;
    void addRecentCommand(const QString& command);

    /// How a part of the window was left: a splitter, a dialog. Empty: as given.
    QByteArray arrangement(const QString& part) const;
    void setArrangement(const QString& part, const QByteArray& state);
    void forgetArrangement();

    QByteArray windowGeometry() const;
    void setWindowGeometry(const QByteArray& geometry);
    /// The folder of the last file dialog.
    QString lastFolder() const;
    void setLastFolder(const QString& folder);

signals:
    /// Units, notation, theme, grid, the clear area or what is snapped to changed.
    void changed();

private:
    mutable QSettings m_store;
};

} // namespace fencewright::session
